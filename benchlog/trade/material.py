"""Materials by name: rubbers with their usual limits, kinds of media and their fibres."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.attribute import Choice, Support
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

MATERIALS_FILE = "trade/materials.toml"


@dataclass(frozen=True)
class Elastomer:
    """A family of rubber and its usual service temperatures in °C.

    `service_c` is the upper limit, a range where sources disagree; `cold_c` is the lower one.
    `ash_shows` tells that burning a grain of it can tell it from the others.
    """

    key: str
    label: str
    service_c: tuple[float, float]
    shore_a: tuple[float, float]
    source: str
    cold_c: float
    ash_shows: bool = False


@dataclass(frozen=True)
class FibreDensity:
    """Between what the density of the bare fibres of a media kind lies, in kg/m³.

    `fibre` says which fibres are taken. Resin on them is not in it.
    """

    key: str
    low_kg_m3: float
    high_kg_m3: float
    fibre: str
    support: Support
    source: str


@dataclass(frozen=True)
class Materials:
    """All that trade/materials.toml holds.

    `untested` are the answers for a rubber that nobody tested, and for what is no rubber.
    """

    elastomers: tuple[Elastomer, ...]
    untested: tuple[Choice, ...]
    media_kinds: tuple[Choice, ...]
    fibre_densities: tuple[FibreDensity, ...]

    @property
    def rubber_choices(self) -> tuple[Choice, ...]:
        """Every answer to 'which rubber', the untested ones last."""
        return (*(Choice(e.key, e.label) for e in self.elastomers), *self.untested)


@cache
def load_materials(root: Path | None = None) -> Materials:
    """Return the materials of trade/materials.toml; raises ResourceFault."""
    file = read_resource(MATERIALS_FILE, root)
    file.only("elastomer", "untested", "media_kind", "fibre_density")
    return Materials(
        tuple(_elastomer(file, entry) for entry in file.entries("elastomer")),
        tuple(file.convert(entry, Choice) for entry in file.entries("untested")),
        tuple(file.convert(entry, Choice) for entry in file.entries("media_kind")),
        tuple(_fibre_density(file, entry) for entry in file.entries("fibre_density")),
    )


def fibre_density_of(media_kind: str) -> FibreDensity | None:
    """Return the fibre density of a media kind, None where none is stated."""
    stated = load_materials().fibre_densities
    return next((density for density in stated if density.key == media_kind), None)


def _elastomer(file: ResourceFile, entry: Entry) -> Elastomer:
    elastomer = file.convert(entry, Elastomer)
    for field in ("service_c", "shore_a"):
        low, high = getattr(elastomer, field)
        if low > high:
            raise file.fault(entry, field, "wants the lower end first")
    if elastomer.cold_c >= elastomer.service_c[0]:
        raise file.fault(entry, "cold_c", "wants a temperature below the upper limit")
    return elastomer


def _fibre_density(file: ResourceFile, entry: Entry) -> FibreDensity:
    density = file.convert(entry, FibreDensity)
    if not 0 < density.low_kg_m3 <= density.high_kg_m3:
        raise file.fault(entry, "low_kg_m3", "wants 0 < low ≤ high")
    if density.key not in file.tables.get("media_kind", {}):
        raise file.fault(entry, "", f"there is no media kind '{density.key}'")
    return density
