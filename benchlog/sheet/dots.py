"""What a small panel shows: a dot and its interval for each specimen, and the band between them."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.rounding import as_is, bounds_text
from benchlog.sheet.numbers import Spread, number
from benchlog.trade.attribute import Judged
from benchlog.trade.specimen import Specimen


@dataclass(frozen=True)
class Dot:
    """One specimen in a panel: its number, or the word for why there is none.

    `bounded` marks an interval without a best value: an open bar, and no dot.
    """

    specimen: Specimen
    shown: Spread | None
    word: str = ""
    estimate: bool = False
    bounded: bool = False

    @property
    def text(self) -> str:
        """What is printed beside the dot."""
        if self.shown is None:
            return ""
        if self.bounded:
            return bounds_text(self.shown.low, self.shown.high, "")
        if self.estimate:
            return "~" + as_is(float(f"{self.shown.value:.4g}"))
        return number(self.shown)


@dataclass(frozen=True)
class Panel:
    """All that one panel shows; `meaningful` is the width of the band, None for no band.

    `note` stands under the label and says what keeps the dots from being compared. `key` names what
    the numbers are of.
    """

    label: str
    unit: str
    dots: tuple[Dot, ...]
    judged: Judged
    meaningful: float | None = None
    note: str = ""
    key: str = ""

    @property
    def numbers(self) -> list[Spread]:
        """The numbers there are."""
        return [dot.shown for dot in self.dots if dot.shown is not None]

    def band(self) -> tuple[float, float] | None:
        """Return where the band lies: from the leader where more or less is better, else midway."""
        values = [shown.value for shown in self.numbers]
        if not self.meaningful or not values:
            return None
        if self.judged is Judged.MORE:
            return max(values) - self.meaningful, max(values)
        if self.judged is Judged.LESS:
            return min(values), min(values) + self.meaningful
        middle = (min(values) + max(values)) / 2
        return middle - self.meaningful / 2, middle + self.meaningful / 2
