"""The Enter that habit presses after an answer that needed none."""

from __future__ import annotations

from collections.abc import Callable

from benchlog.window.keys import LOCK_OUT_S


class Habits:
    """Tells an Enter meant for the answer before from one meant for what is asked now."""

    def __init__(self, seconds: Callable[[], float]) -> None:
        self._seconds = seconds
        self._answered_at: float | None = None

    def answered_by_one_key(self) -> None:
        """Note that one key was the whole answer; an Enter may follow it."""
        self._answered_at = self._seconds()

    def something_else(self) -> None:
        """Note that another key or some typing came between."""
        self._answered_at = None

    def enter_meant_before(self, *, would_do: bool) -> bool:
        """Whether an Enter on an empty entry belongs to the answer before; it is used up by it.

        Where it `would_do` something now, such as take a weight, only one within the lock-out
        does; otherwise the first one does, however slow the hand.
        """
        at, self._answered_at = self._answered_at, None
        if at is None:
            return False
        return not would_do or self._seconds() - at < LOCK_OUT_S
