"""The shape of a scale's line: how it is read, how it is written, what its marks mean."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from functools import cached_property

from benchlog.tasks.ports import Steadiness

NO_WEIGHT = "no weight"
"""A mark that says there is no weight to be had now: calibrating, an error, a command refused."""

MASS_UNITS: tuple[str, ...] = ("gram", "kilogram", "milligram", "pound", "ounce", "carat", "grain")
"""Names of the units a scale may weigh in, as the unit registry knows them."""

SHORTHANDS = {
    "{sign}": r"(?P<sign>[-+]?) *",
    "{number}": r"(?P<number>\d+(?:\.\d*)?|\.\d+)",
    "{unit}": r"(?P<unit>[A-Za-z]{1,3})",
}
GROUPS = frozenset({"motion", "limit", "kind", "sign", "number", "unit"})
MOTIONS = {
    "stable": Steadiness.STABLE,
    "moving": Steadiness.MOVING,
    "overload": Steadiness.OVERLOAD,
    "underload": Steadiness.UNDERLOAD,
}
KINDS: dict[str, bool | None] = {"net": True, "gross": False, "unknown": None}


@dataclass(frozen=True)
class Example:
    """A line and what it must come to; without `value` no weight may come of it.

    An empty `unit` is the unit configured, an empty `motion` a line that does not say.
    """

    line: str
    value: str = ""
    unit: str = ""
    motion: str = ""
    kind: str = "unknown"


@dataclass(frozen=True)
class Template:
    """One shape of line. `pattern` covers the whole line, `write` is the shape for writing.

    `motion` and `kind` map the marks of a line to their meaning; `decimal_comma` reads a comma
    before the decimals; `blank_unit_moves` takes a missing unit as a moving weight.
    """

    key: str
    description: str
    source: str
    pattern: str
    write: str
    automatic: bool
    examples: tuple[Example, ...]
    motion: dict[str, str] = field(default_factory=dict)
    kind: dict[str, str] = field(default_factory=dict)
    blank_unit_moves: bool = False
    decimal_comma: bool = False

    @cached_property
    def compiled(self) -> re.Pattern[str]:
        """The pattern with its shorthands written out; raises re.error for an unsound one."""
        pattern = self.pattern
        for shorthand, spelled in SHORTHANDS.items():
            pattern = pattern.replace(shorthand, spelled)
        return re.compile(pattern, re.ASCII)

    @property
    def says_motion(self) -> bool:
        """Whether lines of this shape tell a resting weight from a moving one."""
        return self.blank_unit_moves or "stable" in self.motion.values()


@dataclass(frozen=True)
class Templates:
    """All shapes in the order of the file, and `units`: spelling to the unit's full name."""

    shapes: tuple[Template, ...]
    units: dict[str, str]
    name: str = ""

    def shape(self, key: str) -> Template:
        """Return the shape with that key; raises KeyError."""
        for shape in self.shapes:
            if shape.key == key:
                return shape
        raise KeyError(key)

    def spelling(self, unit: str) -> str:
        """Return how lines spell a unit; raises KeyError for one that is not in the file."""
        for spelling, name in self.units.items():
            if name == unit:
                return spelling
        raise KeyError(unit)
