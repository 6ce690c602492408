"""Whom the drawer's lines name: no organization passes for a person, and no person's own lines are an organization's.

The names are invented; their kinds are common practice.
"""

from __future__ import annotations

import os
import time

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from checkface.instruments import drawer

MANY = 2000 if os.environ.get("CHECKFACE_THOROUGH") else 200
ADDRESS = "\n12 Example Lane\nSpringfield IL 62701"

#: A sign says so. Lines are parted by a stroke between blanks.
ORGANIZATIONS = """
Springfield Elementary School | Riverdale High School | Lincoln Middle School PTA | Sacred Heart School
St Mary's School | Oak Hill Academy | Little Sprouts Preschool | Tiny Tots Daycare | Montessori House of Anytown
Anytown Public Library | Friends of the Anytown Library | Anytown Union School District | Specimen County
County of Specimen | Specimen County Treasurer | Specimen Co Clerk of Court | City of Anytown | Anytown City Hall
Town of Specimen | Village of Example | Specimen Township | Township of Example | Borough of Anytown
Parish of Specimen | State of Ohio | Commonwealth of Anywhere | Office of the Comptroller | Specimen County Sheriff
Anytown Police Benevolent | Anytown Volunteer Fire Co | Example Fire Protection District | Anytown EMS
Anytown Water Works | Anytown Sewer Authority | Anytown Housing Authority | Regional Transit Authority
Specimen Port Commission | Board of Elections | Board of Education | Specimen Tribal Council | Specimen Tribe
Nation of Specimen | Band of Specimen Indians | District Court | Probate Court of Anytown | First Baptist Church
Grace Lutheran Church | Specimen United Methodist | St Paul's Episcopal | Our Lady of Sorrows | Holy Trinity Parish
New Hope Fellowship | Calvary Chapel | Congregation Beth El | Anytown Islamic Center | Parroquia San Jose
Ministerio Luz y Vida | Specimen Ministries | Living Water Ministry | Anytown Assembly of God
Church of the Nazarene | Kingdom Hall of Specimen | Diocese of Anytown | Specimen Tabernacle | Specimen Mission
Salvation Outreach | Knights of Columbus 1234 | Masonic Lodge 45 | Elks Lodge | VFW Post 1010
American Legion Post 7 | AMVETS Post 9 | Anytown Rotary | Kiwanis of Anytown | Lions Club | Anytown Garden Club
Specimen Country Club | Anytown Yacht Club | Riverside Swim Club | 4-H Club of Anytown | Boy Scout Troop 12
Girl Scouts Troop 300 | Cub Scout Pack 55 | Anytown Little League | Specimen Soccer League | Anytown Band Boosters
Specimen Alumni | Class of 1985 Reunion | Sigma Chi Chapter | Specimen Sorority | Teamsters Local 123
Carpenters Local 9 | Electrical Workers Union | Specimen Teachers Union | Farm Workers Guild | Anytown Grange
Specimen Cooperative | Growers Co-op | Specimen Credit Committee | Anytown Chamber of Commerce
Specimen Foundation | The Bell Foundation | Bell Family Foundation | Bell Family Trust | The Bell Trust
Mary Bell Living Trust | Mary Bell Revocable Trust | Mary Bell Trustee | Mary Bell TTEE | Mary Bell, Trustee
Mary Bell Tr U/A DTD 1/2/99 | Estate of Mary Bell | Est of Mary Bell | Mary Bell Estate | Mary Bell Executor
Mary Bell, Executrix | Mary Bell Administrator | Mary Bell Pers Rep | Mary Bell Personal Representative
Mary Bell Guardian of Bo Bell | Mary Bell Guardian | Mary Bell Conservator | Mary Bell Rep Payee
Mary Bell Rep Payee for Bo Bell | Mary Bell Representative Payee | Mary Bell Cust Bo Bell UTMA
Mary Bell Custodian | Mary Bell c/f Bo Bell | Mary Bell FBO Bo Bell | Mary Bell F/B/O Bo Bell | c/o Mary Bell
Mary Bell Special Needs Trust | Mary Bell Receiver | Mary Bell Debtor in Possession | Bell Fund | Memorial Fund
Flower Fund | Scholarship Fund | Anytown Relief Fund | Christmas Fund | Petty Cash | Petty Cash Account
Payroll Account | Specimen Payroll | Operating Account | Client Trust Account | IOLTA Account | Escrow Account
Mary Bell Escrow | Rental Account | Building Fund | Mary Bell DBA Bell Lawn | Mary Bell D/B/A Bells
Mary Bell d.b.a. The Nook | Mary Bell D B A Nook | Mary Bell doing business as Nook | Mary Bell T/A Nook
Mary Bell Attorney at Law | Mary Bell, Attorney | Mary Bell Law Office | Law Offices of Mary Bell | Bell Law Firm
Bell Law Group | Bell & Bell Attorneys | Mary Bell CPA | Mary Bell C.P.A. | Mary Bell Realtor | Mary Bell Realty
Mary Bell Real Estate | Mary Bell Insurance | Mary Bell Insurance Agency | Mary Bell Masonry | Mary Bell Plumbing
Bo Bell Construction | Bo Bell Roofing | Bo Bell Trucking | Bo Bell Farms | Bo Bell Painting | Bo Bell Electric
Bo Bell Photography | Bo Bell Catering | Bo Bell Landscaping | Bo Bell Tree Service | Bo Bell Handyman
Bo Bell Hauling | Bo Bell Welding | Bo Bell Flooring | Bo Bell Drywall | Bo Bell Remodeling | Bo Bell Carpentry
Bo Bell Auto Repair | Bo Bell Towing | Bo Bell Consulting | Bo Bell Studio | Bo Bell Salon | Bo Bell Hair
Bo Bell Designs | Bo Bell Music | Bo Bell Productions | Bo Bell Enterprises | Bo Bell Properties | Bo Bell Rentals
Bo Bell Ranch | Bo Bell Dairy | Bo Bell Logging | Bo Bell Excavating | Bo Bell Paving | Bo Bell Septic
Bo Bell Locksmith | Bo Bell Upholstery | Bo Bell Bookkeeping | Bo Bell Tax Service | Bo Bell Chiropractic
Bo Bell Dental | Bo Bell DDS PA | Bo Bell MD PC | Bell Veterinary | Bell Family Dentistry | Bell Pharmacy
Bell Hardware | Bell Motors | Bell Tire | Bell Oil | Bell & Sons | Bell & Daughters | Bell Bros | Bell Brothers
Bell and Company | Bell & Co | Bell Associates | Bell Partners | Bell Group | Bell Holdings | Bell Industries
Bell Inc | Bell Inc. | Bell, Inc. | Bell L.L.C. | Bell LLC | Bell L L C | Bell Limited | Bell Ltd | Bell Corp
Bell Corporation | Bell LP | Bell LLP | Bell PLLC | Bell PC | Bell P.C. | Bell GmbH | Bell S.A. de C.V.
Bell S. de R.L. | Bell S.A. | Bell S.L. | Bell SARL | Bell Pty Ltd | First Bank | Specimen State Bank
Specimen Savings Bank | Specimen National Bank | Specimen Trust Company | Specimen Credit Union | Specimen FCU
Bank of Specimen | Happy Garden | Green Acres | Surf & Turf | 84 Lumber | Studio 54 | Ann's Nook | Joe's Place
Bell's | Smiths' Nook | The Nook | The Bells | The Bell Family | Friends of Bo Bell | Committee to Elect Bo Bell
Elect Bo Bell | Bo Bell for Mayor | Bo Bell Campaign | Citizens for Bell | Bell.com | www.bell.com | Tru5tee Bell
CHURCH OF SPEC1MEN | B0ARD OF TRADE | TRUSTEE5 OF SPECIMEN | Anytown Apartments | Bell Tower Condominiums
Oak Street HOA | Specimen Homeowners Assn | Anytown Cemetery | Bell Funeral Home | Anytown Humane Society
Anytown Food Bank | Anytown Food Pantry | Habitat for Specimen | Anytown Community Theatre | Specimen Symphony
Anytown Historical Museum | Bell Art Gallery | Specimen Zoo | Anytown Farmers Market | Bell Farm Supply
Grupo Specimen | Construcciones Bell | Servicios Bell | Taller Bell | Restaurante Bell | Panaderia Bell
Carniceria Bell | Transportes Bell | Inmobiliaria Bell | Distribuidora Bell | Hermanos Bell | Bell e Hijos
Bell y Asociados | Bell y Compania | Boulangerie Bell | Garage Bell | Bell et Fils | Entreprises Bell
BELL PLUMBING / MARY BELL | MARY BELL / BELL FARMS | MARY BELL / TRUSTEE | MARY BELL / SPECIAL ACCOUNT
MARY BELL / ATTORNEY AT LAW | MARY BELL / D/B/A NOOK
Cornerstone Builders | Bluebird Cafe | Kids Corner | Curl Up | Burger Barn | Dairy Dream | Anytown Athletics
Tri County | Mid State | Shady Acres | Troop 45 | Local 12 | Chapter 7 | District 7 | Dept of Revenue | YMCA
Anytown ISD | Bo Specimen Ministries | Bo Specimen Evangelist | Bo Specimen & Associates | Bo Specimen Jr Trucking
Bo Specimen Auctioneer | Bo Specimen Farm Acct | Bo Specimen Rental | Bo Specimen Property Mgmt
Bo Specimen Tax Acct | Bo Specimen Bail Bonds | Bo Specimen for Congress | Bo Specimen Notary
Bo Specimen Sole Prop | Bo Specimen Broker | J & J Towing | B&B Auto | C and D Tire | D's Diner | M&M Meats
Specimen's | Specimen Bros | Specimen Sisters | Specimen Family | Specimens of Anytown | House of Specimen
Citizens First | Anytown Federal | Mutual of Anytown | Specimen Living Tr | Specimen Fam Tr | Specimen Rev Tr
SMITH TR | Bo Specimen Tr | BO SPECIMEN TRSTEE | BO SPECIMEN TRUSTE | BO SPECIMEN EXEC | BO SPECIMEN EXTR
BO SPECIMEN ADMR | BO SPECIMEN GDN | BO SPECIMEN CONS | BO SPECIMEN AGENT | BO SPECIMEN VP | BO SPECIMEN PRES
BO SPECIMEN OWNER | BO SPECIMEN CFO | BO SPECIMEN MGR | BO SPECIMEN SECY | BO SPECIMEN TREAS | BO SPECIMEN, SUPT
BO SPECIMEN ESQ | Bo Specimen Homes | Bo Specimen Contr | Bo Specimen Const | Bo Specimen Elec | Bo Specimen Plbg
Bo Specimen Mfg | Bo Specimen Svc | Bo Specimen Ins | Bo Specimen Ent | Bo Specimen Intl | Specimen Dist
Specimen Assoc | Specimen Assn | Specimen Fdn | Specimen Fndn | Specimen Inst | Specimen Univ | Specimen Elem
Specimen HS | Specimen Bapt Ch | St Johns Ch | First Presby | Bethel AME | Sons of Italy | Daughters of Charity
Sisters of Mercy | Order of Specimen | Faith Temple | Grace Chapel | Victory Outreach
"""
#: Nothing says so, and yet a clerk must look.
DOUBTFUL = """
Anytown Planning Board | Temple Beth Specimen
Specimen Lodge No 12 | Moose Lodge 99 | Eagles Aerie 55 | Alpha Beta Gamma | BELL LNC | Banco de Specimen
Keystone Bank | Golden Dragon | Golden Wok | Lucky Star | Maple Ridge | Maple Leaf | Oak Ridge | Cedar Creek
Pine Valley | Silver Creek | Eagle Ridge | Blue Heron | Red Barn | Sunny Side | Sunrise Valley | Sunset Ridge
Mountain View | River Bend | Harbor Lights | Stone Creek | Rocky Point | Black Bear | White Oak | Wild Rose
Main Street | Corner Nook | Hidden Springs | Crystal Falls | Twin Oaks | Four Seasons | Three Amigos | Triple Crown
Double Eagle | Royal Palms | Grand Central | Classic Touch | Perfect Fit | Simply Elegant | Just Desserts
Pure Bliss | Fresh Start | Quick Stop | Speedy Clean | Best Value | Smart Choice | Bright Beginnings | New Horizons
First Choice | Premier Plus | Elite Performance | All Seasons | Top Notch | Golden Scissors | Cutting Edge
Shear Delight | Paws & Claws | Bits & Bytes | Odds & Ends | Heart & Soul | Salt & Pepper | Rock & Roll | Wash & Dry
El Toro | El Rancho Grande | Los Amigos | Las Palmas | La Michoacana | La Esperanza | Mi Casa | Casa Bonita
Tierra Caliente | Brown, Smith and Davis | Brown, Smith & Davis | Smith & Davis | Smith and Davis | Smith-Davis
Garza-Salas | Garza y Salas | Brown Smith and Davis | Smith Davis & Brown | Baker, Bell | Specimen | SPECIMEN
Nook | Zorvexa | RJT | RJT Bell | B & B | A-1 Bell | AAA Bell | ABC Bell | 7 Eleven | 99 Cents Only
Meals on Wheels | GOLDEN TOUCH / MARY BELL | SUNSHINE / MARY BELL | ZEPHYR / MARY BELL | MARY BELL / ZEPHYR
Prairie Wind | Walnut Grove | Valley View | Hope Springs | Zen Garden | Ocean Breeze | Hilltop Haven
Starlight Lanes | Busy Bees | Wee Care | Snip N Clip | Nip & Tuck | Tasty Freeze | Hometown Heroes | North Star
South Side | East End | Westwood | Northgate | Lakeshore Villas | Whispering Pines | Sleepy Hollow | Camp Specimen
Post 1234 | Lodge 34 | Ward 5 | Precinct 9 | 4H | PS 118 | MS 22 | A & W | Peoples Choice | BO SPECIMEN CRP
BO SPECIMEN LMT | Bo Specimen Htg & Clg | Bo Specimen Bldrs | 1st Baptist | Holy Cross | Sacred Heart | St Jude
Saint Francis | San Juan | Santa Maria | Our Savior | Good Shepherd | Living Word | New Life | Abundant Life
Agape | Emmanuel | Bethany | Mt Zion | Mount Olive | Calvary | Trinity
"""
PERSONS = """
Ada Sample | Ada Q Sample | A Q Sample | A. Sample | ADA Q. SAMPLE | Ada Sample Jr | Ada Sample, Jr. | Ada Sample III | Ada Sample, II
Ada Sample MD | Ada Sample, M.D. | Ada Sample PhD | Ada Sample, Ph.D. | Ada Sample DDS | Ada Sample RN | Dr Ada Sample | Dr. Ada Sample MD
Rev Ada Sample | Rev. Ada Sample | Mr Bo Sample | Mr. & Mrs. Bo Sample | MR AND MRS BO SAMPLE | Mr & Mrs Sample | Mr. or Mrs. Bo O'Specimen-Example, Jr.
Ada & Bo Sample | Ada and Bo Sample | Ada or Bo Sample | ADA AND/OR BO SAMPLE | Ada Sample & Bo Specimen | Ada Sample or Bo Specimen
Ada Sample / Bo Sample | Ada Sample and / Bo Sample | Ada Q Sample / Bo Q Sample | Ada & Bo Sample / Cy Sample
Ada Sample JT TEN | Ada Sample & Bo Sample JTWROS | Ada & Bo Sample JT | Ada Sample & Bo Sample TEN COM | Ada Sample / Bo Sample JT WROS
Ada Sample & Bo Sample J.T.W.R.O.S. | Ada & Bo Sample, Joint Tenants | Ada & Bo Sample, husband and wife | Ada & Bo Sample tenants in common
O'Brien Sample | Ada O'Sample | Ada Specimen-Sample | Ada-Bo Sample | Anne-Marie St. Sample | Ada de la Sample | María del Carmen Sample Specimen
José Muñoz Ñandú | Dar'я Зразок | Juan y María Specimen | ADA SAMPLE DE SPECIMEN | Bo Van Sample | Nguyen Van Specimen | Hai Do | Jo Ng
Ada Sample 555-0100 | Ada Sample (555) 555-0100 | ADA SAMPLE PH 555-0100 | Ada Sample / (555) 555-0100 | Ada Sample Tel: 555.555.0100
Ada Sample / Home 555-0100 | Ada Sample / Cell: 555-555-0100 | Ada Sample DOB 01/02/1980 | Ada Sample / D.O.B. 1-2-80 | Ada Sample 01/02/1980
Ada Sample DL S1234567 | Ada Sample / DL# S123-4567-8901 | ADA SAMPLE / IL DL S123 4567 8901 | Ada Sample / Lic No 12345678 | Ada Sample / Driver's License 1234567
Ada Sample 1043 | 1043 Ada Sample | Ada Sample # 12 | Ada Sample ada@example.com | J0HN SAMPLE | ADA SAMP1E | ADA 5AMPLE
Ann Baker | John Cook | Ann Bishop | Ann King | Ann Park | Hal Hall | Ann Stone | Ann Wood | Bo Carpenter | Bo Taylor | Bo Miller | Bo Mills
Mason Sample | Grace Bell | Faith Sample | Jasmine Rivers | Summer Brooks | Ann Ball | Ann Gaines | Tod Sample | Don Sample | Charity Sample
Ada Fields | Rose Sample | Ana Mercado | Ana Plaza | Ana Mesa | Hunter Page | Chase Young | Ann Cross | Ann Bell | Bo Frost | Dallas West
"""
ADDRESSES = [
    "12 Maple St\nAnytown PA 15001", "12 MAPLE STREET APT 4B\nANYTOWN, PA 15001-1234", "PO BOX 12\nANYTOWN PA 15001",
    "RR 1 BOX 12\nANYTOWN PA 15001", "APT 4\n12 MAPLE ST\nANYTOWN PA 15001", "CHURCH ROAD\nANYTOWN PA 15001",
    "ONE UNIVERSITY PLACE APT 4\nANYTOWN PA 15001", "12 COURT ST\nCOUNTY OF MARIN, CALIFORNIA", "12 Calle Sol\nPonce PR 00716",
    "12 MAPLE ST\nSTATE COLLEGE, PENNSYLVANIA 16801\n(555) 555-0100", "PSC 455 BOX 12\nFPO AP 96540", "12 ELM ST\nBOISE ID 83701",
    "12 MARKET ST\nKANSAS CITY, MO", "",
]  # fmt: skip
UNCLEAR_CAPACITIES = [
    "Ada Sample POD Bo Sample", "Ada Sample P.O.D. Bo Sample", "Ada Sample ITF Bo Sample", "Ada Sample in trust for Bo Sample",
    "Ada Sample TOD Bo Sample", "Ada Sample\nPOD Bo Sample", "Ada Sample POA",
    "Ada Sample\nBo Specimen Attorney in Fact", "Ada Sample payable on death Bo Sample",
]  # fmt: skip
NOBODY = [
    "",
    " ",
    "\n",
    "12345",
    "9 ELM ST",
    "9 ELM ST\nANYTOWN PA 15001",
    "PO BOX 12\nANYTOWN PA",
    "555-0100",
    "BOISE ID 83701",
    "---",
    "(555) 555-0100\n12 MAPLE ST",
]


