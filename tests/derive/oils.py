"""Stated conditions for tests: an oil by two viscosities, by its grade, or by what it comes to."""

from __future__ import annotations

from dataclasses import replace

from benchlog.trade.conditions import Conditions, usual_conditions

MIDDLE_EXPANSION = 7.25e-4
"""Middle of the assumed interval for how an oil's density falls, for each °C of its share."""


def oil(v40: float, v100: float, celsius: float, density: float = 850.0) -> Conditions:
    """An oil stated by its viscosities at 40 and 100 °C, mm²/s."""
    return replace(
        usual_conditions(),
        oil_v40=v40,
        oil_v100=v100,
        oil_temperature_c=celsius,
        oil_density_kg_m3=density,
    )


def grade(said: str, celsius: float = 100.0) -> Conditions:
    """An oil stated by its grade alone."""
    return replace(oil(0.0, 0.0, celsius), oil_grade=said)


def of_dynamic(mpa_s: float) -> Conditions:
    """An oil at 100 °C whose dynamic viscosity comes to `mpa_s` in the middle of its bounds."""
    density = 850.0 * (1 - MIDDLE_EXPANSION * 85.0)
    return oil(100.0, mpa_s * 1000.0 / density, 100.0)
