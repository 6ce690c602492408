"""The evening of the demo day: what many checks show together, the paper in the drawer, and what the tapes declare."""

from __future__ import annotations

from invented import HOUSE, LOCAL, Day, Paper, Row, cents_of, money_forms
from lanes import in_turn

_AS_READ = str.maketrans(":;<=TAOD", "⑆⑇⑈⑉⑆⑇⑈⑉")


def plant_across(day: Day) -> None:
    """Checks that are sound by themselves, and not beside one another."""
    corner = next(bank for bank in day.banks if bank["routing"] in LOCAL)

    def sound(**changes: object) -> Row:
        return day.take(day.personal(**{"face.payee": HOUSE, **changes}))

    first = sound()
    again = day.take({**first})
    day.follow(first, again, 2)
    day.fact("same-item-twice", [first, again], "the lane sent it again, two customers later")

    first = sound()
    again = day.take({**first, "counter.network": "down"}, "network-down")
    day.follow(first, again, 1)
    day.fact("same-item-converted-and-kept", [first, again], "the network went down before the void was printed")
    day.fact("converted-check-in-drawer", [first], "its paper lies there as a kept one", [again])

    first = sound(bank=corner, account="4560117232")
    again = day.take({**first, "face.micr": first["face.micr"].replace("4560117232", "4560117282")})
    day.follow(first, again, 1)
    day.fact("near-duplicate", [first, again], "fed twice, and a 3 read as an 8")

    bank = day.far()
    forged = [sound(bank=bank, **money_forms(26_875)) for _ in range(6)]
    day.fact("counterfeit-run", forged, "six accounts, six names, one amount")

    near = [
        day.take(
            day.personal(**{"face.payee": f"{HOUSE} #{number}", "counter.confirmed": "payee-near-house"}),
            "", "payee-near-house", "convert",
        )
        for number in range(11, 20)
    ]  # fmt: skip
    in_turn(day, near, "8", after=6)
    day.hasty = near[0]

    home_made = sound(bank=corner, account="456301172")
    day.fact("layout-unlike-its-bank", [home_made], "a digit was lost when it was printed at home")


def close(day: Day) -> None:
    """Empty the drawer, list its papers lane by lane, and add up the tapes."""
    papers = {id(row): _paper(row) for row in day.rows if row["taken_as"] == "kept"}

    business = [row for row in day.having("business-check", "kept") if row["counter.declared_kind"] == "business"]
    alone = next(row for row in day.having("network-down", "kept") if not day.is_told(row))
    for row, why in ((business[3], "between the lane and the office"), (alone, "handed back, out of habit")):
        del papers[id(row)]
        day.fact("kept-check-missing", [row], why)

    slip = next(row for row in business[4:] if _exchanged(row))
    papers[id(slip)] = papers[id(slip)]._replace(amount=_dollars(_exchanged(slip)))
    day.fact("drawer-amount-differs", [slip], "two digits exchanged by whoever listed it", [slip])

    converted = [row for row in day.having_nothing() if row["taken_as"] == "converted" and not day.is_told(row)]
    stray = converted[180]
    papers[id(stray)] = _paper(stray)
    day.fact("converted-check-in-drawer", [stray], "converted, not voided, put into the drawer", [stray])

    postdated = day.having("date-in-future", "returned")[0]
    papers[id(postdated)] = _paper(postdated)
    day.fact("returned-check-in-drawer", [postdated], "recorded as handed back, and held until its date", [postdated])

    stranger = day.personal(bank=day.far())
    papers[id(stranger)] = _paper(stranger)
    day.fact("drawer-check-unexplained", [], "no lane recorded it", [stranger])

    pressed = [row for row in day.rows if row.get("counter.confirmed") and _same_clerk(row, day.hasty)]
    day.fact("confirmed-unlike-the-others", pressed, "yes was pressed for the neighbouring stores' checks, too")

    listed = sorted(day.rows, key=lambda row: (row["counter.lane"], row["id"]))
    listed.insert(len(listed) // 2, stranger)
    ordered = [row for row in listed if id(row) in papers]
    day.drawer = [papers[id(row)] for row in ordered]
    day.lying = {id(row): line for line, row in enumerate(ordered, 2)}
    _declare(day, stray)


def _declare(day: Day, stray: Row) -> None:
    """The tapes: converted checks to the cent; kept ones with the stray that lies among them."""
    kept, converted = ([cents_of(row) for row in day.rows if row["taken_as"] == way] for way in ("kept", "converted"))
    kept.append(cents_of(stray))
    for way, cents in (("kept", kept), ("converted", converted)):
        day.declared += ["--total", f"{way}={_dollars(sum(cents))}", "--count", f"{way}={len(cents)}"]
    day.fact("totals-disagree", [stray], "the paper was counted with the kept ones, since it lay there")


def _same_clerk(row: Row, other: Row) -> bool:
    return row["counter.employee"] == other["counter.employee"]


def _paper(row: Row) -> Paper:
    """The paper as the imager reads it: the line where it is one, the printed number, the amount."""
    line = row["face.micr"].translate(_AS_READ)
    serial = row["face.serial"]
    return Paper(line if "⑆" in line else "", serial if serial.isdigit() else "", row["counter.amount"])


def _exchanged(row: Row) -> int:
    """The amount with the tens and ones of its dollars exchanged; 0 where nothing comes of it."""
    text = row["counter.amount"].zfill(6)
    swapped = text[:-5] + text[-4] + text[-5] + text[-3:]
    return 0 if swapped == text else int(swapped.replace(".", ""))


def _dollars(cents: int) -> str:
    return f"{cents // 100}.{cents % 100:02d}"
