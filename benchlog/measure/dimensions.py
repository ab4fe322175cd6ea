"""What can be measured: the plain words for it, its SI unit, and an example to type."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Dimension:
    """One kind of quantity: `phrase` reads in a sentence, `example` shows how to type one.

    `si_unit` is the registry's name of the unit in which values are kept.
    """

    phrase: str
    si_unit: str
    example: str


DIMENSIONS = {
    "length": Dimension("a length", "meter", "12.3 mm or 1/2 in"),
    "mass": Dimension("a mass", "kilogram", "287.4 g or 10.1 oz"),
    "pressure": Dimension("a pressure", "pascal", "12 psi, 80 kPa or 8-11 psi"),
    "force": Dimension("a force", "newton", "36 N or 8 lbf"),
    "area": Dimension("an area", "meter ** 2", "660 cm2 or 102 in2"),
    "area_mass": Dimension("a mass per area", "kilogram / meter ** 2", "161 g/m2"),
    "density": Dimension("a density", "kilogram / meter ** 3", "0.26 g/cm3"),
    "volume": Dimension("a volume", "meter ** 3", "250 mL"),
    "volume_rate": Dimension("a volume per time", "meter ** 3 / second", "12 mL/h"),
    "face_flow": Dimension("a flow per area", "meter / second", "500 L/m2/s"),
    "spring_rate": Dimension("a spring rate", "newton / meter", "4.2 N/mm"),
    "torque": Dimension("a torque", "newton * meter", "17 N m or 13 ft lbf"),
    "hardness": Dimension("a hardness in points", "dimensionless", "65 or 65 Shore A"),
    "ratio": Dimension("a ratio", "dimensionless", "0.17 or 17 %"),
    "count": Dimension("a count", "count", "52"),
    "turn": Dimension("a number of turns", "turn", "0.75 or 3/4 turn"),
    "angle": Dimension("an angle", "degree", "90 deg"),
    "time": Dimension("a time", "second", "45 min or 12 h"),
    "temperature": Dimension("a temperature", "kelvin", "21 °C"),
    "money": Dimension("a sum of money", "money", "12.99"),
}
"""The words used for `Attribute.dimension`, each with its SI unit."""

UNITLESS = {
    "count": "count",
    "dimensionless": "ratio",
    "percent": "ratio",
    "turn": "turn",
    "degree": "angle",
    "radian": "angle",
}
"""What the registry takes for bare numbers, told apart by what the reviewer means."""

ALIKE = frozenset(
    {
        frozenset({"turn", "angle"}),
        frozenset({"hardness", "ratio"}),
        frozenset({"count", "ratio"}),
    }
)
"""Pairs of words whose values may be turned into one another: points and counts are numbers."""
