"""Paper of every kind: sound, and never converted; and the clerk's word against the paper."""

from __future__ import annotations

from checkface.kinds import Kind
from checkface.training import invented
from checkface.training.plants.work import Work, plants

_ALSO = {
    Kind.PAYROLL: "business-check",
    Kind.FEDERAL_BANK_ITEM: "business-check",
    Kind.TREASURY_CHECK: "routing-government",
    Kind.POSTAL_MONEY_ORDER: "routing-government",
    Kind.FOREIGN_CURRENCY_CHECK: "kind-not-accepted",
    Kind.COUNTER_CHECK: "micr-no-serial serial-not-printed drawer-not-printed",
}


def _as_it_is(_work: Work) -> None:
    """The paper itself is all that has to be seen."""


for _paper in invented.papers().values():
    if _paper.kind != Kind.PERSONAL:
        _long = "micr-auxiliary-on-us " if _paper.made.line == "business" else ""
        _kind = Kind(_paper.kind)
        _as_it_is.__name__ = f"paper-{_kind}"
        plants(_kind.row.rule, _long + _ALSO.get(_kind, ""), _paper.kind)(_as_it_is)


@plants("routing-government", "treasury-check", kind="treasury-check")
def number_of_the_government(_work: Work) -> None:
    """The number on the line is the Treasury's."""


@plants("kind-not-accepted", "foreign-currency-check", kind="foreign-currency-check")
def not_taken_here(_work: Work) -> None:
    """A kind the training house does not take."""


@plants("other-check")
def declared_something_else(work: Work) -> None:
    """The clerk pressed the key for other kinds."""
    work.counter["declared_kind"] = "other"


@plants("kind-undetermined")
def whose_kind_is_open(work: Work) -> None:
    """A name without an address: it may be a person's or a firm's."""
    work.face["drawer"] = work.face["drawer"][:1]


@plants("kind-contradicts-declared", "money-order drawer-not-printed", kind="money-order")
def declared_personal(work: Work) -> None:
    """A money order, and the clerk pressed personal."""
    work.counter["declared_kind"] = "personal"


@plants("travelers-countersignature", "travelers-check", kind="travelers-check")
def signed_once_only(work: Work) -> None:
    """The second signature is missing."""
    work.face["countersignature"] = False


@plants("postal-money-order-over-maximum", "postal-money-order routing-government amount-over-house-limit",
        kind="postal-money-order")  # fmt: skip
def more_than_the_post_issues(work: Work) -> None:
    """Above a thousand dollars."""
    work.pays(work.dice.randint(100_100, 199_900))


@plants("postal-money-order-serial", "postal-money-order routing-government", kind="postal-money-order")
def postal_number_that_does_not_fit(work: Work) -> None:
    """The last digit of the number is not the sum of the others."""
    wrong = work.serial[:-1] + str((int(work.serial[-1]) + work.dice.randint(1, 8)) % 10)
    work.face["serial"] = wrong
    work.face["micr"] = work.face["micr"].replace(work.serial, wrong)