def named(block: str) -> list[str]:
    return [name.replace(" / ", "\n") for line in block.strip().splitlines() for name in line.split(" | ")]


def test_there_are_enough_of_them() -> None:
    assert len(named(ORGANIZATIONS)) + len(named(DOUBTFUL)) >= 300
    assert len(named(PERSONS)) * len(ADDRESSES) >= 500


@pytest.mark.parametrize("name", named(ORGANIZATIONS))
def test_a_sign_makes_it_an_organization(name: str) -> None:
    for shown in (name, name.upper(), name.title()):
        for address in ("", ADDRESS, "\nPO BOX 12\nANYTOWN PA"):
            assert drawer.describe(shown + address).verdict == "organization"


@pytest.mark.parametrize("name", named(DOUBTFUL))
def test_what_only_looks_like_one_is_unclear(name: str) -> None:
    for shown in (name, name.upper()):
        assert drawer.describe(shown + ADDRESS).verdict == "unclear"


@pytest.mark.parametrize("name", named(PERSONS))
def test_people_are_people_at_every_address(name: str) -> None:
    for address in ADDRESSES:
        for shown in (name, name.upper()):
            assert drawer.describe(f"{shown}\n{address}").verdict == "person"


@pytest.mark.parametrize("text", UNCLEAR_CAPACITIES)
def test_somebody_else_beside_the_name_is_unclear(text: str) -> None:
    assert drawer.describe(text + ADDRESS).verdict == drawer.describe(text.upper() + ADDRESS).verdict == "unclear"


