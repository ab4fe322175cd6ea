"""What a new reading makes doubtful: its range, the filter's other readings, its own repeats."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, replace

from benchlog.derive.plausible import Contradiction, contradictions, rules_of
from benchlog.derive.plausible_rule import Rule
from benchlog.errors import AskAgain
from benchlog.measure.agreement import disagreement
from benchlog.measure.finding import Finding
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.observe import Observer
from benchlog.measure.pooled import PooledScatter
from benchlog.measure.ranges import likely_units
from benchlog.measure.reading import Reading, Said, Source
from benchlog.measure.scatter import one_instrument
from benchlog.measure.seen import is_plain
from benchlog.measure.units import convert, unit_symbol
from benchlog.tasks.answer import Answer, check_answer, with_si
from benchlog.tasks.pooled import pooled_scatter
from benchlog.tasks.ports import Shelf
from benchlog.tasks.record import Record
from benchlog.tasks.slots import Slot, by_slot
from benchlog.trade.attribute import Attribute, Sequence
from benchlog.trade.plausibility import load_thresholds
from benchlog.trade.specimen import Lineup, Specimen

Taken = Mapping[Slot, list[Reading]]

_AT_ONCE = 2
_FURTHER = "Other readings speak against it too."
"""A question is read at arm's length: this stands for what goes beyond a contradiction or two."""

ONCE_MORE = "Correct it, or accept once more if it is right."

KEEP_BOTH = "Correct it if it was misread, or accept once more to keep it beside the others."


@dataclass(frozen=True)
class Doubt:
    """Readings of one specimen that still contradict each other, or repeats that disagree.

    `attributes` are the keys of the readings, `reasons` what the reviewer said when confirming
    them, oldest first; none where nothing was said.
    """

    specimen_id: str
    attributes: tuple[str, ...]
    what: str
    do: str
    source: str
    reasons: tuple[str, ...] = ()


class Doubter:
    """Asks about new readings of one line-up before they are stored.

    It looks at no more than the readings that the rules set against the new one. What repeats
    usually scatter by is taken from earlier line-ups, once, when it is first needed.
    """

    def __init__(self, shelf: Shelf, lineup: Lineup, sequence: Sequence) -> None:
        self._shelf = shelf
        self._lineup = lineup
        self._sequence = sequence
        self._pooled: Mapping[tuple[str, str], PooledScatter] | None = None

    def ask(self, fresh: Reading, taken: Taken, *, sure: bool, reason: str) -> None:
        """Raise AskAgain for a reading outside its range, or that brings a new disagreement.

        Contradictions and disagreements that stood before are not asked about again. `sure` or a
        typed `reason` accepts all that is asked here; only a value outside anything expected
        wants the reason. `taken` are the standing readings by slot, without the new one.
        """
        attribute = self._sequence.attribute(fresh.attribute)
        asked: AskAgain | None = None
        try:
            answer = Answer(fresh.state, fresh.text, fresh.said, fresh.word)
            check_answer(attribute, answer, sure=sure, reason=reason)
        except AskAgain as question:
            asked = question
        settled = sure or bool(reason.strip())
        if asked is None and (settled or not fresh.state.has_value):
            return
        against = self._contradicted(fresh, taken)
        if asked is not None:
            raise self._beside_range(asked, against, attribute, fresh, taken)
        apart = self._apart(attribute, fresh, taken)
        told = [f"{c.what} {c.do}" for c in against[:_AT_ONCE]]
        if against:
            told += [_FURTHER] * (len(against) > _AT_ONCE)
            # Where the range asks, it has asked about the unit itself.
            told += self._other_unit(attribute, fresh, taken)
        if told or apart:
            raise AskAgain(" ".join([*told, *apart]), ONCE_MORE if against else KEEP_BOTH)

    def _beside_range(
        self,
        asked: AskAgain,
        against: tuple[Contradiction, ...],
        attribute: Attribute,
        fresh: Reading,
        taken: Taken,
    ) -> AskAgain:
        """Return the range's question with the first contradiction beside it, to be read at once.

        That a value outside anything expected disagrees with its repeats goes without saying.
        """
        told = [asked.what, *(c.what for c in against[:1])]
        told += [_FURTHER] * (len(against) > 1)
        if not asked.reason_wanted:
            told += self._apart(attribute, fresh, taken)
        return AskAgain(" ".join(told), asked.do, reason_wanted=asked.reason_wanted)

    def _contradicted(self, fresh: Reading, taken: Taken) -> tuple[Contradiction, ...]:
        rules = rules_of(fresh.attribute)
        if not rules:
            return ()
        after = self._under(rules, fresh, taken, with_it=True)
        if not after:
            return ()
        before = {c.key for c in self._under(rules, fresh, taken, with_it=False)}
        return tuple(c for c in after if c.key not in before)

    def _under(
        self, rules: tuple[Rule, ...], fresh: Reading, taken: Taken, *, with_it: bool
    ) -> tuple[Contradiction, ...]:
        """Return what the rules find, with or without the new reading."""
        specimen = next(s for s in self._lineup.specimens if s.id == fresh.specimen_id)
        copied = frozenset(a.key for a in self._sequence.attributes if a.copied)
        observer = Observer(self._shelf.instruments(), as_said=copied)
        findings: dict[str, Finding] = {}
        for key in {key for rule in rules for key in rule.asks}:
            readings = taken.get(Slot(key, specimen.id), [])
            if with_it and key == fresh.attribute:
                readings = _joined(readings, fresh)
            unit = self._unit(key)
            if readings and unit is not None:
                findings[key] = observer.observe(key, specimen.id, readings, unit)
        return contradictions(findings, specimen, rules)

    def _unit(self, key: str) -> str | None:
        """Return an attribute's unit; None where this kind of filter is not asked for it."""
        return next((a.unit for a in self._sequence.attributes if a.key == key), None)

    def _other_unit(self, attribute: Attribute, fresh: Reading, taken: Taken) -> list[str]:
        """Ask about a unit in which the number said would be usual and contradict nothing."""
        usual = attribute.soft or attribute.hard
        if fresh.said is None or usual is None:
            return []
        for unit in likely_units(attribute.unit, (usual.low, usual.high), fresh.said):
            text = f"{fresh.said.value} {unit_symbol(unit)}".rstrip()
            meant = replace(fresh, said=Said(text, fresh.said.value, unit), text=text)
            if not self._contradicted(with_si(meant), taken):
                return [f"Did you mean {text}?"]
        return []

    def _apart(self, attribute: Attribute, fresh: Reading, taken: Taken) -> list[str]:
        """Say so when the new reading is the one that disagrees with the repeats before it."""
        before = taken.get(Slot(fresh.attribute, fresh.specimen_id), [])
        together = _joined(before, fresh)
        if not attribute.is_number or len(together) < 2 or not is_plain(fresh):
            return []
        numbers = _numbers(before, attribute.unit)
        new = _numbers([fresh], attribute.unit)
        if numbers and min(numbers) <= new[0] <= max(numbers):
            return []
        told = _disagreement(together, attribute, self._shelf.instruments(), self._usual())
        return [told] if told else []

    def _usual(self) -> Mapping[tuple[str, str], PooledScatter]:
        if self._pooled is None:
            self._pooled = pooled_scatter(self._shelf, self._lineup, self._sequence, [])
        return self._pooled


