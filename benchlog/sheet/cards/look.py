"""The cards' measures, type sizes and colours, in one place.

Everything is said in a frame of 1920 by 1080; other sizes are that frame scaled. Text keeps 5 % in
from every edge, older practice 10 % (the safe areas of EBU R 95 and of older practice). Capitals
are never lower than 45 of 1080 lines, the least of broadcast advice for viewers with low vision
(24 of 576 lines), at a type size of 62; names, numbers, outcomes and who paid have capitals of 60
lines and more, for phones.
"""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum

WIDTH, HEIGHT = 1920, 1080

LEAST = 62.0
"""The least type size: capitals of 45 lines of 1080."""

PLAIN_TO_READ = 83.0
"""Type size whose capitals are 60 lines of 1080 high."""

PITCH = 1.25
"""Distance of baselines, in type sizes: 1 above the line and 0.25 for tails below it."""

INK = "#14191e"
QUIET = "#3c464f"
PLATE = "#f6f7f8"
BAND = "#dfe3e6"
DEEP = "#0c5a66"

PADDING = 34.0
RIM = 8.0
"""Width of a plate's rim: no line on a card is finer."""

GAP = 24.0


class Margin(Enum):
    """How far everything keeps away from the frame's edges, as a share of width and height."""

    FIVE = 0.05
    TEN = 0.10


@dataclass(frozen=True)
class Area:
    """An upright rectangle, its origin at the top left."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """Its width."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """Its height."""
        return self.bottom - self.top

    def inset(self, by: float) -> Area:
        """Return what is left inside when every side moves in."""
        return Area(self.left + by, self.top + by, self.right - by, self.bottom - by)

    def meets(self, other: Area, slack: float = 0.0) -> bool:
        """Whether both share more than `slack` in width and in height."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > slack
            and min(self.bottom, other.bottom) - max(self.top, other.top) > slack
        )

    def holds(self, other: Area, slack: float = 0.0) -> bool:
        """Whether the other lies inside, but for `slack`."""
        return (
            other.left >= self.left - slack
            and other.right <= self.right + slack
            and other.top >= self.top - slack
            and other.bottom <= self.bottom + slack
        )


PLAYERS_CORNER = Area(1568, 886, WIDTH, HEIGHT)
"""Left free: players put their badge in the lower right. Common practice, no source."""


def safe_area(margin: Margin) -> Area:
    """Return the part of the frame that cards may use."""
    x, y = WIDTH * margin.value, HEIGHT * margin.value
    return Area(x, y, WIDTH - x, HEIGHT - y)
