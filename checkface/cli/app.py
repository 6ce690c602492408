"""The commands by name, and what becomes of a failure: one sentence on stderr and an exit code.

Commands are named here and imported only when they run, so that a lane waits for nothing it does not use.
"""

from __future__ import annotations

import io
import os
import signal
import sys
import threading
from collections.abc import Sequence
from typing import Any

from cyclopts import App, CycloptsError, Group, Parameter

from checkface.cells import shown
from checkface.cli.failure import DONE, FAILED, INTERRUPTED, Failure
from checkface.cli.groups import GIVEN, OPTIONS
from checkface.cli.pages import Pages
from checkface.cli.stdin import STDIN
from checkface.cli.usage import sentence
from checkface.mistakes import unforeseen

HELP = """Is the face of a check sound, and may the check be converted or must it be kept?

No bank is asked and no funds are verified; nothing here is legal advice.
"""
AFTER = """Exit codes: 0 done; 1 something at or above --fail-on, or an item skipped;
2 a mistake in the command, the policy or a file; 130 interrupted."""

app = App(
    name="checkface",
    help=HELP,
    usage="Usage: checkface COMMAND [OPTIONS]",
    help_format="plaintext",
    help_formatter=Pages(),
    help_epilogue=AFTER,
    group_arguments=GIVEN,
    group_parameters=OPTIONS,
    default_parameter=Parameter(negative_iterable=(), show_choices=False, show_default=False),
    version=lambda: f"checkface {_version()}",
    result_action="return_value",
    exit_on_error=False,
    print_error=False,
    suppress_keyboard_interrupt=False,
)
CHECKS, TILL, RULES, TRAINING, SERVER, HELP_GROUP = (
    Group(name, sort_key=order)
    for order, name in enumerate(("Checks", "The till", "Rules", "Training", "Server", "Help"), 1)
)
for flag, text in (("--help", "Show this page, or that of a command."), ("--version", "Show the version.")):
    app[flag].group, app[flag].help = HELP_GROUP, text
for order, (place, group, usage) in enumerate(
    (
        ("examine:examine", CHECKS, "[OPTIONS] [FILE]"),
        ("audit:audit", CHECKS, "[OPTIONS] FILE..."),
        ("read:read", CHECKS, ""),
        ("till:till", TILL, ""),
        ("history:history", TILL, ""),
        ("rulebook:rules", RULES, "[OPTIONS]"),
        ("rulebook:explain", RULES, "[OPTIONS] RULE"),
        ("policy:policy", RULES, ""),
        ("tables:tables", RULES, "[OPTIONS] [NAME]"),
        ("schema:schema", RULES, "[OPTIONS] [tender|assessment|policy]"),
        ("draw:draw", TRAINING, "[OPTIONS] [FILE]"),
        ("lesson:lesson", TRAINING, "[OPTIONS] [LESSON]"),
        ("serve:serve", SERVER, "[OPTIONS]"),
    )
):
    name = place.partition(":")[2]
    settings: dict[str, Any] = {"usage": f"Usage: checkface {name} {usage}"} if usage else {}
    app.command(f"checkface.cli.{place}", name=name, group=group, sort_key=order, **settings)


def main(argv: Sequence[str] | None = None) -> int:
    """Run the command in *argv* (the process's own by default) and return its exit code. Never raises."""
    if sys.stdout is None:  # closed by whoever started us: results would go nowhere and the answer be taken for given
        return _failed("Expected somewhere to write to, read a closed stdout.")
    sys.stdin = sys.stdin or io.TextIOWrapper(io.BytesIO())
    sys.stderr = sys.stderr or io.TextIOWrapper(io.BytesIO())
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):
            stream.reconfigure(errors="backslashreplace")  # a terminal without the MICR symbols must not end the run
    _heed_signals()
    try:
        words = sys.argv[1:] if argv is None else argv
        if not words or words[0] in {"--help", "-h"}:
            for name in app:
                app[name]  # imports the commands, whose pages start with what the list says of them
        code = app([STDIN if word == "-" else word for word in words])
        sys.stdout.flush()
    except CycloptsError as error:
        return _failed(sentence(error))
    except Failure as failure:
        return _failed(str(failure))
    except KeyboardInterrupt:
        print("checkface: Interrupted.", file=sys.stderr)
        return INTERRUPTED
    except BrokenPipeError:
        # Whoever read our output has gone. What is still buffered must not raise again at exit.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return FAILED
    except OSError as error:
        return _failed(f"Expected to read and write files, read: {error.strerror or error}.")
    except Exception as error:
        return _failed(f"{unforeseen(error)}.")
    return code if isinstance(code, int) else DONE


def _heed_signals() -> None:
    """Have whoever ends the process end it as Ctrl-C does: with what was done told, and no draft left behind."""
    if threading.current_thread() is threading.main_thread():
        for name in ("SIGTERM", "SIGHUP"):
            number = getattr(signal, name, None)
            # What the shell or a service has set aside stays so: nohup is a wish to go on.
            if number is not None and signal.getsignal(number) is signal.SIG_DFL:
                signal.signal(number, signal.default_int_handler)


def _failed(message: str) -> int:
    for line in message.splitlines():
        print(f"checkface: {shown(line)}", file=sys.stderr)
    return FAILED


def _version() -> str:
    from checkface import __version__

    return __version__
