"""A set of rules being edited, with every step that led to it; nothing of it is on the shelf."""

from __future__ import annotations

from dataclasses import dataclass, replace

from benchlog.judge.rules import Rules
from benchlog.judge.rules_changes import RuleChange, changes_between
from benchlog.judge.rules_file import digest


@dataclass(frozen=True)
class RulesDraft:
    """Rules as they were taken up (`base`) and as they are `now`, and the steps between.

    Each step gives another draft; the ones before stay as they were.
    """

    base: Rules
    now: Rules
    past: tuple[Rules, ...] = ()
    future: tuple[Rules, ...] = ()

    @property
    def changes(self) -> tuple[RuleChange, ...]:
        """What has been changed so far, in words."""
        return changes_between(self.base, self.now)

    def step(self, rules: Rules) -> RulesDraft:
        """Return the draft with other rules; rules that say the same are no step."""
        if digest(rules) == digest(self.now):
            return self
        return RulesDraft(self.base, rules, (*self.past, self.now))

    def undo(self) -> RulesDraft:
        """Return the draft before the last step, itself when there was none."""
        if not self.past:
            return self
        *before, last = self.past
        return replace(self, now=last, past=tuple(before), future=(self.now, *self.future))

    def redo(self) -> RulesDraft:
        """Return the draft with the step that was undone last, itself when none was."""
        if not self.future:
            return self
        following, *later = self.future
        return replace(self, now=following, past=(*self.past, self.now), future=tuple(later))


def draft_of(rules: Rules) -> RulesDraft:
    """Return a draft of some rules in which nothing has been changed yet."""
    return RulesDraft(rules, rules)
