"""What the verdict shows of a record: a row a component, a cell a specimen, and their values."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.judge.rules import AttributeRule, ValueKind
from benchlog.judge.verdict import Award, AwardKind, Contribution, Score
from benchlog.measure.rounding import as_is, with_symbol
from benchlog.measure.state import State
from benchlog.measure.units import convert
from benchlog.settings import INCH, METRIC
from benchlog.tasks.overruled_view import Overruled, hand_story, overruled_in
from benchlog.tasks.record import Record
from benchlog.tasks.value_text import NO_ANSWER, label_of, value_text
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component

SUPPORT_WORDS = {
    Support.STANDARD: "a standard treats it",
    Support.ENGINEERING: "engineering argument",
    Support.OPINION: "opinion only",
}


@dataclass(frozen=True)
class ScoreCell:
    """One specimen's score in one component, to be drawn; `mark` is WINNER, JOINT_WINNERS or None.

    `points` is the score with one decimal, "" when there is none. `spoken` says it all in words.
    """

    specimen_id: str
    value: float | None
    low: float | None
    high: float | None
    points: str
    counted: str
    mark: AwardKind | None
    spoken: str


@dataclass(frozen=True)
class ComponentRow:
    """One component: its award, and a score for every specimen in bench order.

    `overruled` is what the reviewer says instead of the rules, None where nothing; `hand_story`
    tells what the reviewer said before and changed or took back, "" where nothing.
    `support` is "" where nothing was judged, since nothing rests on it then.
    """

    component: Component
    award: Award
    outcome: str
    support: str
    cells: tuple[ScoreCell, ...]
    remark: str
    overruled: Overruled | None = None
    hand_story: str = ""


@dataclass(frozen=True)
class ValueCell:
    """One specimen's value of one subject: its text, and what it is worth or why nothing.

    `warnings` are what the reviewer should bear in mind of it; `blind` tells that the eye judged
    it without knowing whose part it was.
    """

    specimen_id: str
    text: str
    worth: str
    why_not: str
    warnings: tuple[str, ...] = ()
    blind: bool = False


@dataclass(frozen=True)
class ValueRow:
    """One subject of a component's rules: values across, and the difference that counts.

    `part` is its share of the component's weight, 0 for what is shown and never scored.
    """

    subject: str
    label: str
    part: float
    meaningful: str
    support: str
    reason: str
    cells: tuple[ValueCell, ...]


def component_rows(record: Record) -> tuple[ComponentRow, ...]:
    """Return every judged component, in the order in which they are shown."""
    return tuple(_component_row(record, award) for award in record.verdict.awards)


def value_rows(record: Record, component: Component, units: str = METRIC) -> tuple[ValueRow, ...]:
    """Return the subjects of a component's rules that this line-up can answer, scored ones first.

    Values stand in metric or inch units, or both. Subjects that were never asked and have no
    value anywhere are left out unless they are scored.
    """
    scores = {s.id: record.verdict.score(component, s.id) for s in record.lineup.specimens}
    scored = {c.subject for score in scores.values() for c in score.contributions}
    total = sum(rule.weight for rule in record.rules.of(component) if rule.subject in scored)
    rows = [
        _value_row(record, rule, scores, total if rule.subject in scored else 0.0, units)
        for rule in record.rules.of(component)
        if rule.subject in scored or _is_known(record, rule)
    ]
    return tuple(sorted(rows, key=lambda row: -row.part))


def _component_row(record: Record, award: Award) -> ComponentRow:
    remark = record.remarks.get((award.component.value, ""))
    scores = (record.verdict.score(award.component, s.id) for s in record.lineup.specimens)
    return ComponentRow(
        component=award.component,
        award=award,
        outcome=award.kind.value,
        support="" if award.kind is AwardKind.NOT_JUDGED else SUPPORT_WORDS[award.support],
        cells=tuple(_score_cell(record, award, score) for score in scores),
        remark=remark.text if remark else "",
        overruled=overruled_in(record, award.component),
        hand_story=hand_story(record, award.component),
    )


def _score_cell(record: Record, award: Award, score: Score) -> ScoreCell:
    wins = award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS)
    mark = award.kind if wins and score.specimen_id in award.winners else None
    nickname = next(s.nickname for s in record.lineup.specimens if s.id == score.specimen_id)
    points = "" if score.value is None else f"{score.value:.1f}"
    counted = f"{score.counted} of {score.of}" if score.of else ""
    spoken = [f"{award.component.value}, {nickname}:"]
    if score.value is None or score.low is None or score.high is None:
        spoken.append("no score" if score.of else "never scored")
    else:
        spoken.append(f"{points} of 10, {score.low:.1f} to {score.high:.1f}")
    spoken += [f"counted {counted}"] if counted else []
    spoken += [mark.value] if mark else []
    words = " ".join(spoken[:2]) + "".join(f", {more}" for more in spoken[2:])
    return ScoreCell(
        score.specimen_id, score.value, score.low, score.high, points, counted, mark, words
    )


def _value_row(
    record: Record, rule: AttributeRule, scores: dict[str, Score], total: float, units: str
) -> ValueRow:
    cells = []
    for specimen in record.lineup.specimens:
        found = (c for c in scores[specimen.id].contributions if c.subject == rule.subject)
        cells.append(_value_cell(record, rule.subject, specimen.id, next(found, None), units))
    return ValueRow(
        subject=rule.subject,
        label=label_of(record, rule.subject),
        part=rule.weight / total if total else 0.0,
        meaningful=meaningful_text(rule, inch_unit_of(record, rule.subject, units)),
        support=SUPPORT_WORDS[rule.support],
        reason=rule.reason,
        cells=tuple(cells),
    )


def _value_cell(
    record: Record, subject: str, specimen_id: str, part: Contribution | None, units: str
) -> ValueCell:
    worth = "" if part is None or part.value is None else f"{part.value:.1f}"
    why_not = part.why_not if part else ""
    text = value_text(record, subject, specimen_id, units)
    if text == NO_ANSWER and why_not == State.NOT_MEASURED.value:
        why_not = NO_ANSWER
    figure = record.figures.get((subject, specimen_id))
    finding = record.findings.get((subject, specimen_id))
    blind = bool(finding and finding.readings and finding.readings[-1].blind)
    warnings = figure.warnings if figure else ()
    return ValueCell(specimen_id, text, worth, why_not, warnings, blind)


def inch_unit_of(record: Record, subject: str, units: str) -> str:
    """Return the inch unit of a subject where values are shown in inch units alone, else ""."""
    if units != INCH:
        return ""
    known = {key: figure.kind.inch_unit for (key, _), figure in record.figures.items()}
    known.update((a.key, a.inch_unit) for a in record.sequence.attributes)
    return known.get(subject, "")


def meaningful_text(rule: AttributeRule, inch_unit: str = "") -> str:
    """Return the smallest difference that counts: "5 %", "0.05 mm", or "any" for words.

    In the rule's own unit, in which it was locked, unless another is named.
    """
    if rule.meaningful_is_share:
        return f"{as_is(rule.meaningful * 100)} %"
    if rule.meaningful and rule.unit and inch_unit:
        step = convert(1.0, rule.unit, inch_unit) - convert(0.0, rule.unit, inch_unit)
        return with_symbol(as_is(float(f"{rule.meaningful * step:.3g}")), inch_unit)
    if rule.meaningful:
        size = as_is(rule.meaningful)
        return with_symbol(size, rule.unit) if rule.unit else size
    return (
        "any" if rule.kind in (ValueKind.RANK, ValueKind.PRESENCE) or not rule.unit else "none set"
    )


def _is_known(record: Record, rule: AttributeRule) -> bool:
    for specimen in record.lineup.specimens:
        figure = record.figures.get((rule.subject, specimen.id))
        finding = record.findings.get((rule.subject, specimen.id))
        if (figure and not figure.refusal) or (finding and finding.readings):
            return True
    return False
