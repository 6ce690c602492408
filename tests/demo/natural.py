"""What honest customers bring that a narrow rule would stop: nicknames, moves, marriages, habits of writing, forms of print.

Each row says which rules must find something in it, and what the answer is. Where a careful manager would want one look,
the rule that asks is named; where the clerk has looked and said yes, the check converts. All names are invented.
"""

from __future__ import annotations

from typing import Any

from invented import HOUSE, Day, Row
from lanes import TAKEN

_ANSWERED = "convert"

#: As printed, and as on the card: one person.
NICKNAMES = [
    ("Bill Sampleton", "William Sampleton"), ("Bob Q. Mockridge", "Robert Quin Mockridge"),
    ("Peggy Testwell", "Margaret Testwell"), ("Liz Specimer", "Elizabeth Ann Specimer"),
    ("Jim Exampler", "James Exampler"), ("Kate Fauxley", "Katherine Fauxley"), ("Jack Drafton", "John Drafton"),
    ("Chuck Formley", "Charles E Formley"), ("Ted Placeholm", "Theodore Placeholm"), ("Sue Trialby", "Susan Trialby"),
    ("Mike J Proofman", "Michael John Proofman"), ("Tom Dummock", "Thomas Dummock"), ("Becky Sampleton", "Rebecca Sampleton"),
    ("Tony Mockridge", "Anthony Mockridge"), ("Dave Testwell", "David Testwell"), ("Cathy Specimer", "Catherine Specimer"),
    ("Andrew Exampler", "Drew Exampler"), ("Patricia Fauxley", "Pat Fauxley"),
]  # fmt: skip
#: Two persons on one account, and the one who stands at the counter.
JOINT = [
    ("Ada Sampleton & Ben Sampleton", "Ada Sampleton"), ("Ada or Ben Mockridge", "Ben Mockridge"),
    ("Cleo Testwell or Dov Specimer", "Dov Specimer"), ("Edda Exampler and Finn Exampler", "Finn Exampler"),
    ("Greta Fauxley | Hal Drafton", "Hal Drafton"), ("Ines Formley | Jory Formley", "Ines Formley"),
    ("Kit Placeholm and/or Lena Placeholm", "Lena Placeholm"), ("Mr & Mrs Milo Trialby", "Milo Trialby"),
    ("Nell Proofman & Otis Dummock JTWROS", "Otis Dummock"), ("Pia Sampleton Quin Sampleton JT TEN", "Pia Sampleton"),
    ("RHEA M MOCKRIDGE OR SOL MOCKRIDGE", "SOL MOCKRIDGE"), ("Tess & Umi Testwell", "Umi Testwell"),
    ("Mr. or Mrs. Wim Specimer", "Wim Specimer"), ("Zoe Exampler + Ada Exampler", "Ada Exampler"),
    ("Ben Fauxley Jr. and Cleo Fauxley", "Ben Fauxley"), ("Dr. Edda Drafton & Finn Drafton", "Finn Drafton"),
]  # fmt: skip
#: One name in two spellings or lengths.
SPELLINGS = [
    ("Ada Sampleton-Fauxley", "ADA SAMPLETON-FAUXLEY"), ("Ada Sampleton Fauxley", "ADA SAMPLETON-FAUXLEY"),
    ("Nell O'Proofman", "NELL OPROOFMAN"), ("Nell O\u2019Proofman", "NELL O'PROOFMAN"), ("Hal McTrialby", "HAL MCTRIALBY"),
    ("Wim van der Formley", "WIM VANDERFORMLEY"), ("Dov Mockridge Jr.", "DOV MOCKRIDGE"),
    ("Dov Mockridge", "DOV MOCKRIDGE III"), ("Otis Testwell, Jr.", "OTIS TESTWELL JR"), ("Finn Q Drafton", "FINN DRAFTON"),
    ("F. Quin Drafton", "FINN QUIN DRAFTON"), ("Mrs. Vera Exampler", "VERA EXAMPLER"),
    ("In\u00e9s Specimer", "INES SPECIMER"), ("Lena Dummock, M.D.", "LENA DUMMOCK"), ("Rev. Sol Formley", "SOL FORMLEY"),
    ("Mary-Ann Trialby", "MARY ANN TRIALBY"), ("Mary Ann Trialby", "MARYANN TRIALBY"), ("D'Arcy Fauxley", "DARCY FAUXLEY"),
    ("Zoe A. Sampleton", "ZOE ADA SAMPLETON"),
]  # fmt: skip
#: What else people have printed on the line of their name.
BESIDE_THE_NAME = [
    "{name} 217-555-0143", "{name} (217) 555-0188", "{name} DOB 04/12/1961", "{name}  Ph. 555-0121",
    "{name} DL S123-4567-8901", "{name} | 217.555.0177", "{name} | IL DL S12345678901", "{name} D.O.B. 7-30-58",
    "{name} Tel 217 555 0109", "{name} | DOB: 01/02/1990", "{name} Cell: 217-555-0166", "{name} | Home 217-555-0134",
    "{name} | {lower}@example.com",
]  # fmt: skip
#: The house, as customers write it.
HOUSE_AS_WRITTEN = [
    "QUILLFETHER GROCERY", "Quill Feather Grocery", "The Quillfeather Grocery", "Quillfeather Grocery, Inc.",
    "Quillfeather", "Quillfeather Groc.", "Quilfeather Grocery", "quillfeather grocery", "Quillfeather Grocery Co",
    "Quillfeather Groceries", "Quillfeathers Grocery", "Quillfeather-Grocery", "Quillfeather Grocery.",
    "QUILLFEATHER GROCRY",
]  # fmt: skip
#: A look settles whether this house is meant.
NEARLY_THE_HOUSE = [
    "Quillfeather Foods", "Quillfeather Grocery #7", "Quillfeather Pharmacy", "Quillfeather Grocery Springfield",
    "Quillfeather Deli", "Quillfeather Bakery", "Quillfeather Grocery Store No. 7", "Quillfeather Super Market 7",
    "Quillfeather Liquor", "Q.G.", "Quillfeather Grocery on Main", "Quillfeather Fuel",
    "Quillfeather Market", "Quillfeater Grocery",
]  # fmt: skip
#: Print that says nothing about payment; " | " stands between the lines.
HARMLESS = [
    "SECURITY FEATURES INCLUDED. DETAILS ON BACK.", "VOID IF ALTERED | ORIGINAL DOCUMENT", "MEMBER FDIC",
    "EQUAL HOUSING LENDER", "CHECK HERE FOR MOBILE DEPOSIT", "MEMO | AUTHORIZED SIGNATURE MP", "VOID AFTER 90 DAYS",
    "NOT VALID OVER $500.00", "TO REORDER CALL 217-555-0100", "FREE CHECKING", "INTEREST CHECKING | FOR", "CUSTOMER SINCE 1998",
    "THIS DOCUMENT HAS A COLORED BACKGROUND", "CANCELED CHECK IS YOUR RECEIPT", "VOID AFTER SIX MONTHS | DOLLARS",
    "ENDORSE HERE | DO NOT WRITE BELOW THIS LINE", "SENIOR CHECKING", "PROUD TO BE A GRANDMA", "HARLAND HILL PATTERN 12",
    "PHOTO SAFE DEPOSIT", "STUDENT CHECKING", "PAY TO THE ORDER OF", "PLEASE RECYCLE", "ONE DAY AT A TIME",
    "HOLD FAST TO DREAMS", "SUPPORT YOUR LIBRARY",
    "HEAT SENSITIVE LOCK DISAPPEARS WHEN RUBBED",
]  # fmt: skip
#: What customers write about the purpose.
MEMOS = [
    "groceries", "loan from Mom", "Xmas party", "acct 4471", "rent & food", "birthday gift", "Aug dues", "credit union picnic",
    "church supper", "food for Ada", "school trip", "refund of 3/4", "invoice 2218",
    "thanks!", "bill #7, paid by Ada", "deposit bottles", "Order 55",
]  # fmt: skip
#: As printed before the name changed, and as on the card now.
CHANGED = [
    ("Greta Mockridge", "Greta Testwell"), ("Pia Sampleton", "Pia Fauxley"), ("Rhea Drafton", "Rhea Q Formley"),
    ("Tess Placeholm", "Tess Trialby"), ("Umi Proofman", "Umi Dummock"), ("Vera Exampler", "Vera Specimer"),
    ("Zoe Testwell", "Zoe Mockridge"), ("Cleo Fauxley", "Cleo Drafton"), ("Edda Formley", "Edda Sampleton"),
]  # fmt: skip
#: Credit unions' drafts: name of the bank, and print.
SHARE_DRAFTS = [
    ("Specimen Community Credit Union", "SHARE DRAFT"), ("Example Teachers Federal Credit Union", ""),
    ("Sample Valley FCU | Payable through Notional Bank", "SHARE DRAFT"),
    ("Mockridge Mill Employees Credit Union | Payable through Notional Bank", ""),
    ("Placeholm County C.U.", "NCUA INSURED"), ("Proof Hill Federal Credit Union", "SHARE DRAFT | VOID AFTER 180 DAYS"),
    ("Draft Lake Community Credit Union", "YOUR SAVINGS FEDERALLY INSURED"),
]  # fmt: skip
#: Lines in Spanish: legends, memo.
SPANISH = [
    ("PAGUESE A LA ORDEN DE", "comida"), ("NO ESCRIBA DEBAJO DE ESTA LINEA", "para la fiesta"), ("ENDOSO", "pan y leche"),
    ("CARACTERISTICAS DE SEGURIDAD AL DORSO", ""), ("MIEMBRO FDIC", "mercado"), ("", "gracias, t\u00eda"),
]  # fmt: skip
#: Firms whose checks are as short as a person's, and how the clerk pressed them.
SHORT_BUSINESS = [
    ("Larch & Pebble LLC", "business"), ("Example Roofing Inc.", "business"), ("Specimen Bakery, Inc.", "business"),
    ("Dov Testwell Masonry", "business"), ("Ada's Alterations", "business"), ("Mock Orchard Supply Corp.", "business"),
    ("Proof & Sons Hardware", "business"), ("Trialby Lawn Service", "business"), ("Cleo Drafton, CPA, P.C.", "business"),
    ("Formley Farms", "business"), ("Kit Placeholm d/b/a Kit's Kites", "business"), ("Exampler Dental Group", "business"),
]  # fmt: skip


