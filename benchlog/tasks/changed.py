"""What changed from one revision to a later one, piece by piece, and which outputs show it."""

from __future__ import annotations

from dataclasses import dataclass

NOTHING = "nothing"


@dataclass(frozen=True)
class Change:
    """One difference: what it is of, what it was, what it is, and why where that was said.

    `old` or `new` is "" where there was or is nothing; both are where the change has no values.
    """

    what: str
    old: str
    new: str
    reason: str = ""

    @property
    def sentence(self) -> str:
        """Return it in one line: "Amber · strip length: 1204 mm → 1240 mm, because …"."""
        said = self.what
        if self.old or self.new:
            said += f": {self.old or NOTHING} → {self.new or NOTHING}"
        return f"{said}, because {self.reason}" if self.reason else said


@dataclass(frozen=True)
class ReadingChange(Change):
    """A reading corrected, scratched or added; `subject` is the attribute's key."""

    subject: str = ""
    specimen_id: str = ""
    reading_id: str = ""
    """The reading that stood before, or the new one where there was none."""


@dataclass(frozen=True)
class FigureChange(Change):
    """A finding, derived figure or score that comes out differently; `key` names it."""

    key: str = ""
    specimen_id: str = ""


@dataclass(frozen=True)
class AwardChange(Change):
    """A component's award that comes out differently, or that the reviewer overruled."""

    component: str = ""


@dataclass(frozen=True)
class RuleChange(Change):
    """The rules of judging: their version, one entry's weight or value, or a further lock."""


@dataclass(frozen=True)
class PurposeChange(Change):
    """A purpose declared or taken back, or a specimen's ranks under the one that stands."""


@dataclass(frozen=True)
class PlanEdit(Change):
    """The plan: question, reviewer, what is asked, a specimen's price or who paid for it."""


@dataclass(frozen=True)
class InstrumentChange(Change):
    """An instrument's entry, or a check of it."""


@dataclass(frozen=True)
class RemarkChange(Change):
    """A remark of the reviewer's, or a poll of viewers."""


@dataclass(frozen=True)
class PhotoChange(Change):
    """A photo added, taken away or named differently."""


@dataclass(frozen=True)
class PictureChange(Change):
    """A picture of the media taken, taken again or back, measured otherwise, or its set-up."""


@dataclass(frozen=True)
class LicenceChange(Change):
    """The licence under which the data goes out."""


@dataclass(frozen=True)
class WishChange(Change):
    """What goes out and in which way, chosen by the reviewer; no number changes with it.

    `shown_in` are the kinds of output in which it can be seen.
    """

    shown_in: tuple[str, ...] = ()

    @property
    def in_passing(self) -> str:
        """Return its sentence as it stands behind other words: "cards were added"."""
        return self.sentence[:1].lower() + self.sentence[1:]


SHEET, CARDS, DATA, CHAPTERS, DESCRIPTION = "sheet", "cards", "data", "chapters", "description"

TOUCHED: dict[type[Change], tuple[str, ...]] = {
    LicenceChange: (DATA,),
    ReadingChange: (SHEET, CARDS, DATA, CHAPTERS, DESCRIPTION),
    FigureChange: (SHEET, CARDS, DATA),
    AwardChange: (SHEET, CARDS, DATA),
    RuleChange: (SHEET, DATA, DESCRIPTION),
    PurposeChange: (SHEET, DATA),
    PlanEdit: (SHEET, CARDS, DATA, CHAPTERS, DESCRIPTION),
    InstrumentChange: (SHEET, DATA),
    RemarkChange: (SHEET, DATA),
    PhotoChange: (SHEET, CARDS, DATA),
    PictureChange: (SHEET, DATA),
}
"""Kinds of output in which each kind of change can be seen; "chapters" hold the subtitles.

A wish is not among them: each names its own.
"""


def outputs_touched(change: Change) -> tuple[str, ...]:
    """Return the kinds of output that show what changed; all are re-issued together anyway."""
    return change.shown_in if isinstance(change, WishChange) else TOUCHED[type(change)]
