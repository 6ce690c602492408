"""The command line: ``checkface examine``, ``audit``, ``read`` and the rest, one module a command.

Exit codes: 0 done; 1 something at or above ``--fail-on``, or an item skipped; 2 usage, policy, table or I/O failure;
130 interrupted. Results go to stdout or ``--output``, everything else to stderr.
"""

from __future__ import annotations

from checkface.cli.app import main

__all__ = ["main"]
