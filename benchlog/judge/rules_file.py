"""Reading a set of judging rules from resources/judging, and its digest."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from decimal import Decimal
from functools import cache, lru_cache
from pathlib import Path
from typing import Any, TypeAlias

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.derive.figure import FigureKind
from benchlog.judge.rule_checks import fault_in
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.trade.attribute import Attribute
from benchlog.trade.resource_file import Entry, ResourceFile, read_resource, resources_folder
from benchlog.trade.sequence_file import load_sequence, sequence_keys

FOLDER = Path("judging")
FIGURES = {kind.key: kind for kind in FIGURE_KINDS}

Subject: TypeAlias = "Attribute | FigureKind"


@dataclass(frozen=True)
class Heading:
    """The `[rules]` table: `parts` are files beside it that hold the rules.

    `sequences` are those whose attributes the rules may speak of.
    """

    label: str
    version: str
    sequences: tuple[str, ...]
    parts: tuple[str, ...]
    smallest_coverage: float
    meaningful_score: float


@cache
def load_rules(key: str = "bench_rules", root: Path | None = None) -> Rules:
    """Return the rules of resources/judging/<key>.toml, or of such a file under `root`.

    Raises ResourceFault naming file, line, entry and field.
    """
    file = read_resource(FOLDER / f"{key}.toml", root)
    file.only("rules")
    top = file.single("rules")
    heading = file.convert(top, Heading)
    if not 0 < heading.smallest_coverage <= 1:
        raise file.fault(top, "smallest_coverage", "wants a share above 0, up to 1")
    if not 0 < heading.meaningful_score < 10:
        raise file.fault(top, "meaningful_score", "wants points above 0 and below 10")
    subjects = known_subjects(heading.sequences)
    rules = _rules(heading.parts, subjects, root)
    _every_component(file, top, rules, subjects.values())
    return Rules(
        key=key,
        label=heading.label,
        version=heading.version,
        smallest_coverage=heading.smallest_coverage,
        meaningful_score=heading.meaningful_score,
        entries=rules,
    )


@lru_cache(maxsize=64)
def digest(rules: Rules) -> str:
    """Return the SHA-256 of the canonical form of rules, in hexadecimal.

    The form is JSON in ASCII with sorted keys and no spaces, every number as its shortest
    decimal, so that 1, 1.0 and 1.00 are one number. Entries stand by subject and ranks by key:
    in what order a file has them says nothing.
    """
    form = _canonical(without_defaults(asdict(rules)))
    for entry in form["entries"]:
        entry["ranks"].sort(key=_as_json)
    form["entries"].sort(key=lambda entry: (entry["subject"], _as_json(entry)))
    return hashlib.sha256(_as_json(form).encode("ascii")).hexdigest()


def without_defaults(form: dict[str, Any]) -> dict[str, Any]:
    """Return rules as a dict, without what sets that were locked before it existed cannot hold.

    A rule that compares does not say so: such sets keep their form and their digest.
    """
    entries = [
        {key: value for key, value in entry.items() if key != "compared" or value is not True}
        for entry in form["entries"]
    ]
    return {**form, "entries": entries}


def _as_json(form: Any) -> str:
    return json.dumps(form, sort_keys=True, separators=(",", ":"))


def _canonical(value: Any) -> Any:
    if isinstance(value, dict):
        return {key: _canonical(inner) for key, inner in value.items()}
    if isinstance(value, (list, tuple)):
        return [_canonical(inner) for inner in value]
    if isinstance(value, (int, float)) and not isinstance(value, bool):
        number = Decimal(repr(value))
        return "0" if not number else f"{number.normalize():f}"
    return value


@cache
def every_subject() -> dict[str, tuple[Subject, ...]]:
    """Return every figure, and every attribute of every shipped sequence, by key.

    An attribute that two sequences keep differently is there twice.
    """
    found: dict[str, tuple[Subject, ...]] = {key: (kind,) for key, kind in FIGURES.items()}
    for attribute in (a for name in sequence_keys() for a in load_sequence(name).attributes):
        there = found.get(attribute.key, ())
        if attribute not in there:
            found[attribute.key] = (*there, attribute)
    return found


def known_subjects(sequences: Iterable[str]) -> dict[str, Subject]:
    """Return every figure, and every attribute of some sequences, by key."""
    attributes = {a.key: a for name in sequences for a in load_sequence(name).attributes}
    return {**FIGURES, **attributes}


def rule_sets() -> tuple[str, ...]:
    """Return the keys of the shipped sets of rules, in alphabetical order."""
    paths = (resources_folder() / FOLDER).glob("*.toml")
    return tuple(sorted(p.stem for p in paths if "[rules]" in p.read_text("utf-8").split("\n")))


EDITED = ", edited"
"""What stands behind a version that a set bears no longer rightly."""


def set_name(rules: Rules) -> str:
    """Return what a set is called, with its version; one that came otherwise is told as edited."""
    return f"“{rules.label}”, version {set_version(rules)}"


def set_version(rules: Rules) -> str:
    """Return a set's version; of a shipped set that is no longer what came, with EDITED.

    One of the reviewer's own bears that in its version, from when it was locked: see `tasks.lock`.
    """
    if rules.key in rule_sets():
        shipped = load_rules(rules.key)
        if rules.version == shipped.version and digest(rules) != digest(shipped):
            return f"{rules.version}{EDITED}"
    return rules.version


def _rules(
    parts: tuple[str, ...], subjects: dict[str, Subject], root: Path | None
) -> tuple[AttributeRule, ...]:
    """Read every rule of the listed files."""
    rules: dict[str, AttributeRule] = {}
    for relative in parts:
        part = read_resource(FOLDER / relative, root)
        part.only("rule")
        for entry in part.entries("rule"):
            if entry.key in rules:
                raise part.fault(entry, "", "has a rule in another file already")
            rules[entry.key] = rule_from(part, entry, subjects)
    return tuple(rules.values())


def rule_from(file: ResourceFile, entry: Entry, subjects: dict[str, Subject]) -> AttributeRule:
    """Turn one entry into a checked rule; component and unit are its subject's unless given.

    Raises ResourceFault naming file, line, entry and field.
    """
    subject = subjects.get(entry.key)
    if subject is None:
        raise file.fault(entry, "", "is neither an attribute nor a figure")
    fields = {"component": subject.component, "unit": subject.unit, **entry.fields}
    fields["anchors"] = _anchors(file, entry, fields.get("anchors", []))
    ranks = fields.get("ranks", {})
    if not isinstance(ranks, dict):
        raise file.fault(entry, "ranks", "wants words with their worth, { key = 7 }")
    fields["ranks"] = [{"key": key, "value": value} for key, value in ranks.items()]
    rule = file.convert(entry.having(**fields, subject=entry.key), AttributeRule)
    fault = fault_in(rule, subject)
    if fault:
        raise file.fault(entry, *fault)
    return rule


def _anchors(file: ResourceFile, entry: Entry, given: Any) -> list[dict[str, Any]]:
    pairs = given if isinstance(given, list) else [given]
    if not all(isinstance(pair, list) and len(pair) == 2 for pair in pairs):
        raise file.fault(entry, "anchors", "wants pairs [at, value]")
    return [{"at": at, "value": value} for at, value in pairs]


def _every_component(
    file: ResourceFile, top: Entry, rules: tuple[AttributeRule, ...], known: Iterable[Subject]
) -> None:
    """Refuse rules that forget a component of which something is asked."""
    held = {rule.component for rule in rules}
    for subject in known:
        if isinstance(subject, Attribute) and subject.component not in held:
            raise file.fault(top, "", f"no rule speaks of the {subject.component}")
