"""What a form can take back: its states before each change, typing in one field as one."""

from __future__ import annotations

from dataclasses import dataclass, field

from benchlog.tasks.draft import Draft

MOST = 200


@dataclass
class History:
    """Remembers drafts before they changed; a run of changes to one thing counts as one."""

    _before: list[tuple[Draft, str]] = field(default_factory=list)
    _thing: str = ""

    def note(self, before: Draft, thing: str, what: str) -> None:
        """Remember a draft before `thing` changes; `what` says the change in words."""
        if thing != self._thing or not self._before:
            self._before.append((before, what))
            del self._before[:-MOST]
        self._thing = thing

    def take_back(self) -> Draft | None:
        """Return the draft before the latest change, None when there is nothing to take back."""
        self._thing = ""
        return self._before.pop()[0] if self._before else None

    @property
    def latest(self) -> str:
        """The latest change in words; "" when there is none."""
        return self._before[-1][1] if self._before else ""

    def forget(self) -> None:
        """Begin anew."""
        self._before.clear()
        self._thing = ""
