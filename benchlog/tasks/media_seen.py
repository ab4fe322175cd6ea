"""What pictures show of the media of a line-up, side by side, as it is drawn and printed."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.measure.micrograph import NOT_A_RATING, Side
from benchlog.tasks.field_order import FieldStanding

FEWEST_FIBRES = 60
"""Fibres in all fields together, below which a medium's diameters are said to rest on few."""


class PairOutcome(StrEnum):
    """What may be said of two media in one figure."""

    SMALLER = "smaller"
    LARGER = "larger"
    TOO_LITTLE = "too little to count"
    CANNOT_TELL = "cannot tell"
    NOT_COMPARED = "not compared"


@dataclass(frozen=True)
class FigureSeen:
    """One figure of one side of one medium, in `unit`: a value a field, mean and 95 % interval.

    `spread` is the standard deviation between fields, None of fewer than two. `text` is the mean
    as it is printed everywhere, or why there is none; `more_fields` how many more of each medium
    it takes to tell a tenth, 0 for enough, None where that cannot be said. `alike` is the
    half-width, at 95 %, of what scale and light shift in all media of the set-up alike.
    """

    key: str
    attribute: str
    label: str
    unit: str
    specimen_id: str
    values: tuple[float, ...]
    mean: float | None
    spread: float | None
    low: float | None
    high: float | None
    text: str
    more_fields: int | None
    alike: float = 0.0


@dataclass(frozen=True)
class PairSeen:
    """Two media in one figure: what may be said of the first against the second.

    `answer` is the outcome in the figure's own words ("tighter", "cannot tell"), `words` the
    whole of it in a sentence.
    """

    key: str
    attribute: str
    first: str
    second: str
    outcome: PairOutcome
    answer: str
    words: str
    gap: float | None = None
    expanded: float = 0.0


@dataclass(frozen=True)
class StripSeen:
    """The fibres of one side of one medium by diameter: shares of their length, bin by bin."""

    specimen_id: str
    edges_um: tuple[float, ...]
    shares: tuple[float, ...]
    fibres: float

    @property
    def few(self) -> bool:
        """Whether it rests on fewer fibres than a median should."""
        return self.fibres < FEWEST_FIBRES


@dataclass(frozen=True)
class SideSeen:
    """One side of all media, in bench order: fields, figures, pairs, and histogram strips."""

    side: Side
    fields: tuple[FieldStanding, ...]
    figures: tuple[FigureSeen, ...]
    pairs: tuple[PairSeen, ...]
    strips: tuple[StripSeen, ...]

    def of(self, specimen_id: str) -> tuple[FieldStanding, ...]:
        """Return the fields of one specimen, in order."""
        own = (one for one in self.fields if one.field.specimen_id == specimen_id)
        return tuple(sorted(own, key=lambda one: one.field.field))


@dataclass(frozen=True)
class Refusal:
    """A picture that was refused: whose it is, why, and whether another took its place."""

    specimen_id: str
    side: Side
    field: int
    reasons: tuple[str, ...]
    replaced: bool


@dataclass(frozen=True)
class MediaView:
    """All that pictures show of a line-up's media; `beside` is what the numbers are not."""

    sides: tuple[SideSeen, ...]
    refusals: tuple[Refusal, ...]
    beside: str = NOT_A_RATING