@pytest.mark.parametrize("text", NOBODY)
def test_where_nobody_is_named(text: str) -> None:
    assert drawer.describe(text).verdict == "none"


@pytest.mark.parametrize(
    ("text", "shown", "why"),
    [
        ("FIRST SPECIMEN CHURCH", "CHURCH", '"CHURCH" is in the name'),
        ("MARY BELL TTEE", "TTEE", '"TTEE" stands by the name'),
        ("Zorvexa", "Zorvexa", "the first line is one word"),
        ("Mary Bell\nZorvexa", "Zorvexa", "a line below it is one word"),
        ("Golden Dragon", "Dragon", '"Dragon" is hardly ever in a person\'s name'),
        ("Ann's Nook", "Ann's", '"Ann\'s" reads like a shop'),
        ("Mary Bell\n12 Elm St\nMASONRY", "MASONRY", '"MASONRY" stands below the address'),
    ],
)
def test_the_reason_and_its_place(text: str, shown: str, why: str) -> None:
    found = drawer.describe(text + ADDRESS)
    assert (found.span.of(text), found.why) == (shown, why)


@given(
    st.text(max_size=200)
    | st.lists(st.sampled_from([*"AaBb0159 \n.,&/'-#@", "Church ", "Ada ", " Elm St\n", "DL "]), max_size=40).map(
        "".join
    )
)
@settings(max_examples=MANY, deadline=None)
def test_any_text_is_described_and_the_span_lies_within(text: str) -> None:
    found = drawer.describe(text)
    assert 0 <= found.span.start <= found.span.end <= len(text)
    assert found.why


