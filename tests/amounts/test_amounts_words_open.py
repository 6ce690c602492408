"""read_words on lines that can be read in several ways: every one of them is named."""

from __future__ import annotations

import pytest

from checkface.amounts import WordsAmount, read_words


@pytest.mark.parametrize(
    ("text", "values"),
    [
        ("Thirty four ninety five", [349_500, 3_495]),
        ("two fifty", [25_000, 250]),
        ("nineteen ninety nine", [199_900, 1_999]),
        ("twenty ten", [201_000, 2_010]),
        ("six sixty two", [66_200, 662]),
        ("twenty oh five", [200_500, 2_005]),
        ("one thousand two fifty", [125_000, 100_250]),
        ("eight nine dollars", [8_900, 809, 80_900]),
        ("two fifty and 50/100", [25_050, 205_050]),
        ("five thousand two fifty and 50/100", [525_050, 505_050]),
        ("4510", [451_000, 4_510]),
        ("4,510 DOLLARS", [451_000, 4_510]),
        ("05 dollars", [500, 5]),
        ("twenty five/100", [25, 2_005]),
        ("twenty 5/100", [2_005, 25]),
        ("forty5/100", [4_005, 45]),
        ("one hundred twenty 5/100", [12_005, 10_025]),
        ("one hundred and twenty five/100", [10_025, 12_005]),
        ("one hundred twenty five/100", [10_025, 12_005]),
        ("one hundred dollars and 50 dollars", [10_050, 15_000]),
        ("one hundred and 4 5/100", [10_405, 10_045]),
        ("two 5/100", [205, 25]),
        ("five hundred dollars and 5", [50_005, 50_050]),
        ("five dollars five dollars", [505, 550, 1_000]),
        ("one two three dollars fifty dollars", [12_350, 17_300]),
        ("fifty and five dollars", [5_005, 5_050, 5_500]),
        ("twenty and fifty", [2_050, 7_000]),
        ("two five/100", [25, 205]),
        ("eight eight cents", [88, 808]),
        ("five dollars fifty dollars", [550, 5_500]),
        ("one hundred and 5", [10_500, 10_005]),
        ("one hundred and 05", [10_005, 10_050]),
        ("one hundred and oh five cents", [10_005, 105]),
        ("diez y seis", [1_600, 1_006, 1_060]),
        ("diez y seis centavos", [16, 1_006]),
        ("veinte y cinco centavos", [25, 2_005]),
        ("forty-five and IO/IOO", [4_510, 4_500]),
        ("forty-five and so/100", [4_550, 4_500]),
        ("forty-five and 1/10", [4_501, 4_510]),
        ("one point five", [150, 105, 600]),
        ("Fifty, five hundred and 00/100", [550_000, 5_050_000]),
        ("one hundred and twenty-five cents", [10_025, 12_005, 125]),
        ("Five and six", [506, 560]),
        ("six cents dollars", [6, 60_000]),
    ],
)
def test_every_reading_of_an_ambiguous_line(text: str, values: list[int]) -> None:
    reading = read_words(text)
    assert isinstance(reading, WordsAmount)
    assert (reading.cents, reading.verdict) == (None, "ambiguous")
    assert [candidate.cents for candidate in reading.candidates] == values
    assert all(candidate.reason for candidate in reading.candidates)


@pytest.mark.parametrize(
    "text", ["one hundred even", "seven even", "one hundred and even", "one hundred flat", "one hundred dollars flat"]
)
def test_even_needs_the_word_dollars_since_seven_may_have_lost_a_letter(text: str) -> None:
    assert read_words(text).verdict == "review"  # type: ignore[union-attr]
    assert read_words("one hundred dollars even").verdict == "clear"  # type: ignore[union-attr]