def standing_doubts(record: Record) -> tuple[Doubt, ...]:
    """Return the contradictions and disagreements that stand in a record, by specimen in order."""
    slots = by_slot(record.readings)
    found: list[Doubt] = []
    for specimen in record.lineup.specimens:
        findings = {a: f for (a, s), f in record.findings.items() if s == specimen.id}
        for each in contradictions(findings, specimen):
            reasons = _reasons(slots, specimen, each.attributes)
            found.append(
                Doubt(specimen.id, each.attributes, each.what, each.do, each.source, reasons)
            )
        found += _disagreeing(record, specimen, slots)
    return tuple(found)


def _disagreeing(record: Record, specimen: Specimen, slots: Taken) -> list[Doubt]:
    source = load_thresholds()["repeats_apart"].source
    found = []
    for attribute in record.sequence.attributes:
        readings = slots.get(Slot(attribute.key, specimen.id), [])
        if attribute.is_number and len(readings) > 1:
            told = _disagreement(readings, attribute, record.instruments, {})
            if told:
                keys = (attribute.key,)
                what = f"{attribute.label}: {told}"
                reasons = _reasons(slots, specimen, keys)
                found.append(Doubt(specimen.id, keys, what, "", source, reasons))
    return found


def _reasons(slots: Taken, specimen: Specimen, attributes: Iterable[str]) -> tuple[str, ...]:
    readings = [r for key in attributes for r in slots.get(Slot(key, specimen.id), [])]
    ordered = sorted(readings, key=lambda r: r.at)
    return tuple(dict.fromkeys(r.reason for r in ordered if r.reason))


def _disagreement(
    readings: list[Reading],
    attribute: Attribute,
    instruments: Iterable[Instrument],
    usual: Mapping[tuple[str, str], PooledScatter],
) -> str:
    """Say how repeats disagree, "" when they agree or were not taken alike.

    Without a known scatter a part's own unevenness is allowed for too. Fields under the microscope
    differ by themselves, and how much is in their uncertainty.
    """
    if any(r.source is Source.PICTURE for r in readings):
        return ""
    plain = [r for r in readings if is_plain(r)]
    values = _numbers(plain, attribute.unit)
    used = one_instrument(plain)
    tool = next((i for i in instruments if i.id == used), None)
    pooled = usual.get((attribute.key, used))
    if pooled is None and attribute.dimension != "count" and not _far_apart(values):
        return ""
    # Where the eye alone reads (fibres, one beside another), what is read differs by itself.
    by_eye = attribute.instrument in ("", InstrumentKind.OTHER.value)
    share = None if by_eye else _uneven_by()
    told = disagreement(values, attribute.unit, pooled=pooled, instrument=tool, share=share)
    return told or ""


def _uneven_by() -> float | None:
    """Return the share of their mean by which an uneven part explains that repeats differ."""
    return load_thresholds()["repeats_apart"].most


def _far_apart(values: list[float]) -> bool:
    """Whether repeats spread by a larger share of their mean than an uneven part explains."""
    share = _uneven_by()
    mean = sum(values) / len(values) if values else 0.0
    return share is not None and bool(mean) and max(values) - min(values) > share * abs(mean)


def _joined(readings: list[Reading], fresh: Reading) -> list[Reading]:
    """Return the readings with the new one in place of the one that it supersedes."""
    return [*(r for r in readings if r.id != fresh.supersedes), fresh]


def _numbers(readings: Iterable[Reading], unit: str) -> list[float]:
    return [convert(float(r.said.value), r.said.unit, unit) for r in readings if r.said is not None]
