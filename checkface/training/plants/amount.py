"""What can be wrong with the amount: the words, the figures, what was keyed, and how much it is."""

from __future__ import annotations

from checkface.handling.spelled import spelled
from checkface.training import specimens
from checkface.training.plants.work import Work, plants

_MISSPELLED = {"Forty": "Fourty", "Ninety": "Ninty", "Eight": "Eigth", "Fifty": "Fivty", "Twenty": "Twentty"}


def _exchanged(cents: int) -> int:
    dollars, rest = divmod(cents, 100)
    tens, ones = divmod(dollars % 100, 10)
    if tens == ones:
        ones = (ones + 3) % 10
    return (dollars - dollars % 100 + ones * 10 + tens) * 100 + rest


@plants("amounts-disagree")
def digits_exchanged(work: Work) -> None:
    """Two digits have changed places in the figures; the clerk keyed what the words say."""
    work.face["figures"] = specimens.amount(_exchanged(work.cents))["figures"]


@plants("amounts-disagree", "amount-over-house-limit")
def ten_times_as_much(work: Work) -> None:
    """The point slipped one place to the right in the box."""
    work.face["figures"] = specimens.amount(work.cents * 10)["figures"]


@plants("amounts-disagree", "amount-differs-from-keyed")
def words_say_less(work: Work) -> None:
    """The clerk keyed the figures, and the words say less."""
    work.face["words"] = spelled(work.cents - 10_00)


@plants("words-unclear")
def words_smeared(work: Work) -> None:
    """The line of words cannot be made out."""
    work.face["words"] = None


@plants("words-unclear", "amount-over-house-limit")
def words_without_hundreds(work: Work) -> None:
    """Digit by digit, as it is said on the telephone: two amounts fit."""
    work.pays(45_10)
    work.face["words"] = "forty five ten"


@plants("words-repaired")
def words_misspelled(work: Work) -> None:
    """One word is misspelled, and can only be one word."""
    right = work.dice.choice(sorted(_MISSPELLED))
    tens = {"Forty": 40, "Ninety": 90, "Eight": 8, "Fifty": 50, "Twenty": 20}[right]
    work.pays(tens * 100 + 10)
    work.face["words"] = work.face["words"].replace(right, _MISSPELLED[right])


@plants("words-blank")
def words_left_blank(work: Work) -> None:
    """Nobody has written the words."""
    work.face["words"] = ""


@plants("figures-blank")
def figures_left_blank(work: Work) -> None:
    """Nobody has written the figures."""
    work.face["figures"] = ""


@plants("figures-unclear", "words-blank amount-over-house-limit")
def figures_without_a_point(work: Work) -> None:
    """No point in the box and no words to settle it."""
    work.pays(work.dice.randint(1_250, 9_989))
    work.face |= {"figures": str(work.cents), "words": ""}


@plants("amount-undetermined", "words-blank figures-blank")
def no_amount_at_all(work: Work) -> None:
    """Neither words nor figures, and nothing keyed."""
    work.face["words"] = work.face["figures"] = ""
    del work.counter["amount"]


@plants("amount-zero")
def amount_of_nothing(work: Work) -> None:
    """A check for no money; the clerk keyed it as it is written, and the goods cost what they cost."""
    goods = work.cents
    work.pays(0, purchase=goods)


@plants("amount-over-conversion-limit", "amount-over-house-limit")
def more_than_the_network_takes(work: Work) -> None:
    """Above twenty-five thousand dollars."""
    work.pays(2_500_000 + work.dice.randint(1, 99_999))


@plants("amount-over-house-limit")
def more_than_the_house_takes(work: Work) -> None:
    """Above what the house takes without a manager."""
    work.pays(work.dice.randint(50_100, 99_900))


@plants("amount-over-printed-limit")
def more_than_is_printed(work: Work) -> None:
    """Above the limit printed on the face."""
    work.face["legends"] = ["NOT VALID OVER $10.00"]


@plants("amount-differs-from-keyed")
def keyed_wrongly(work: Work) -> None:
    """The clerk keyed another amount."""
    work.counter |= specimens.keyed(work.cents + 9_00)


@plants("cash-back-over-house-limit")
def too_much_cash_back(work: Work) -> None:
    """Written for far more than the goods."""
    work.pays(work.cents + 60_00, purchase=work.cents)


@plants("cash-back-over-casher-threshold", "cash-back-over-house-limit amount-over-house-limit")
def a_thousand_in_cash(work: Work) -> None:
    """More than a thousand dollars would be handed out."""
    work.pays(work.cents + 1_200_00, purchase=work.cents)
