"""What is no date, and the words that say so."""

from __future__ import annotations

from datetime import date

import pytest

from checkface import dates
from checkface.span import Fault, Span

ON = date(2026, 11, 24)
NOT_A_WORD = "Expected a date, read a word that is no part of one."
NOT_A_MARK = "Expected a date, read a mark that is no part of one."


@pytest.mark.parametrize(
    ("text", "kind", "span", "message"),
    [
        ("", "date-blank", (0, 0), "Expected a date, read nothing."),
        ("   ", "date-blank", (0, 3), "Expected a date, read nothing."),
        ("__/__/____", "date-blank", (0, 10), "Expected a date, read nothing."),
        ("________, 20__", "date-blank", (0, 14), "Expected a date, read nothing."),
        ("  /  / 19__", "date-blank", (0, 11), "Expected a date, read nothing."),
        ("9" * 101, "date-length", (0, 101), "Expected a date, read 101 characters."),
        ("VOID", "date-void", (0, 4), "Expected a date, read the word void."),
        ("V0ID", "date-void", (0, 4), "Expected a date, read the word void."),
        ('"', "date-ditto", (0, 1), "Expected a date, read ditto marks."),
        ("''", "date-ditto", (0, 2), "Expected a date, read ditto marks."),
        ("″", "date-unreadable", (0, 1), NOT_A_MARK),
        ("ditto", "date-ditto", (0, 5), "Expected a date, read the word ditto."),
        ("do.", "date-ditto", (0, 2), "Expected a date, read the word ditto."),
        ("illegible", "date-unreadable", (0, 9), NOT_A_WORD),
        ("today", "date-unreadable", (0, 5), NOT_A_WORD),
        ("11/??/2026", "date-unreadable", (3, 4), NOT_A_MARK),
        ("11/2#/2026", "date-unreadable", (4, 5), NOT_A_MARK),
        ("Juny 3 2026", "date-unreadable", (0, 4), NOT_A_WORD),  # as near to June as to July
        ("Nov 24 2026 Smith", "date-unreadable", (12, 17), NOT_A_WORD),
        ("١1/24/2026", "date-unreadable", (0, 2), NOT_A_WORD),  # an Arabic one
        ("Nоv 24 2026", "date-unreadable", (0, 3), NOT_A_WORD),  # a Cyrillic o
        ("1X/24/2026", "date-unreadable", (0, 10), "Expected a month, a day and a year, read more than these."),
        ("Nov 24 Dec 25", "date-unreadable", (7, 10), "Expected one month, read two."),
        (
            "11/24/2026 11/25/2026",
            "date-unreadable",
            (0, 21),
            "Expected a month, a day and a year, read more than these.",
        ),
        (
            "011/24/2026",
            "date-unreadable",
            (0, 3),
            "Expected a month or a day of one or two digits, read 3.",
        ),
        ("11/2026/24", "date-unreadable", (3, 7), "Expected a month or a day of one or two digits, read 4."),
        ("1124", "date-unreadable", (0, 4), "Expected a date of six or eight digits, read 4."),
        ("Tuesday", "date-incomplete", (0, 7), "Expected a month, a day and a year, read none of them."),
        ("November", "date-incomplete", (0, 8), "Expected a day of the month, read a month only."),
        ("Nov 2026", "date-incomplete", (0, 8), "Expected a day of the month, read a month and a year only."),
        ("Nov '26", "date-incomplete", (0, 7), "Expected a day of the month, read a month and a year only."),
        ("11/2026", "date-incomplete", (0, 7), "Expected a month, a day and a year, read two of them."),
        ("11/24/6", "date-year", (6, 7), "Expected a year of two or four digits, read 1."),
        ("11/24/202", "date-year", (6, 9), "Expected a year of two or four digits, read 3."),
        ("11/24/20226", "date-year", (6, 11), "Expected a year of two or four digits, read 5."),
        ("11/24/1026", "date-year", (6, 10), "Expected a year near the day of tender, read 1026."),
        ("11/24/1925", "date-year", (6, 10), "Expected a year near the day of tender, read 1925."),
        ("11/24/2127", "date-year", (6, 10), "Expected a year near the day of tender, read 2127."),
        ("Nov 24 0026", "date-year", (7, 11), "Expected a year near the day of tender, read 0026."),
        ("02/29/2026", "date-impossible", (3, 5), "Expected a day from 1 to 28 after February 2026, read 29."),
        ("2/30/24", "date-impossible", (2, 4), "Expected a day from 1 to 29 after February 2024, read 30."),
        ("11/31/2026", "date-impossible", (3, 5), "Expected a day from 1 to 30 after November 2026, read 31."),
        ("1/32/2026", "date-impossible", (2, 4), "Expected a day from 1 to 31 after January 2026, read 32."),
        ("11/0/2026", "date-impossible", (3, 4), "Expected a day from 1 to 30 after November 2026, read 0."),
        ("2/30", "date-impossible", (2, 4), "Expected a day from 1 to 29 after February, read 30."),
        ("13/13/2026", "date-impossible", (0, 2), "Expected a month from 1 to 12, read 13."),
        ("00/24/2026", "date-impossible", (0, 2), "Expected a month from 1 to 12, read 00."),
        ("2026-13-01", "date-impossible", (5, 7), "Expected a month from 1 to 12, read 13."),
        ("Nov 31 2026", "date-impossible", (4, 6), "Expected a day from 1 to 30 after November 2026, read 31."),
        ("99999999", "date-impossible", (0, 2), "Expected a month from 1 to 12, read 99."),
        ("00000000", "date-impossible", (0, 2), "Expected a month from 1 to 12, read 00."),
    ],
)
def test_each_fault_says_what_was_read(text: str, kind: str, span: tuple[int, int], message: str) -> None:
    fault = dates.read(text, ON)
    assert isinstance(fault, Fault), fault
    assert (fault.kind, fault.span, fault.message) == (kind, Span(*span), message)
