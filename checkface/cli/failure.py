"""Exit codes, and the one kind of failure a command raises."""

from __future__ import annotations

DONE, FLAGGED, FAILED, INTERRUPTED = 0, 1, 2, 130


class Failure(Exception):  # noqa: N818 - what the exit code calls it
    """A mistake in the command, a policy or a file. Each line of its text is one sentence for stderr; exit code 2."""
