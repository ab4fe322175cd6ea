"""Engine oil by its grade: between what its viscosity at 100 °C lies."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.attribute import Support
from benchlog.trade.resource_file import read_resource

OIL_GRADES_FILE = "trade/oil_grades.toml"


@dataclass(frozen=True)
class Edition:
    """The edition of the standard that all grades come from."""

    label: str
    support: Support
    source: str


@dataclass(frozen=True)
class OilGrade:
    """One grade: kinematic viscosity at 100 °C from `v100_low` to below `v100_below`, mm²/s."""

    key: str
    v100_low: float
    v100_below: float


@dataclass(frozen=True)
class OilGrades:
    """All that trade/oil_grades.toml holds, grades from thin to thick."""

    edition: Edition
    grades: tuple[OilGrade, ...]

    def grade(self, said: str) -> OilGrade | None:
        """Return the grade that "30", "SAE 30" or "5W-30" names; None for an unknown one.

        Of a multigrade oil the second number is the grade at 100 °C. A winter grade alone
        ("10W") has a lower limit there and no upper one, so it is none of these.
        """
        found = re.fullmatch(r"(?:SAE)?\s*(?:\d+\s*W\s*[-/ ]?\s*)?(\d+)", said.strip().upper())
        return next((g for g in self.grades if found and g.key == found[1]), None)


@cache
def load_oil_grades(root: Path | None = None) -> OilGrades:
    """Return the grades of trade/oil_grades.toml; raises ResourceFault."""
    file = read_resource(OIL_GRADES_FILE, root)
    file.only("edition", "grade")
    grades: list[OilGrade] = []
    for entry in file.entries("grade"):
        grade = file.convert(entry, OilGrade)
        if not 0 < grade.v100_low < grade.v100_below:
            raise file.fault(entry, "v100_low", "wants 0 < low < upper limit")
        if grades and grade.v100_low < grades[-1].v100_low:
            raise file.fault(entry, "v100_low", "wants the grades from thin to thick")
        grades.append(grade)
    return OilGrades(file.convert(file.single("edition"), Edition), tuple(grades))
