"""checkface: check-face validation with MICR-line parsing.

Is the face of a check sound, and may it be converted to an electronic debit or must it be kept?

>>> import checkface as cf
>>> cf.routing.check_digit("11100002")
'5'
>>> cf.amounts.read_words("Forty-five and 10/100").cents
4510
"""

from typing import TYPE_CHECKING

from checkface.ondemand import names_of

if TYPE_CHECKING:
    from checkface import amounts, dates, identity, instruments, micr, routing
    from checkface.assessment import Assessment, TenderError, assess, parse
    from checkface.decision import Decision, decide
    from checkface.findings import Disposition, Effect, Finding, Label, Outcome, Remedy
    from checkface.handling import Instructions, handle
    from checkface.policy import Policy, PolicyError
    from checkface.reading import ReadTender, read
    from checkface.rules import Examination, Rule, examine, rules
    from checkface.span import Fault, Span
    from checkface.tender import Counter, Document, Face, Kind, Tender

__version__ = "0.1.0"

__all__ = [
    "Assessment",
    "Counter",
    "Decision",
    "Disposition",
    "Document",
    "Effect",
    "Examination",
    "Face",
    "Fault",
    "Finding",
    "Instructions",
    "Kind",
    "Label",
    "Outcome",
    "Policy",
    "PolicyError",
    "ReadTender",
    "Remedy",
    "Rule",
    "Span",
    "Tender",
    "TenderError",
    "amounts",
    "assess",
    "dates",
    "decide",
    "examine",
    "handle",
    "identity",
    "instruments",
    "micr",
    "parse",
    "read",
    "routing",
    "rules",
]

#: Each name is loaded when it is first asked for, so that a script that reads one part waits for that part alone.
__getattr__ = names_of(
    __name__,
    {
        **{room: room for room in ("amounts", "dates", "identity", "instruments", "micr", "routing", "rules")},
        **dict.fromkeys(("Assessment", "TenderError", "assess", "parse"), "assessment"),
        **dict.fromkeys(("Decision", "decide"), "decision"),
        **dict.fromkeys(("Disposition", "Effect", "Finding", "Label", "Outcome", "Remedy"), "findings"),
        **dict.fromkeys(("Instructions", "handle"), "handling"),
        **dict.fromkeys(("Policy", "PolicyError"), "policy"),
        **dict.fromkeys(("ReadTender", "read"), "reading"),
        **dict.fromkeys(("Examination", "Rule", "examine"), "rules"),
        **dict.fromkeys(("Fault", "Span"), "span"),
        **dict.fromkeys(("Counter", "Document", "Face", "Kind", "Tender"), "tender"),
    },
)


def __dir__() -> list[str]:
    return sorted({*globals(), *__all__})
