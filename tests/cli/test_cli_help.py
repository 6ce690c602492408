"""The help pages, to the letter, as a newcomer sees them."""

from __future__ import annotations

import pytest

from checkface.cli import main

FRONT = """\
Usage: checkface COMMAND [OPTIONS]

Is the face of a check sound, and may the check be converted or must it be kept?

No bank is asked and no funds are verified; nothing here is legal advice.

Checks:
  examine  Judge a check: convert, keep, refer or decline, with the reasons.
  audit    Judge every check of a file: a line for each finding, then a count by
           answer and by rule.
  read     Read one thing off a check and show what stands where; nothing is
           judged.

The till:
  till     Keep the till of a lane: open it, take checks, count the drawer,
           close it and see why it does not add up.
  history  Keep the house list of unpaid accounts, and show, move or purge what
           the ledger remembers.

Rules:
  rules    List every rule: its name, its effect, with what force, and the fault
           it finds.
  explain  Explain one rule: what it asks, why, an example, what to do, and on
           whose authority.
  policy   Write a house policy, check it, show what is in force, or compare two
           on real checks.
  tables   List the reference tables, each with its source, or show one.
  schema   Print the JSON Schema of a tender, of an assessment, or of a policy.

Training:
  draw    Draw a check as SVG, at its real size, with SPECIMEN across it.
  lesson  Drill a cashier: numbered specimens, and of each, convert, keep, refer
          or decline - and why?

Server:
  serve  Serve pages for trainers and a JSON API for tills.

Help:
  -h, --help  Show this page, or that of a command.
  --version   Show the version.

Exit codes: 0 done; 1 something at or above --fail-on, or an item skipped;
2 a mistake in the command, the policy or a file; 130 interrupted.
"""

EXAMINE = """\
Usage: checkface examine [OPTIONS] [FILE]

Judge a check: convert, keep, refer or decline, with the reasons.

Give it as a JSON tender in FILE or on stdin, or give what is read on it by
options. An option left out means that nobody looked, "" that there was nothing,
"(illegible)" that it could not be made out.

  checkface examine tender.json
  checkface examine --micr "T071098973T 45601122O 1043" --figures 45.10 --no-signature

The check:
  FILE           JSON: one tender, an array of them, or one a line. - is stdin.
  --replay FILE  Judge the checks recorded here once more and list what has
                 changed.

Or what is read on it:
  --micr TEXT                 The magnetic-ink line, in any notation.
  --words TEXT                The amount in words.
  --figures TEXT              The amount in figures.
  --date TEXT                 The date as written.
  --payee TEXT                Whom it is made out to.
  --serial TEXT               The check number printed at the upper right.
  --fraction TEXT             The fraction printed near it, such as 70-9897/710.
  --drawer TEXT               The writer's name and address, once for each line.
  --drawee TEXT               The bank as printed, once for each line.
  --legend TEXT               Other wording, such as VOID AFTER 90 DAYS, once
                              for each.
  --memo TEXT                 What the writer put on the memo line, once for
                              each line.
  --signature, --no-signature
                              Signed, or seen to be unsigned.

What the counter knows:
  --kind KIND                 What the clerk takes it for, such as personal.
  --amount DOLLARS            The amount keyed, such as 45.10.
  --purchase DOLLARS          What the goods cost.
  --micr-by HOW               How the line was captured: reader, corrected or
                              keyed.
  --network STATE             The network: up or down.
  --authorized, --no-authorized
                              The customer signed for the electronic debit, or
                              would not.
  --confirmed RULE            A rule whose question the clerk answered with yes,
                              once for each.
  --on DAY                    Day of tender if the check carries none:
                              2026-11-24. Else today.
  --ledger LEDGER             Ask this ledger what passed the counter before;
                              nothing is written to it.
  --key FILE                  File of the ledger's key; beside it if not given.

The document shown:
  --document KIND          Its kind, such as drivers-license. none: asked for,
                           and none was shown.
  --document-number TEXT   The number on it.
  --document-state TEXT    The state it comes from: 17, or IL.
  --document-expires DAY   When it expires, such as 2029-05-01.
  --document-name TEXT     The name on it.
  --document-barcode TEXT  Its barcode, as a scanner gives it.
  --bearer, --no-bearer    The photo is the customer, or is not.

The result:
  --policy FILE     House policy in TOML; without it, the one that is built in.
  --directory FILE  Routing numbers in use, as CSV: number, name, state, status,
                    successor. Retired ones are passed over.
  --format FORM     text, with carets; plain, in sentences; or json.
  --verbose         Name the rules that could not run, and list the steps at the
                    counter.
  --reveal          Show account and identification numbers in full.
  --fail-on ANSWER  End with exit code 1 if an answer is this or stricter: keep,
                    refer or decline.
  --output FILE     Write the result to FILE.
  --record FILE     Add each check, unmasked, with its answer to FILE, for
                    --replay.

Exit codes: 0 done; 1 something at or above --fail-on, or an item skipped;
2 a mistake in the command, the policy or a file; 130 interrupted.
"""

