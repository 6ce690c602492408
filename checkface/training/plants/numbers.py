"""What can be wrong with the routing number and with the fraction that repeats it."""

from __future__ import annotations

from checkface.training import invented
from checkface.training.plants.work import Work
from checkface.training.plants.work import plants_line as plants


def _number(work: Work, number: str) -> None:
    work.face["micr"] = work.face["micr"].replace(work.routing, number)


@plants("routing-checksum")
def check_digit_wrong(work: Work) -> None:
    """The ninth digit does not belong to the eight before it."""
    _number(work, work.routing[:8] + str((int(work.routing[8]) + work.dice.randint(1, 9)) % 10))


@plants("routing-checksum", "fraction-differs")
def bank_digits_exchanged(work: Work) -> None:
    """Two neighbouring digits have changed places."""
    pairs = [at for at in range(4, 7) if (int(work.routing[at]) - int(work.routing[at + 1])) % 5]
    at = work.dice.choice(pairs)
    number = work.routing
    _number(work, number[:at] + number[at + 1] + number[at] + number[at + 2 :])


@plants("routing-all-zero", "routing-government drawee-unclear")
def bank_of_zeros(work: Work) -> None:
    """Nine zeros."""
    _number(work, "0" * 9)
    work.face["fraction"] = ""


@plants("routing-old-form")
def four_dash_four(work: Work) -> None:
    """The form that was printed before there was a check digit."""
    _number(work, f"{work.routing[:4]}\u2449{work.routing[4:8]}")


@plants("routing-unassigned-prefix", "drawee-unclear")
def prefix_of_nobody(work: Work) -> None:
    """Two digits at the head that were never given out."""
    _number(work, _special("45"))
    work.face["fraction"] = ""


@plants("routing-electronic-only", "drawee-unclear")
def number_for_wires(work: Work) -> None:
    """A number of the series that is never printed."""
    _number(work, _special("61"))
    work.face["fraction"] = ""


def _special(prefix: str) -> str:
    return next(number for number in invented.special() if number.startswith(prefix))


@plants("fraction-differs")
def fraction_of_another_bank(work: Work) -> None:
    """The fraction was printed for another bank."""
    work.face["fraction"] = work.another_bank().fraction


@plants("fraction-outside-district")
def fraction_from_elsewhere(work: Work) -> None:
    """The first part of the fraction lies at the other end of the country."""
    own = work.face["fraction"].partition("-")[2]
    prefix = "90" if work.routing[1] != "2" or work.routing[0] not in "013" else "53"
    prefix = "53" if work.routing[:2] in ("12", "32") else prefix
    work.face["fraction"] = f"{prefix}-{own}"


@plants("fraction-malformed")
def fraction_cut_off(work: Work) -> None:
    """Only the upper half of the fraction is there."""
    work.face["fraction"] = work.face["fraction"].partition("/")[0]
