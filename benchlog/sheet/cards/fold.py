"""Words that must stand beside a number, shared out among cards where one has no room for them."""

from __future__ import annotations

import re
from dataclasses import dataclass

from benchlog.sheet.cards.folding import ELLIPSIS

_SENTENCE = re.compile(r"(?<=[.!?;])\s+")


@dataclass(frozen=True)
class Fold:
    """Which of several cards with the same numbers this is, from 1."""

    number: int = 1
    of: int = 1

    @property
    def words(self) -> str:
        """Return "1 of 2", "" for a card that has everything."""
        return f"{self.number} of {self.of}" if self.of > 1 else ""

    @property
    def mark(self) -> str:
        """Return what tells its name from the others', "" for a card that has everything."""
        return str(self.number) if self.of > 1 else ""

    def of_text(self, text: str) -> str:
        """Return this card's part of a text."""
        return shared_out(text, self.of)[self.number - 1]


ALL = Fold()
MOST = 4


def folds(count: int) -> tuple[Fold, ...]:
    """Return each of so many cards."""
    return tuple(Fold(number, count) for number in range(1, count + 1))


def shared_out(text: str, count: int) -> tuple[str, ...]:
    """Return a text in `count` parts of about one length, in order, with nothing left out.

    It is parted between sentences where it has enough of them; between words an ellipsis says so.
    """
    pieces, joint = _SENTENCE.split(text), ""
    if len(pieces) < count:
        pieces, joint = text.split(" "), ELLIPSIS
    parts: list[list[str]] = [[] for _ in range(count)]
    told, whole = 0, sum(map(len, pieces)) or 1
    for piece in pieces:
        middle = told + len(piece) / 2
        parts[min(count - 1, int(count * middle / whole))].append(piece)
        told += len(piece)
    found = [" ".join(part) for part in parts]
    for n in range(count - 1):
        if joint and found[n] and found[n + 1]:
            found[n], found[n + 1] = f"{found[n]} {joint}", f"{joint} {found[n + 1]}"
    return tuple(found)
