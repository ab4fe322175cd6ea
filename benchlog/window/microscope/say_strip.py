"""The strip under what is done: what was taken, refused, or is asked once more."""

from __future__ import annotations

from benchlog.errors import AskAgain
from benchlog.window.dialogs.checks_result import CheckStrip


class SayStrip(CheckStrip):
    """As the strip of the checks, with questions in their own words."""

    def asks(self, question: AskAgain) -> None:
        """Ask whether it is meant so."""
        self._say("question", f"{question.what} {question.do}".strip(), "warn", 16)

    def took(self, words: str) -> None:
        """Say what was taken."""
        self._say("tick", words, "good", 16)

    def warns(self, words: str) -> None:
        """Say what is wrong."""
        self._say("stop", words, "warn", 16)
