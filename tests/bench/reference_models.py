"""Twelve of the figures' models once more, in plain arithmetic, for any library's numbers.

All in SI, to which the numbers are brought from the units they were read in. Written from the
formulas in words and not from the program's code.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import Any

import GTC
import metrolopy
import uncertainties

from tests.bench.six_specimens import Ready

Numbers = dict[str, Any]
Made = dict[str, Callable[[Numbers], Any]]

FLOW, CAN_PRESSURE = 30.0 / 60_000.0, 700e3  # m³/s, Pa: the usual conditions
OIL_40, OIL_100, OIL_C, OIL_15 = 62.0, 10.5, 80.0, 850.0  # mm²/s, mm²/s, °C, kg/m³
WIDTH_SHARE = (0.5, 1.0)
EXPANSION = (6.5e-4, 8.0e-4)  # 1/K


@dataclass(frozen=True)
class Library:
    """One library: how it makes a number about nought, and how its answers are read."""

    name: str
    about_nought: Callable[[float], Any]
    value: Callable[[Any], float]
    u: Callable[[Any], float]

    def between(self, low: float, high: float) -> Any:
        """Return an assumed number, rectangular over its interval."""
        return (low + high) / 2 + self.about_nought((high - low) / math.sqrt(12))


LIBRARIES = (
    Library(
        "uncertainties",
        lambda u: uncertainties.ufloat(0.0, u),
        lambda n: n.nominal_value,
        lambda n: n.std_dev,
    ),
    Library("GTC", lambda u: GTC.ureal(0.0, u), lambda n: n.x, lambda n: n.u),
    Library(
        "metrolopy",
        lambda u: metrolopy.gummy(0.0, u=u),
        lambda n: float(n.x),
        lambda n: float(n.u),
    ),
)


def inputs_for(library: Library, bench: Iterable[Ready]) -> list[dict[str, tuple[Any, float]]]:
    """Return each specimen's numbers as the library's own, tied to one another as ours are."""
    made: dict[Any, Any] = {}
    return [
        {
            key: (_translated(library, number, made), factor)
            for key, (number, factor) in ready.numbers().items()
            if key in USED
        }
        for ready in bench
    ]


def _translated(library: Library, number: Any, made: dict[Any, Any]) -> Any:
    total: Any = getattr(number, "nominal_value", number)
    for part, slope in getattr(number, "derivatives", {}).items():
        if part not in made:
            made[part] = library.about_nought(part.std_dev)
        total = total + slope * made[part]
    if not isinstance(total, float):
        library.u(total)  # laid out before the clock runs, as ours are
    return total


def assumptions(library: Library, fibre: tuple[float, float], expansion: Any) -> Numbers:
    """Return what is assumed for one specimen; the oil is the same for all."""
    return {
        "fibre_density": library.between(*fibre),
        "width_share": library.between(*WIDTH_SHARE),
        "ends_of_thread": library.between(-0.5, 0.5),
        "oil_expansion": expansion,
    }


def exposed_area(x: Numbers) -> Any:
    return x["media_length"] * (x["media_width"] - x["media_hidden"])


def basis_weight(x: Numbers) -> Any:
    return x["media_mass"] / (x["media_length"] * x["media_width"])


def sheet_density(x: Numbers) -> Any:
    return basis_weight(x) / x["media_thickness"]


def solidity(x: Numbers) -> Any:
    return basis_weight(x) / (x["media_thickness"] * x["fibre_density"])


def pleat_depth(x: Numbers) -> Any:
    return x["media_length"] / (2 * x["pleat_count"])


def pleat_crowding(x: Numbers) -> Any:
    return 2 * x["media_thickness"] * x["pleat_count"] / (math.pi * x["tube_outside"])


def inlet_area(x: Numbers) -> Any:
    return x["inlet_hole_count"] * (math.pi / 4 * x["inlet_hole_diameter"] ** 2)


def thread_engagement(x: Numbers) -> Any:
    return (x["full_threads"] + x["ends_of_thread"]) * x["thread_pitch"]


def hoop_stress(x: Numbers) -> Any:
    return CAN_PRESSURE * x["can_diameter"] / (2 * x["can_wall"])


def bypass_opening(x: Numbers) -> Any:
    return x["bypass_force"] / (math.pi / 4 * x["bypass_seat"] ** 2)


def spring_rate(x: Numbers) -> Any:
    """Least squares over two pairs and the free length at no load."""
    lengths = [x["spring_height"], x["spring_second_length"], x["spring_free_length"]]
    loads = [x["spring_load"], x["spring_second_load"], 0.0]
    middle_length, middle_load = sum(lengths) / 3, sum(loads) / 3
    off = [length - middle_length for length in lengths]
    across = sum(o * (load - middle_load) for o, load in zip(off, loads, strict=True))
    return -across / sum(o**2 for o in off)


def davies_drop(x: Numbers) -> Any:
    filled = solidity(x)
    width = x["width_share"] * x["fibre_width"]
    permeability = width**2 / (64 * filled**1.5 * (1 + 56 * filled**3))
    dynamic = oil_m2_s() * OIL_15 * (1 - x["oil_expansion"] * (OIL_C - 15.0))
    return dynamic * FLOW / exposed_area(x) * x["media_thickness"] / permeability


def oil_m2_s() -> float:
    """ASTM D341 through the two viscosities, decimal logarithms as the standard has them."""
    high, low = (math.log10(math.log10(v + 0.7)) for v in (OIL_40, OIL_100))
    slope = (high - low) / (math.log10(373.15) - math.log10(313.15))
    wanted = high - slope * (math.log10(OIL_C + 273.15) - math.log10(313.15))
    return (10.0 ** (10.0**wanted) - 0.7) * 1e-6


MODELS: Made = {
    "exposed_area": exposed_area,
    "basis_weight": basis_weight,
    "sheet_density": sheet_density,
    "solidity": solidity,
    "pleat_depth": pleat_depth,
    "pleat_crowding": pleat_crowding,
    "inlet_area": inlet_area,
    "thread_engagement": thread_engagement,
    "can_hoop_stress": hoop_stress,
    "bypass_opening": bypass_opening,
    "spring_rate": spring_rate,
    "pressure_drop_estimated": davies_drop,
}
"""By the key of the figure that has the same model."""


USED = (
    *("media_length", "media_width", "media_hidden", "media_mass", "media_thickness"),
    *("fibre_width", "pleat_count", "tube_outside", "inlet_hole_count", "inlet_hole_diameter"),
    *("full_threads", "thread_pitch", "can_diameter", "can_wall", "bypass_force", "bypass_seat"),
    *("spring_height", "spring_second_length", "spring_free_length"),
    *("spring_load", "spring_second_load"),
)
"""The inputs that the models ask for; no library is made to bring others to SI."""


def worked(
    library: Library,
    bench: Iterable[dict[str, tuple[Any, float]]],
    fibre: tuple[float, float],
) -> list[dict[str, tuple[float, float]]]:
    """Return value and standard uncertainty of every model for every specimen, in SI."""
    expansion = library.between(*EXPANSION)
    found = []
    for numbers in bench:
        known = {key: factor * number for key, (number, factor) in numbers.items()}
        known |= assumptions(library, fibre, expansion)
        results = {key: model(known) for key, model in MODELS.items()}
        found.append({k: (library.value(n), library.u(n)) for k, n in results.items()})
    return found
