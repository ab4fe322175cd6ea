"""The media side by side as pictures show them: figures by field, intervals, and who is tighter."""

from __future__ import annotations

import math
from itertools import combinations

from benchlog.judge.award_words import called, opening
from benchlog.judge.chance import FAMILY_LEVEL, pairs_among
from benchlog.judge.differences import difference
from benchlog.judge.evidence import Evidence
from benchlog.judge.parties import parties_of
from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.measure.coverage import expanded
from benchlog.measure.fields_wanted import fields_wanted
from benchlog.measure.finding import Finding
from benchlog.measure.histograms import averaged, common_edges
from benchlog.measure.micrograph import (
    PictureAnswer,
    Side,
    latest_answers,
    standing_micrographs,
)
from benchlog.measure.repeats import values_of
from benchlog.measure.rounding import rounded
from benchlog.measure.units import unit_symbol
from benchlog.tasks.field_order import FieldStanding, fields_standing
from benchlog.tasks.media_seen import (
    FigureSeen,
    MediaView,
    PairOutcome,
    PairSeen,
    Refusal,
    SideSeen,
    StripSeen,
)
from benchlog.tasks.picture_doubts import Spreads, picture_doubts, spreads_of
from benchlog.tasks.picture_readings import FIGURE_ATTRIBUTES
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import value_text
from benchlog.trade.attribute import Attribute, Support
from benchlog.trade.component import Component

WANTED_SHARE = 0.10
"""The difference that fields are counted for: a tenth of the mean."""

HISTOGRAM_BINS = 24

NORMAL = 1.96

ALIKE = ("picture scale/", "picture light/")
OWN = ("/light$",)
"""Parts of an uncertainty by their names: what all media of a set-up share, and what none do."""

WORDS = {
    "D50": {PairOutcome.SMALLER: "tighter", PairOutcome.LARGER: "more open"},
    "open area": {PairOutcome.SMALLER: "less open area", PairOutcome.LARGER: "more open area"},
    "fibre median": {PairOutcome.SMALLER: "finer fibres", PairOutcome.LARGER: "coarser fibres"},
}


def media_view(record: Record) -> MediaView:
    """Return the media of a record side by side; without sides where no picture was taken."""
    every = fields_standing((), record.micrographs, record.answers)
    doubts = picture_doubts(record.readings, record.micrographs, record.answers)
    spreads = spreads_of(record.readings, record.sequence, doubts) if doubts else {}
    sides = tuple(side for side in Side if any(one.field.side is side for one in every))
    return MediaView(
        tuple(_side(record, side, every, spreads) for side in sides), _refusals(record)
    )


def _side(
    record: Record, side: Side, every: tuple[FieldStanding, ...], spreads: Spreads
) -> SideSeen:
    evidence = Evidence(
        record.findings, record.figures, record.sequence, record.lineup.specimens, record.in_doubt
    )
    asked = {a.key: a for a in record.sequence.attributes}
    known = [
        (key, asked[attribute])
        for (key, of), attribute in FIGURE_ATTRIBUTES.items()
        if of is side and attribute in asked
    ]
    figures = tuple(
        _figure(record, key, attribute, specimen.id, spreads)
        for key, attribute in known
        for specimen in record.lineup.specimens
    )
    pairs = tuple(
        _pair(record, key, attribute, (one[0], other[0]), evidence)
        for key, attribute in known
        for one, other in combinations(evidence.parties, 2)
    )
    order = [specimen.id for specimen in record.lineup.specimens]
    own = [one for one in every if one.field.side is side and one.field.specimen_id in order]
    own.sort(key=lambda one: (order.index(one.field.specimen_id), one.field.field))
    return SideSeen(side, tuple(own), figures, pairs, _strips(order, own))


def _figure(
    record: Record, key: str, attribute: Attribute, specimen_id: str, spreads: Spreads
) -> FigureSeen:
    finding = record.findings.get((attribute.key, specimen_id))
    values = tuple(values_of(finding)) if finding else ()
    mean = low = high = None
    if finding is not None and finding.quantity is not None:
        mean = float(finding.quantity.magnitude.nominal_value)
        half = expanded(finding.quantity.magnitude)
        low, high = mean - half, mean + half
    return FigureSeen(
        key=key,
        attribute=attribute.key,
        label=attribute.label.rpartition(",")[0],
        unit=attribute.unit,
        specimen_id=specimen_id,
        values=values,
        mean=mean,
        spread=_deviation(values),
        low=low,
        high=high,
        text=value_text(record, attribute.key, specimen_id),
        more_fields=_more_fields(record, attribute.key, finding, spreads),
        alike=_half_width(finding, ALIKE) if finding else 0.0,
    )


def _deviation(values: tuple[float, ...]) -> float | None:
    if len(values) < 2:
        return None
    mean = math.fsum(values) / len(values)
    return math.sqrt(math.fsum((v - mean) ** 2 for v in values) / (len(values) - 1))