def brings(day: Day, printed: str = "", card: str = "", **changes: Any) -> Row:
    """A check made out to the house, with *printed* above the address and *card* as the name on the identification."""
    row = day.personal(**{"face.payee": HOUSE, "face.date": "11/21/2026", **changes})
    name = row["documents.name"]
    if printed:
        row["face.drawer"] = row["face.drawer"].replace(name, printed)
    row["documents.name"] = card or name
    return row


def naturally(day: Day) -> None:
    """All of them, the sound first, then those that are asked about."""
    for printed, card in (*NICKNAMES, *JOINT, *SPELLINGS):
        day.take(brings(day, printed, card))
    for form in BESIDE_THE_NAME:
        row = brings(day)
        name = row["documents.name"]
        printed = form.format(name=name, lower=name.partition(" ")[0].lower())
        row["face.drawer"] = row["face.drawer"].replace(name, printed)
        day.take(row)
    for payee in HOUSE_AS_WRITTEN:
        day.take(brings(day, **{"face.payee": payee}))
    for legends in HARMLESS:
        day.take(brings(day, **{"face.legends": legends}))
    for memo in MEMOS:
        day.take(brings(day, **{"face.memo": memo}))
    unions = [bank for bank in day.banks if bank["routing"][0] in "23"]
    for number, (drawee, legends) in enumerate(SHARE_DRAFTS):
        bank = unions[number % len(unions)]
        day.take(brings(day, bank=bank, **{"face.drawee": drawee, "face.legends": legends}))
    for legends, memo in SPANISH:
        day.take(brings(day, **{"face.legends": legends, "face.memo": memo}))
    for firm, kind in SHORT_BUSINESS:
        day.take(brings(day, firm, **{"counter.declared_kind": kind}), "", "business-check")
    for number in range(7):
        _moved(day, number)
    _asked(day)


