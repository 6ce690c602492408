"""All four verbs at once: read, examine, decide, handle, and the wire form of what came out.

``Assessment.model_dump(mode="json")`` is the wire form; account and identification numbers are masked to the last four
in it unless ``reveal=True``.
"""

from collections.abc import Mapping
from functools import cache
from typing import Any, NamedTuple

from pydantic import ValidationError

from checkface import authority, masking, tables
from checkface.cells import dumps
from checkface.decision import Decision, decide
from checkface.findings import Disposition, Finding, Label
from checkface.handling import Instructions, handle
from checkface.mistakes import sentence
from checkface.policy import Policy
from checkface.reading import ReadTender, read
from checkface.rules import Examination, book_digest, check_confirmed, examine
from checkface.rules.history import History
from checkface.strictjson import JsonError, loads
from checkface.tender import Tender

SCHEMA = 1


@cache
def _careful() -> Policy:
    """The policy of a house that has given none."""
    return Policy()


class TenderError(ValueError):
    """A tender that is not one: ``problems`` has one sentence for each, naming the key."""

    def __init__(self, problems: list[str]) -> None:
        super().__init__("; ".join(problems))
        self.problems = problems


class Assessment(NamedTuple):
    """What was read, examined, decided and is to be done for one tender."""

    read: ReadTender
    examination: Examination
    decision: Decision
    instructions: Instructions

    def __repr__(self) -> str:
        """What may stand in a log: the id, the answer and what it rests on, nothing of what was read."""
        found = ", ".join(finding.rule for finding in self.findings)
        return f"Assessment(id={self.id!r}, disposition={str(self.disposition)!r}, findings=[{found}])"

    @property
    def id(self) -> str:
        """The tender's own id; an account number or a line of a check in it is masked."""
        return masking.identifier(self.read.tender.id, self.read)

    @property
    def disposition(self) -> Disposition:
        """Convert, keep, refer or decline."""
        return self.decision.disposition

    @property
    def findings(self) -> tuple[Finding, ...]:
        """Everything found, in the order of the rule book."""
        return self.examination.findings

    @property
    def unread(self) -> tuple[str, ...]:
        """Rules that did not run."""
        return self.examination.unread

    def model_dump(self, *, mode: str = "json", reveal: bool = False) -> dict[str, Any]:
        """The wire form as a JSON-ready dict. ``reveal`` leaves account and identification numbers unmasked."""
        if mode not in {"json", "python"}:
            raise ValueError(f"Expected mode 'json' or 'python', read {mode!r}.")
        texts = masking.texts(self.read, reveal=reveal)
        return {
            "schema": SCHEMA,
            "id": self.id,
            "disposition": str(self.disposition),
            "findings": [_finding_wire(finding, texts) for finding in self.findings],
            "rests_on": [rest._asdict() for rest in self.decision.rests_on],
            "unread": list(self.unread),
            "would_change": [
                {
                    "disposition": str(change.disposition),
                    "cure": [{"rule": f.rule, "remedy": str(f.remedy)} for f in change.cures],
                    "curable": change.curable,
                }
                for change in self.decision.would_change
            ],
            "read": masking.summary(self.read, texts, reveal=reveal),
            "instructions": self.instructions.wire(),
            "made_with": {"rules": book_digest(), "tables": tables.digest(), "policy": self.decision.policy},
        }

    def model_dump_json(self, *, indent: int | None = None, reveal: bool = False) -> str:
        """The wire form as JSON text."""
        return dumps(self.model_dump(reveal=reveal), indent=indent)


def assess(
    tender: Tender | Mapping[str, Any], policy: Policy | None = None, history: History | None = None
) -> Assessment:
    """Read, examine, decide and handle *tender*, given as a :class:`Tender` or as its wire form.

    Bad paper never raises. Raises :class:`TenderError` for a mapping that is not a tender, and
    :class:`~checkface.policy.PolicyError` for a policy that lowers an effect it may not.
    """
    given = _confirmable(tender) if isinstance(tender, Tender) else parse(tender)
    policy = (policy or _careful()).at(given.counter.store)
    reading = read(given, policy.routing.layouts, policy.reader)
    examination = examine(reading, policy, history)
    decision = decide(examination, policy)
    return Assessment(reading, examination, decision, handle(decision, reading, policy))


def parse(wire: Mapping[str, Any] | str | bytes) -> Tender:
    """The tender in *wire*: a mapping, or JSON text. Raises :class:`TenderError` naming each bad key."""
    try:
        given = loads(wire) if isinstance(wire, (str, bytes)) else dict(wire)
        return _confirmable(Tender.model_validate(given))
    except JsonError as error:
        raise TenderError([f"tender: {error}"]) from None
    except ValidationError as error:
        raise TenderError([_problem(item) for item in error.errors(include_url=False)]) from None


def _confirmable(tender: Tender) -> Tender:
    """*tender*, if every rule it calls confirmed has a question."""
    if tender.counter.confirmed and (mistakes := check_confirmed(tender.counter.confirmed)):
        raise TenderError([f"counter.confirmed: {mistake}" for mistake in mistakes])
    return tender


def _problem(item: Any) -> str:
    place = ".".join(str(part) for part in item["loc"]) or "tender"
    return f"{place}: {sentence(item)}"


def _finding_wire(finding: Finding, texts: Mapping[str, str]) -> dict[str, Any]:
    return {
        "rule": finding.rule,
        "effect": str(finding.effect),
        "message": finding.message,
        "labels": [_label_wire(label, texts) for label in finding.labels],
        "authority": [
            {"id": entry.id, "force": str(entry.force), "citation": entry.citation}
            for entry in map(authority.get, finding.authority)
        ],
        "remedy": str(finding.remedy),
        "question": finding.question or None,
    }


def _label_wire(label: Label, texts: Mapping[str, str]) -> dict[str, Any]:
    return {
        "reading": label.reading,
        "start": label.start,
        "end": label.end,
        "text": texts.get(label.reading, "")[label.start : label.end],
        "words": label.words,
        "primary": label.primary,
    }
