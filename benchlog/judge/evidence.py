"""What is known of one attribute or figure of one specimen, in one form for judging."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING, Any

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.derive.figure import Figure
from benchlog.judge.parties import Party, parties_of
from benchlog.measure.finding import Finding
from benchlog.measure.repeats import counted
from benchlog.measure.state import State
from benchlog.measure.units import Quantity, registry
from benchlog.trade.attribute import Attribute, Kind, Sequence
from benchlog.trade.specimen import Specimen

if TYPE_CHECKING:
    from benchlog.judge.rules import AttributeRule

NOT_MEASURED = State.NOT_MEASURED.value
PRICE = "price"
KINDS = {kind.key: kind for kind in FIGURE_KINDS}


@dataclass(frozen=True)
class Outcome:
    """A quantity, a word, or the reason why there is neither.

    `low`/`high` are the ends of an interval in the quantity's unit, None where none was said.
    `bounded` tells that they bound an estimate that rests on assumptions. `methods` says of each
    attribute behind a number with what kinds of instrument it was taken, `readings` which
    readings these are. `set_ups` are id and name of the microscope set-ups behind it, `repeats`
    how many numbers.
    """

    quantity: Quantity | None = None
    word: str | None = None
    why_not: str = ""
    low: float | None = None
    high: float | None = None
    estimate: bool = False
    contact_pressure_kpa: float | None = None
    mixed_pressure: bool = False
    bounded: bool = False
    methods: tuple[tuple[str, tuple[str, ...]], ...] = ()
    readings: tuple[str, ...] = ()
    set_ups: tuple[tuple[str, str], ...] = ()
    repeats: int = 0


@dataclass(frozen=True)
class Evidence:
    """All findings and figures of a line-up, keyed by (subject, specimen id), with their names.

    `in_doubt` are the ids of readings whose instrument failed its closing check. What was asked
    is remembered: the mappings may not change meanwhile, and other findings make other evidence.
    """

    findings: Mapping[tuple[str, str], Finding]
    figures: Mapping[tuple[str, str], Figure]
    sequence: Sequence
    specimens: tuple[Specimen, ...]
    in_doubt: frozenset[str] = frozenset()

    def outcome(self, subject: str, specimen_id: str) -> Outcome:
        """Return what is known; never raises, since knowing nothing is an outcome."""
        key = subject, specimen_id
        if key not in self._outcomes:
            self._outcomes[key] = self._outcome(subject, specimen_id)
        return self._outcomes[key]

    def with_outcome(self, subject: str, specimen_id: str, outcome: Outcome) -> Evidence:
        """Return the same evidence but for one outcome; what was worked out and holds is kept."""
        other = replace(self)
        key = subject, specimen_id
        kept = {
            "_outcomes": {**self._outcomes, key: outcome},
            "numbers_known": {k: v for k, v in self.numbers_known.items() if k[:2] != key},
            "unlike_known": self.unlike_known,
            "parties": self.parties,
        }
        other.__dict__.update(kept)
        return other

    @cached_property
    def _outcomes(self) -> dict[tuple[str, str], Outcome]:
        """What was asked for already: one subject is looked at from many sides."""
        return {}

    def _outcome(self, subject: str, specimen_id: str) -> Outcome:
        figure = self.figures.get((subject, specimen_id))
        if figure is not None:
            return _of_figure(figure)
        finding = self.findings.get((subject, specimen_id))
        if finding is not None and finding.readings:
            return _of_finding(finding)
        told = self._told_with_specimen(subject, specimen_id)
        return told or (_of_finding(finding) if finding else Outcome(why_not=NOT_MEASURED))

    @cached_property
    def parties(self) -> tuple[Party, ...]:
        """Who is compared with whom: specimens of one part together, the others each alone."""
        return parties_of(self.specimens)

    def party(self, specimen_id: str) -> Party:
        """Return the ids of all that are compared together with a specimen, itself among them."""
        return next(party for party in self.parties if specimen_id in party)

    @cached_property
    def _attributes(self) -> dict[str, Attribute]:
        return {attribute.key: attribute for attribute in self.sequence.attributes}

    def _told_with_specimen(self, subject: str, specimen_id: str) -> Outcome | None:
        """Return a price that was stated when the line-up was planned, None for anything else."""
        attribute = self._attributes.get(subject)
        if attribute is None or attribute.specimen_field != PRICE:
            return None
        price = next((s.price for s in self.specimens if s.id == specimen_id), None)
        if price is None:
            return None
        return Outcome(quantity=registry().Quantity(float(price), attribute.unit))

    @cached_property
    def numbers_known(self) -> dict[tuple[str, str, str], Any]:
        """Numbers by subject, specimen id and unit, as far as they were asked for already."""
        return {}

    @cached_property
    def worths_known(self) -> dict[tuple[AttributeRule, str], Any]:
        """What values are worth by rule and specimen id, as far as that was asked already."""
        return {}

    @cached_property
    def unlike_known(self) -> dict[tuple[str, str, str], str]:
        """Why two specimens may not be compared in a subject, as far as that was asked already."""
        return {}

    def nickname(self, specimen_id: str) -> str:
        """Return what the reviewer calls a specimen."""
        return next(s.nickname for s in self.specimens if s.id == specimen_id)

    def label(self, subject: str) -> str:
        """Return what a subject is called; its key when neither attribute nor figure."""
        if subject in KINDS:
            return KINDS[subject].label
        attribute = self._attributes.get(subject)
        return attribute.label if attribute else subject

    def label_within(self, subject: str) -> str:
        """Return the label as it stands inside a sentence; what is all capitals stays so."""
        label = self.label(subject)
        return label if label[1:2].isupper() else label[:1].lower() + label[1:]

    def is_count(self, subject: str) -> bool:
        """Whether a subject is counted, so that only whole numbers make sense."""
        attribute = self._attributes.get(subject)
        return attribute is not None and attribute.kind is Kind.COUNT

    def word_label(self, subject: str, word: str) -> str:
        """Return how a choice is shown."""
        attribute = self._attributes.get(subject)
        choices = attribute.choices if attribute else ()
        return next((choice.label for choice in choices if choice.key == word), word)

    def comparable_when(self, subject: str) -> tuple[str, ...]:
        """Return the conditions under which two values of a subject may be compared."""
        if subject in KINDS:
            return KINDS[subject].comparable_when
        attribute = self._attributes.get(subject)
        if attribute is None:
            return ()
        money = ("currency",) if attribute.specimen_field == PRICE else ()
        return (*attribute.comparable_when, *money)


def _of_figure(figure: Figure) -> Outcome:
    return Outcome(
        quantity=figure.quantity,
        word=figure.word,
        why_not=figure.refusal,
        low=figure.low,
        high=figure.high,
        estimate=figure.estimate,
        contact_pressure_kpa=figure.contact_pressure_kpa,
        bounded=figure.kind.bounded,
        methods=figure.methods,
        readings=figure.readings,
    )


def _of_finding(finding: Finding) -> Outcome:
    valued = finding.quantity is not None or finding.word is not None
    return Outcome(
        quantity=finding.quantity,
        word=finding.word,
        why_not="" if valued else finding.state.value,
        low=finding.low,
        high=finding.high,
        estimate=finding.state is State.ESTIMATE,
        contact_pressure_kpa=finding.contact_pressure_kpa,
        mixed_pressure=finding.mixed_pressure,
        methods=((finding.attribute, finding.taken_with),) if finding.quantity is not None else (),
        readings=tuple(reading.id for reading in finding.readings),
        set_ups=finding.set_ups,
        repeats=sum(reading.said is not None for reading in counted(list(finding.readings))),
    )