def _moved(day: Day, number: int) -> None:
    """The card was scanned, and shows where the customer lives now or lived before."""
    row = brings(day, **{"documents.name": "", "documents.state": "", "documents.expires": ""})
    printed = row["face.drawer"].partition(" | ")[0]
    row["face.drawer"] = f"{printed} | {30 + number} Draft Avenue | Springfield IL 62704"
    row["documents.barcode"] = _barcode(printed, f"{1200 + number} PROOF COURT")
    day.take(row, "", "id-address-differs")


def _barcode(name: str, street: str) -> str:
    """What a scanner reads off the back of an Illinois card (AAMVA, version 9), controls shown as their pictures."""
    given, family = name.upper().split()
    elements = {
        "DAQ": f"{family[0]}12345678901", "DCS": family, "DDE": "N", "DAC": given, "DDF": "N", "DAD": "", "DDG": "N",
        "DCA": "D", "DCB": "NONE", "DCD": "NONE", "DBD": "05122021", "DBB": "05121980", "DBA": "05122029", "DBC": "2",
        "DAU": "067 in", "DAY": "BRO", "DAG": street, "DAI": "SPRINGFIELD", "DAJ": "IL", "DAK": "627010000",
        "DCF": "X12", "DCG": "USA",
    }  # fmt: skip
    body = "DL" + "\n".join(code + value for code, value in elements.items()) + "\r"
    text = f"@\n\x1e\rANSI 636035090001DL0031{len(body):04d}{body}"
    return text.translate({ord(control): 0x2400 + ord(control) for control in "\n\r\x1e"})


def _asked(day: Day) -> None:
    """What one look settles: asked and left to the manager, or answered by the clerk, who said yes."""
    for number, look in enumerate(
        (
            *({"rule": "payee-near-house", "face.payee": payee} for payee in NEARLY_THE_HOUSE),
            *({"rule": "drawer-differs-from-id", "printed": one, "card": other} for one, other in CHANGED),
            {"rule": "drawer-differs-from-id", "printed": "A. Sampleton", "card": "Ada Sampleton"},
            {"rule": "drawer-unclear", "printed": "Placeholm, Kit", "card": "KIT PLACEHOLM"},
            {"rule": "drawee-unclear", "face.drawee": "Specimen Financial | Springfield IL"},
            {"rule": "wording-not-understood", "face.legends": "GOOD ONLY AT THE FALL FAIR"},
            {"rule": "wording-not-understood", "face.legends": "VALID UNTIL THE HARVEST IS IN"},
        )
    ):  # fmt: skip
        rule = look.pop("rule")
        day.take(brings(day, **look), "", rule, TAKEN)
        if number % 3 == 0:
            day.take(brings(day, **look, **{"counter.confirmed": rule}), "", rule, _ANSWERED)
    # The other of Mr & Mrs: her name is not on it, and no look shows whose account it is.
    day.take(brings(day, "Mr & Mrs Otis Mockridge", "Pia Mockridge"), "", "drawer-differs-from-id", TAKEN)
