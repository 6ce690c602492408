"""Shapes of Canadian license numbers against their published forms.

Source: Microsoft Learn, "Canada driver's license number" (entity definition of Microsoft Purview), and for Ontario and
Quebec the license patterns of Trellix's documentation, both read in November 2026. The numbers are invented.
"""

from __future__ import annotations

import pytest

from checkface.identity import IdNumber, fits_shape

PUBLISHED = {
    "AB": ["123456-789", "12345", "123456789"],
    "BC": ["1234567"],
    "MB": ["AB-CD-EF-G123HI", "ABCDEFG123HI"],
    "NB": ["12345", "1234567"],
    "NL": ["A123456789"],
    "NS": ["ABCDE-310198765", "ABCDE310198765"],
    "ON": ["A1234-56789-01234", "A1234 56789 01234", "A12345678901234"],
    "PE": ["12345", "123456"],
    "QC": ["A1234-123456-12", "A1234 123456 12", "A123412345612"],
    "SK": ["12345678"],
}


@pytest.mark.parametrize("province", PUBLISHED)
def test_each_published_form_fits(province):
    for number in PUBLISHED[province]:
        assert fits_shape(province, IdNumber(number).compact) is True
        assert fits_shape(province, IdNumber(number).compact + "9" * 6) is False


@pytest.mark.parametrize("territory", ["NT", "NU", "YT"])
def test_a_territory_has_no_published_form(territory):
    assert fits_shape(territory, "123456") is None