@given(
    st.sampled_from([name for name in named(ORGANIZATIONS) if not (name[0].isdigit() or name.endswith("Place"))]),
    st.sampled_from(named(PERSONS)),
)
@settings(max_examples=MANY, deadline=None)
def test_a_person_above_or_below_makes_no_organization_a_person(name: str, person: str) -> None:
    assert drawer.describe(f"{name}\n{person}{ADDRESS}").verdict == "organization"
    assert drawer.describe(f"{person}\n{name}{ADDRESS}").verdict == "organization"


@pytest.mark.parametrize("junk", ["a", "A-", "a b c ", "DL 1", "1 ", "a.", "(555) ", "jt ", "\n", "x@", "of ", "' "])
def test_a_hundred_thousand_characters_are_described_at_once(junk: str) -> None:
    text = "JORDAN " + junk * (100_000 // len(junk))
    began = time.process_time()
    drawer.describe(text)
    assert time.process_time() - began < 1


@pytest.mark.parametrize("name", ["Hope Chukch", "GRACE CHURCII", "Trialby Constructiom", "Sample Plumbinc"])
def test_a_misread_word_of_trade_is_no_name(name: str) -> None:
    assert drawer.describe(name + ADDRESS).verdict == "unclear"


@pytest.mark.parametrize("name", ["Carter Stokes", "Caridad Chance", "Dirk van den Proef"])
def test_a_name_that_is_spelled_nearly_like_a_sign_is_a_name(name: str) -> None:
    assert drawer.describe(name + ADDRESS).verdict == "person"
