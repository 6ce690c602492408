"""How many of what: answers, rules, rules that could not run, questions answered with yes, what was skipped, flaws."""

from __future__ import annotations

from collections import Counter

from checkface.audit.confirmed import Confirmations
from checkface.audit.placed import Skipped
from checkface.audit.run import Result
from checkface.findings import Disposition, Effect


class Tally:
    """Counts of one audit. Each count is of tenders: a rule that found two faults on one check counts once."""

    def __init__(self) -> None:
        self.dispositions: Counter[Disposition] = Counter()
        self.rules: Counter[tuple[Effect, str]] = Counter()
        self.unread: Counter[str] = Counter()
        self.confirmations = Confirmations()
        self.partly_unread = 0
        self.skipped = 0
        self.flaws = 0
        self.files = 0

    def add(self, result: Result) -> None:
        """Count one more result."""
        if isinstance(result, Skipped):
            self.flaws += result.flaw
            self.files += result.is_file
            self.skipped += not (result.flaw or result.is_file)
            return
        assessment = result.assessment
        self.dispositions[assessment.disposition] += 1
        self.rules.update({(finding.effect, finding.rule) for finding in assessment.findings})
        self.unread.update(assessment.unread)
        self.partly_unread += bool(assessment.unread)
        counter = assessment.read.counter
        self.confirmations.add(counter.store, counter.lane, counter.employee, confirmed=bool(counter.confirmed))

    @property
    def worst(self) -> Disposition | None:
        """The strictest disposition so far; ``None`` before the first."""
        return max(self.dispositions, default=None)

    def text(self, *, verbose: bool = False) -> str:
        """The tally as a page: dispositions, then rules, the strictest and most frequent first.

        ``verbose`` names the rules that could not run and every lane and employee with a question answered.
        """
        total = self.dispositions.total()
        counts = [f"{self.dispositions[answer]} {answer}" for answer in Disposition]
        page = [f"{total} tender{'s' * (total != 1)}: {', '.join(counts)}."]
        if self.skipped:
            rows, them = ("row", "it") if self.skipped == 1 else ("rows", "them")
            page.append(f"{self.skipped} {rows} skipped: no answer was given for {them}.")
        if self.files:
            page.append(f"{self.files} file{'s' * (self.files != 1)} could not be read to the end.")
        if self.flaws:
            page.append(f"{self.flaws} flaw{'s' * (self.flaws != 1)} of the cash letter.")
        if self.rules:
            order = sorted(self.rules, key=lambda key: (-key[0].rank, -self.rules[key], key[1]))
            page += ["", "tenders  effect   rule"]
            page += [f"{self.rules[effect, rule]:7}  {effect:7}  {rule}" for effect, rule in order]
        if self.partly_unread and not verbose:
            page += ["", f"{self.partly_unread:7}  lack a reading that some rule needs; --verbose counts the rules"]
        if self.unread and verbose:
            page += ["", "tenders  could not run, a reading is missing"]
            missing = sorted(self.unread, key=lambda rule: (-self.unread[rule], rule))
            page += [f"{self.unread[rule]:7}  {rule}" for rule in missing]
        page += self.confirmations.text(verbose=verbose)
        return "\n".join(page)