def _more_fields(
    record: Record, attribute: str, finding: Finding | None, spreads: Spreads
) -> int | None:
    """Return how many more fields of each medium would tell a tenth apart."""
    if finding is None or finding.quantity is None:
        return None
    spread = spreads.get((attribute, finding.specimen_id))
    values = values_of(finding)
    if spread is None or not spread.size:
        return None
    mean = abs(float(finding.quantity.magnitude.nominal_value))
    level = 1.0 - FAMILY_LEVEL / pairs_among(len(parties_of(record.lineup.specimens)))
    wanted = fields_wanted(
        spread.size * math.sqrt(len(values)),
        WANTED_SHARE * mean,
        level=level,
        beside=math.sqrt(2.0) * _half_width(finding, OWN),
        media=_media_behind(attribute, spreads),
        stated=bool(spread.joined),
    )
    return None if wanted is None else max(0, wanted - len(values))


def _half_width(finding: Finding, parts: tuple[str, ...]) -> float:
    """Return the half-width, at 95 %, that the parts named so make of a finding's uncertainty."""
    if finding.quantity is None:
        return 0.0
    sizes = finding.quantity.magnitude.error_components().items()
    named = (size for v, size in sizes if any(part in f"{v.tag}$" for part in parts))
    return NORMAL * math.hypot(*named)


def _media_behind(attribute: str, spreads: Spreads) -> int:
    return max(2, sum(key == attribute and one.common for (key, _), one in spreads.items()))


def _pair(
    record: Record, key: str, attribute: Attribute, ids: tuple[str, str], evidence: Evidence
) -> PairSeen:
    rule = next((r for r in record.rules.entries if r.subject == attribute.key), None)
    pair = difference(rule or _plain_rule(attribute), *ids, evidence)
    party = evidence.party(ids[0])
    one, other = (called(evidence.party(specimen), evidence) for specimen in ids)
    if pair.refused or pair.gap is None:
        words = opening(f"{one} and {other} are not compared: {pair.refused}.", party)
        outcome = PairOutcome.NOT_COMPARED
        return PairSeen(key, attribute.key, *ids, outcome, outcome.value, words)
    outcome = PairOutcome.CANNOT_TELL
    if pair.differs:
        outcome = PairOutcome.SMALLER if pair.gap < 0 else PairOutcome.LARGER
    elif abs(pair.gap) > pair.expanded:
        outcome = PairOutcome.TOO_LITTLE
    gap, width = rounded(pair.gap, pair.expanded)
    measured = f"{gap} ± {width} {unit_symbol(attribute.unit)}".rstrip()
    answer = WORDS[key].get(outcome, outcome.value)
    said = {
        PairOutcome.CANNOT_TELL: f"{one} against {other}: cannot tell",
        PairOutcome.TOO_LITTLE: f"{one} against {other}: a difference too little to count",
    }.get(outcome, f"{one} shows {answer} than {other}")
    if key == "D50" and pair.differs:
        said = f"{one} is {answer} than {other}"
    words = opening(f"{said} ({measured}).", party)
    return PairSeen(key, attribute.key, *ids, outcome, answer, words, pair.gap, pair.expanded)


def _plain_rule(attribute: Attribute) -> AttributeRule:
    """Return how a figure is compared under rules that were locked before it was asked for."""
    return AttributeRule(
        attribute.key, Component.MEDIA, ValueKind.NONE, 0.0, Support.ENGINEERING, "", "",
        unit=attribute.unit,
    )  # fmt: skip


def _strips(order: list[str], own: list[FieldStanding]) -> tuple[StripSeen, ...]:
    said = {
        specimen: [
            one.answer
            for one in own
            if one.field.specimen_id == specimen and one.answer and one.answer.edges_um
        ]
        for specimen in order
    }
    edges = common_edges([_pairs(a) for there in said.values() for a in there], HISTOGRAM_BINS)
    return tuple(
        StripSeen(
            specimen,
            edges,
            averaged([_pairs(a) for a in there], edges),
            math.fsum(a.fibres for a in there),
        )
        for specimen, there in said.items()
        if there
    )


def _pairs(answer: PictureAnswer) -> tuple[tuple[float, ...], tuple[float, ...]]:
    return answer.edges_um, answer.shares


def _refusals(record: Record) -> tuple[Refusal, ...]:
    """Return every picture whose latest answer is a refusal, retaken ones too, oldest first."""
    stand = {m.id for m in standing_micrographs(record.micrographs)}
    said = latest_answers(record.answers)
    return tuple(
        Refusal(m.specimen_id, m.side, m.field, said[m.id].reasons, m.id not in stand)
        for m in record.micrographs
        if m.id in said and said[m.id].verdict != "measured"
    )
