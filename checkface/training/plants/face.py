"""What can be wrong with the names, the signature, the printed number and the wording."""

from __future__ import annotations

from datetime import timedelta

from checkface.training import invented
from checkface.training.plants.work import Work, plants


@plants("signature-missing")
def not_signed(work: Work) -> None:
    """Nobody has signed."""
    work.face["signature"] = False


@plants("payee-blank")
def payee_left_blank(work: Work) -> None:
    """Nobody has written to whom."""
    work.face["payee"] = ""


@plants("payee-not-house", "third-party-check")
def made_out_to_a_neighbour(work: Work) -> None:
    """Made out to somebody else."""
    work.face["payee"] = invented.person(work.dice)


@plants("third-party-check", "payee-not-house")
def made_out_to_the_customer(work: Work) -> None:
    """Made out to the person who brings it."""
    work.face["payee"] = work.drawer


@plants("payee-near-house")
def made_out_to_nearly_us(work: Work) -> None:
    """Made out to a name that is nearly the house's."""
    work.face["payee"] = work.dice.choice(invented.names("lookalikes")[:2])


@plants("payee-shared", "several-payees")
def made_out_to_us_and_another(work: Work) -> None:
    """Made out to the house and to somebody else."""
    work.face["payee"] = invented.names("lookalikes")[2]


@plants("drawer-not-a-person", "drawer-differs-from-id kind-undetermined")
def drawn_by_a_trustee(work: Work) -> None:
    """The printed name is a trustee's."""
    name, *address = work.face["drawer"]
    work.face["drawer"] = [f"{name}, Trustee", *address]


@plants("drawer-unclear", "drawer-differs-from-id")
def drawn_by_nobody_knows(work: Work) -> None:
    """The printed name may be a shop's."""
    work.face["drawer"] = [work.dice.choice(invented.names("doubtful")), *work.face["drawer"][1:]]


@plants("drawee-unclear")
def drawn_on_nobody_knows(work: Work) -> None:
    """Where the bank's name stands, another does that may be a bank's."""
    work.face["drawee"] = [invented.names("obligors")[0], *work.face["drawee"][1:]]


@plants("drawee-not-a-bank")
def drawn_on_an_insurer(work: Work) -> None:
    """Where the bank's name stands, an insurer's does."""
    work.face["drawee"] = [invented.names("obligors")[1], *work.face["drawee"][1:]]


@plants("wording-not-understood")
def print_that_may_limit(work: Work) -> None:
    """Wording that nobody knows, with a word that may limit the check."""
    work.face["legends"] = invented.names("prints")[:1]


@plants("several-payees", "payee-not-house third-party-check")
def made_out_to_two(work: Work) -> None:
    """Made out to two people."""
    work.face["payee"] = f"{invented.person(work.dice)} and {invented.person(work.dice)}"


@plants("serial-differs")
def numbers_differ(work: Work) -> None:
    """The number in the corner is not the one on the line."""
    work.face["serial"] = str(int(work.serial) + work.dice.choice((5, 9, 90, 400)))


@plants("serial-not-printed")
def no_number_in_the_corner(work: Work) -> None:
    """The corner is empty."""
    work.face["serial"] = ""


@plants("drawer-not-printed", "kind-undetermined")
def no_name_in_the_corner(work: Work) -> None:
    """No name at the upper left."""
    work.face["drawer"] = ""


@plants("legend-void")
def stamped_void(work: Work) -> None:
    """VOID across the face."""
    work.face["legends"] = [work.dice.choice(("VOID", "COPY", "NON-NEGOTIABLE"))]


@plants("already-converted")
def converted_before(work: Work) -> None:
    """A printer has already made a debit of it."""
    work.face["legends"] = ["PROCESSED ELECTRONICALLY"]


@plants("already-endorsed")
def endorsed_before(work: Work) -> None:
    """Something stands on the back."""
    work.face["endorsements"] = "For deposit only"


@plants("altered")
def figures_written_over(work: Work) -> None:
    """Something on the face was changed."""
    work.face["alterations"] = True


@plants("legend-illegible")
def stamp_smeared(work: Work) -> None:
    """A stamp that nobody can read."""
    work.face["legends"] = None


@plants("conditional-wording")
def with_a_condition(work: Work) -> None:
    """Wording that settles a debt."""
    work.face["legends"] = [work.dice.choice(("PAID IN FULL", "IN FULL SETTLEMENT"))]


@plants("date-before-printed")
def not_good_yet(work: Work) -> None:
    """The face says from which day it is good, and that day is to come."""
    work.face["legends"] = [f"NOT VALID BEFORE {work.on + timedelta(days=work.dice.randint(3, 20)):%m/%d/%Y}"]


@plants("already-returned")
def returned_before(work: Work) -> None:
    """A bank has sent it back once."""
    work.face["legends"] = [work.dice.choice(("NSF", "REFER TO MAKER"))]


@plants("legend-not-convertible")
def only_good_as_paper(work: Work) -> None:
    """The face forbids the debit."""
    work.face["legends"] = ["NOT FOR ELECTRONIC CONVERSION"]


@plants("second-signature-asked")
def two_must_sign(work: Work) -> None:
    """The face asks for two signatures and there is one."""
    work.face["legends"] = ["TWO SIGNATURES REQUIRED"]
