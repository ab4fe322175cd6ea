"""Materials by name: rubbers with their usual limits, and kinds of media."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.trade.attribute import Choice
from benchlog.trade.resource_file import read_resource

MATERIALS_FILE = "trade/materials.toml"


@dataclass(frozen=True)
class Elastomer:
    """A family of rubber; `service_c` is its upper limit in °C, a range where sources disagree."""

    key: str
    label: str
    service_c: tuple[float, float]
    shore_a: tuple[float, float]
    source: str


@dataclass(frozen=True)
class Materials:
    """All that trade/materials.toml holds.

    `untested` are the answers for a rubber that nobody tested, and for what is no rubber.
    """

    elastomers: tuple[Elastomer, ...]
    untested: tuple[Choice, ...]
    media_kinds: tuple[Choice, ...]

    @property
    def rubber_choices(self) -> tuple[Choice, ...]:
        """Every answer to 'which rubber', the untested ones last."""
        return (*(Choice(e.key, e.label) for e in self.elastomers), *self.untested)


@cache
def load_materials(root: Path | None = None) -> Materials:
    """Return the materials of trade/materials.toml; raises ResourceFault."""
    file = read_resource(MATERIALS_FILE, root)
    file.only("elastomer", "untested", "media_kind")
    elastomers = []
    for entry in file.entries("elastomer"):
        elastomer = file.convert(entry, Elastomer)
        for field in ("service_c", "shore_a"):
            low, high = getattr(elastomer, field)
            if low > high:
                raise file.fault(entry, field, "wants the lower end first")
        elastomers.append(elastomer)
    return Materials(
        tuple(elastomers),
        tuple(file.convert(entry, Choice) for entry in file.entries("untested")),
        tuple(file.convert(entry, Choice) for entry in file.entries("media_kind")),
    )
