"""What a reading was taken with."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class InstrumentKind(StrEnum):
    """Kinds of bench instrument, in the trade's words."""

    SCALE = "scale"
    CALLIPER = "calliper"
    MICROMETER = "micrometer"
    THICKNESS_GAUGE = "thickness gauge"
    DEPTH_GAUGE = "depth gauge"
    TAPE = "tape"
    RULE = "rule"
    DUROMETER = "durometer"
    PITCH_GAUGE = "pitch gauge"
    PRESSURE_GAUGE = "pressure gauge"
    MICROSCOPE = "microscope"
    OTHER = "other"


@dataclass(frozen=True)
class Instrument:
    """One bench instrument.

    `resolution` and `permissible_error` (half-width, plus or minus) are in `unit`;
    `contact_pressure_kpa` is the pressure of the foot on soft material, None where none applies.
    A verified scale names its `accuracy_class` ("II", "III") and verification interval e, in
    `unit`: its permissible error then follows from the load (OIML R 76-1) and
    `permissible_error` is not used. "" and 0 for any other.
    """

    id: str
    name: str
    kind: InstrumentKind
    unit: str
    resolution: float
    permissible_error: float
    contact_pressure_kpa: float | None = None
    note: str = ""
    accuracy_class: str = ""
    verification_interval: float = 0.0
