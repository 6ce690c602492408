"""What can be wrong with the identification."""

from __future__ import annotations

from datetime import timedelta

from checkface.training import invented
from checkface.training.plants.work import Work, plants


@plants("id-missing")
def none_shown(work: Work) -> None:
    """The customer shows nothing."""
    work.documents.clear()


@plants("id-kind-not-accepted", "id-not-photo")
def another_paper(work: Work) -> None:
    """A library card is no identification."""
    work.documents[0] |= {"kind": "library-card", "state": "", "expires": ""}
    del work.documents[0]["is_bearer"]  # there is no picture to compare


@plants("id-not-photo", "id-kind-not-accepted")
def without_a_picture(work: Work) -> None:
    """A card without a picture."""
    work.documents[0] |= {"kind": "social-security-card", "state": "", "expires": ""}
    del work.documents[0]["is_bearer"]  # there is no picture to compare


@plants("id-expired")
def expired(work: Work) -> None:
    """No longer current."""
    work.documents[0]["expires"] = (work.on - timedelta(days=work.dice.randint(1, 300))).isoformat()


@plants("id-not-bearer")
def somebody_elses(work: Work) -> None:
    """The picture is of somebody else."""
    work.documents[0]["is_bearer"] = False


@plants("id-state-unknown")
def of_no_state(work: Work) -> None:
    """Issued by no state there is."""
    work.documents[0]["state"] = "43"


@plants("id-number-shape")
def number_of_no_shape(work: Work) -> None:
    """A number its state does not use."""
    work.documents[0] |= {"state": "17", "number": "A12"}


@plants("id-number-forbidden")
def card_number_written_down(work: Work) -> None:
    """The number of a payment card (a published number for tests)."""
    work.documents[0]["number"] = "4111 1111 1111 1111"


@plants("id-dates-inconsistent")
def expiry_that_is_no_date(work: Work) -> None:
    """What was keyed as the expiry is no date."""
    work.documents[0]["expires"] = "soon"


@plants("drawer-differs-from-id")
def another_name(work: Work) -> None:
    """The document is in another name."""
    own = set(work.drawer.split())
    others = [given for given in invented.names("given") if given not in own]
    family = [name for name in invented.names("family") if name not in own]
    work.documents[0]["name"] = f"{work.dice.choice(others)} {work.dice.choice(family)}"
