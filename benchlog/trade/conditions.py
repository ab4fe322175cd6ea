"""What is stated, not measured: the flow, the oil and the like that some figures are worked for."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.resource_file import read_resource

CONDITIONS_FILE = "trade/conditions.toml"


@dataclass(frozen=True)
class Conditions:
    """The stated conditions of a line-up; they have no uncertainty, since they are not readings.

    `flow_l_min` is the oil flow for face velocity and pressure drop. The oil is either two
    kinematic viscosities in mm²/s, at 40 and 100 °C, or, where one of them is 0, its grade by
    SAE J300 ("30", "40" …), of which only the limits are known; its density is that at 15 °C,
    as data sheets give it. `can_pressure_kpa` is the
    pressure that the can's stress is worked for, `km_per_year` the distance driven in a year.
    """

    flow_l_min: float
    oil_grade: str
    oil_v40: float
    oil_v100: float
    oil_density_kg_m3: float
    oil_temperature_c: float
    can_pressure_kpa: float
    km_per_year: float


@cache
def usual_conditions(root: Path | None = None) -> Conditions:
    """Return the conditions that a new line-up starts from; raises ResourceFault."""
    file = read_resource(CONDITIONS_FILE, root)
    file.only("conditions")
    (entry,) = (e for e in file.entries("conditions") if e.key == "usual")
    return file.convert(entry, Conditions)
