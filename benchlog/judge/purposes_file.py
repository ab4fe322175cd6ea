"""Reading the declared purposes from resources/judging/purposes.toml."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from benchlog.judge.purposes import Purpose
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.rules_file import FOLDER, Subject, known_subjects, rule_from
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource

COMPONENTS = tuple(component.value for component in Component)


@dataclass(frozen=True)
class Written:
    """One `[purpose.*]` table as it stands in the file."""

    label: str
    support: Support
    source: str
    reason: str
    weights: dict[str, float]
    left_open: tuple[str, ...] = ()
    open_share: float = 0.0


@dataclass(frozen=True)
class Heading:
    """The `[purposes]` table: its version, and the sequences whose attributes it may speak of."""

    version: str
    sequences: tuple[str, ...]


@cache
def load_purposes(key: str = "purposes", root: Path | None = None) -> tuple[Purpose, ...]:
    """Return the purposes of resources/judging/<key>.toml, or of such a file under `root`.

    Raises ResourceFault naming file, line, entry and field.
    """
    file = read_resource(FOLDER / f"{key}.toml", root)
    file.only("purposes", "purpose", "criterion")
    top = file.single("purposes")
    heading = file.convert(top, Heading)
    if not heading.version.strip():
        raise file.fault(top, "version", "wants words")
    known = known_subjects(heading.sequences)
    criteria = {entry.key: _criterion(file, entry, known) for entry in file.entries("criterion")}
    found = tuple(
        _purpose(file, entry, criteria, heading.version) for entry in file.entries("purpose")
    )
    if not found:
        raise file.fault(Entry("purpose", "", {}), "", "wants one purpose or more")
    return found


def _criterion(file: ResourceFile, entry: Entry, known: dict[str, Subject]) -> AttributeRule:
    if entry.fields.get("kind") == ValueKind.NONE:
        raise file.fault(entry, "kind", "wants a kind that scores")
    return rule_from(file, entry.having(weight=1), known)


def _purpose(
    file: ResourceFile, entry: Entry, criteria: dict[str, AttributeRule], version: str
) -> Purpose:
    written = file.convert(entry, Written)
    fault = _fault_in(written, (*COMPONENTS, *criteria))
    if fault:
        raise file.fault(entry, *fault)
    asked = {*written.weights, *written.left_open}
    return Purpose(
        key=entry.key,
        label=written.label,
        weights=tuple(written.weights.items()),
        left_open=written.left_open,
        open_share=written.open_share,
        support=written.support,
        source=written.source,
        reason=written.reason,
        criteria=tuple(rule for key, rule in criteria.items() if key in asked),
        version=version,
    )


def _fault_in(written: Written, known: tuple[str, ...]) -> tuple[str, str] | None:
    for field in ("label", "source", "reason"):
        if not getattr(written, field).strip():
            return field, "wants words"
    for field, names in (("weights", written.weights), ("left_open", written.left_open)):
        for name in names:
            if name not in known:
                return field, f"'{name}' is not one of: {', '.join(known)}"
    if any(weight <= 0 for weight in written.weights.values()):
        return "weights", "wants weights above 0"
    if len(set(written.left_open)) < len(written.left_open):
        return "left_open", "names one twice"
    if not set(written.weights).isdisjoint(written.left_open):
        return "left_open", "names what has a weight already"
    return _fault_in_share(written)


def _fault_in_share(written: Written) -> tuple[str, str] | None:
    if not 0 <= written.open_share <= 1:
        return "open_share", "wants a share from 0 to 1"
    if bool(written.left_open) != (written.open_share > 0):
        return "open_share", "wants more than 0 where something is left open, and 0 where not"
    if bool(written.weights) != (written.open_share < 1):
        return "weights", "want a share of the whole, and none where all of it is left open"
    return None
