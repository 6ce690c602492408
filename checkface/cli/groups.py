"""The headings of a help page for what belongs under no heading of its own."""

from __future__ import annotations

from cyclopts import Group

GIVEN, OPTIONS = Group("What to give", sort_key=1), Group("Options", sort_key=2)
