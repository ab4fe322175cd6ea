"""What one side-by-side card says: the same thing of every specimen, and what goes with it."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cached_property

from benchlog.sheet.cards.fold import ALL, Fold
from benchlog.sheet.cards.told import (
    COVERAGE,
    DOUBTED,
    Deck,
    Seen,
    cut_words,
    foot_words,
    label,
    name_of,
    seen,
    short_name,
    unlike_words,
    with_short_names,
)
from benchlog.trade.specimen import Specimen


@dataclass(frozen=True)
class Strip:
    """A subject of some specimens in bench order; `part` says "1 of 2" when others are elsewhere.

    `units` are those of this card, which may be one of the two that the deck asks for. `fold` says
    which of several cards this is that share out what stands beneath the values.
    """

    deck: Deck
    subject: str
    specimens: tuple[Specimen, ...]
    units: str
    part: str = ""
    fold: Fold = ALL

    @cached_property
    def values(self) -> tuple[Seen, ...]:
        """The value of each specimen."""
        return tuple(seen(self.deck, self.subject, s.id, self.units) for s in self.specimens)

    @cached_property
    def heading(self) -> str:
        """What the subject is called."""
        parts = ", ".join(filter(None, (self.part, self.fold.words)))
        return label(self.deck, self.subject) + (f" ({parts})" if parts else "")

    @cached_property
    def count_line(self) -> str:
        """How many readings and filters stand behind it, under what feet, and what a ± holds."""
        if self.fold.number < self.fold.of:
            return ""
        lines = [line for value in self.values for line in value.lines]
        parts = (
            _counts(self.values),
            cut_words(self.deck.record, self.specimens),
            foot_words([v.foot_kpa for v in self.values if v.is_number]),
            COVERAGE if any("±" in line for line in lines) else "",
        )
        return " · ".join(filter(None, parts))

    @cached_property
    def unlike(self) -> str:
        """Why these may not be compared, "" where they may, and where several cards share it."""
        return "" if self.fold.words else self._unlike

    @cached_property
    def _unlike(self) -> str:
        return with_short_names(unlike_words(self.deck, self.subject), self.specimens)

    @cached_property
    def cautions(self) -> tuple[str, ...]:
        """What must stand beside the values: the figure's sentence, and what is in doubt."""
        beside = next((v.beside for v in self.values if v.beside), "")
        pairs = zip(self.specimens, self.values, strict=True)
        doubted = ", ".join(short_name(s) for s, v in pairs if v.doubted)
        named = "in doubt" in self._unlike
        told = f"{DOUBTED.rstrip('.')} ({doubted})." if doubted and not named else ""
        shared = beside
        if self.fold.words:
            shared = self.fold.of_text(" ".join(filter(None, (self._unlike, beside))))
        return tuple(filter(None, (shared, told)))

    @property
    def spoken(self) -> str:
        """All of it in words."""
        told = [
            f"{name_of(s)} ({s.shape.value}): {' · '.join(v.lines)}"
            for s, v in zip(self.specimens, self.values, strict=True)
        ]
        counted = f"{self.count_line}." if self.count_line else ""
        parts = (f"{self.heading}. {'; '.join(told)}.", counted, self.unlike)
        return " ".join(filter(None, (*parts, *self.cautions)))


def _counts(values: tuple[Seen, ...]) -> str:
    counts = [v.count for v in values]
    if not any(counts):
        return ""
    what = "readings behind it" if any(v.derived for v in values) else "readings"
    if len(set(counts)) == 1:
        return f"n = {counts[0]} {what} each".replace("n = 1 readings", "n = 1 reading")
    return f"n = {', '.join(map(str, counts))} {what}"