READ_MICR = """\
Usage: checkface read micr [OPTIONS] TEXT

The magnetic-ink line: routing number, account, check number.

For example:

  checkface read micr "T071098973T 45601122O 1043"

What to give:
  TEXT  What is read on the check.

Options:
  --notation NAME  How its symbols are written: unicode, iso2033, unifiedpos,
                   x9, font-letters, font-punctuation, toad, tuad, tu-dollar,
                   dbc. Else detected.
  --format FORM    text, with carets, or json.
  --reveal         Show account and identification numbers in full.
"""

READ_BARCODE = """\
Usage: checkface read barcode [OPTIONS] [TEXT]

The barcode, stripe or machine-readable zone of an identification card.

Its number is masked; its birth date and street are never shown. A picture needs
the extra checkface[scan].

  checkface read barcode --file card.png --on 2026-11-24

What to give:
  TEXT  What a scanner gave, line feeds as <LF>. - is stdin.

Options:
  --file FILE    What a scanner gave, byte for byte; or a PNG or JPEG picture of
                 the code.
  --on DAY       Is the card valid, and its holder an adult, on DAY?
  --format FORM  text, with carets, or json.
  --reveal       Show account and identification numbers in full.
"""


@pytest.fixture(autouse=True)
def _page(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "80")


@pytest.mark.parametrize(
    ("words", "page"),
    [
        ([], FRONT),
        (["--help"], FRONT),
        (["examine", "--help"], EXAMINE),
        (["examine", "-h"], EXAMINE),
        (["read", "micr", "--help"], READ_MICR),
        (["read", "barcode", "--help"], READ_BARCODE),
    ],
    ids=["nothing", "help", "examine", "examine -h", "read micr", "read barcode"],
)
def test_pages(words: list[str], page: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(words) == 0
    assert capsys.readouterr() == (page, "")


@pytest.mark.parametrize(
    "command",
    ["audit", "rules", "explain", "tables", "schema", "read", "policy", "read routing", "read fraction", "read words",
     "read figures", "read date", "draw", "lesson", "serve", "policy init", "policy check", "policy show", "policy compare"],
)  # fmt: skip
def test_every_page_fits_and_says_what_everything_is_for(command: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*command.split(), "--help"]) == 0
    page = capsys.readouterr().out
    assert page.startswith(f"Usage: checkface {command}")
    assert max(len(line) for line in page.splitlines()) <= 80
    entries = [line for line in page.splitlines() if line.startswith("  ") and line[2] not in " c"]
    assert all("  " in entry.strip() or entry.strip().startswith("--") for entry in entries)


def test_version(capsys: pytest.CaptureFixture[str]) -> None:
    import checkface

    assert main(["--version"]) == 0
    assert capsys.readouterr().out == f"checkface {checkface.__version__}\n"
