"""Tables of what was worked out: findings, figures, scores, awards."""

from __future__ import annotations

from typing import Any

from benchlog.derive.figure import Figure
from benchlog.measure.finding import Finding
from benchlog.measure.units import Quantity
from benchlog.sheet.data.plan_tables import SPECIMEN_ID
from benchlog.sheet.data.table import Cell, Table, moment, number, row, text, whole, yes_no
from benchlog.tasks.record import Record
from benchlog.tasks.tell_number import told_number
from benchlog.tasks.value_text import value_text

UNIT = "the unit beside it"
NUMBER_FIELDS = (
    number("value", "the best value", UNIT),
    number("standard_uncertainty", "one standard deviation", UNIT, source="JCGM 100, 2.3.1"),
    number("expanded_uncertainty", "for 95 %", UNIT, source="JCGM 100, 2.3.5"),
    number("coverage_factor", "expanded over standard", source="JCGM 100, 2.3.6"),
    number("degrees_of_freedom", "effective ones; empty where none limit", source="JCGM 100, G.4"),
    text("unit", "the unit, by its name"),
    text("symbol", "the unit, as it is printed"),
    number("low", "lower end of an estimate or a marked range", UNIT),
    number("high", "upper end of an estimate or a marked range", UNIT),
    text("printed", "the value as it is printed, rounded", source="JCGM 100, 7.2.6"),
)


def findings_table(record: Record) -> Table:
    """Return what the readings of each attribute of each specimen come to."""
    fields = (
        text("attribute", "what was asked, as in attributes.csv", required=True),
        SPECIMEN_ID,
        text("state", "how the value stands, in one of seven words", required=True),
        text("word", "a choice's key, a text, or yes/no"),
        *NUMBER_FIELDS,
        number("contact_pressure_kpa", "pressure of the foot, where it matters", "kPa"),
        yes_no("mixed_pressure", "whether the repeats were taken under different pressures"),
        text("taken_with", "the kinds of instrument"),
        text("scatter", "whose scatter of repeats the uncertainty holds"),
        text("readings", "the readings behind it, as in readings.csv"),
    )
    rows = tuple(_finding(record, finding) for finding in record.findings.values())
    return Table(
        "findings", "What the readings come to", fields, rows, ("attribute", "specimen_id")
    )


def _finding(record: Record, finding: Finding) -> tuple[Cell, ...]:
    return row(
        *(finding.attribute, finding.specimen_id, finding.state, finding.word),
        *_number(record, finding.attribute, finding),
        *(finding.contact_pressure_kpa, finding.mixed_pressure),
        *(finding.taken_with, finding.scatter, [r.id for r in finding.readings]),
    )


def figures_table(record: Record) -> Table:
    """Return every derived figure of each specimen, refusals included."""
    fields = (
        text("figure", "what was worked out, as in figure_kinds.csv", required=True),
        SPECIMEN_ID,
        text("word", "a figure that is a word"),
        *NUMBER_FIELDS,
        yes_no("estimate", "whether at least one input was an estimate"),
        text("refusal", "why it could not be worked out"),
        text("assumed", "what was taken without a reading"),
        text("warnings", "what to bear in mind"),
        number("contact_pressure_kpa", "pressure of the foot, where it matters", "kPa"),
        text("readings", "the readings in it, as in readings.csv"),
    )
    rows = tuple(_figure(record, figure) for figure in record.figures.values())
    return Table("figures", "Numbers from numbers", fields, rows, ("figure", "specimen_id"))


def _figure(record: Record, figure: Figure) -> tuple[Cell, ...]:
    return row(
        *(figure.kind.key, figure.specimen_id, figure.word),
        *_number(record, figure.kind.key, figure, bounded=figure.low is not None),
        *(figure.estimate, figure.refusal, " ".join(figure.assumed), " ".join(figure.warnings)),
        *(figure.contact_pressure_kpa, figure.readings),
    )


def _number(
    record: Record, subject: str, of: Finding | Figure, *, bounded: bool = False
) -> tuple[Any, ...]:
    quantity: Quantity | None = of.quantity
    told = told_number(quantity, bounded=bounded)
    return (
        *(told["value"], told["standard_uncertainty"], told["expanded_uncertainty"]),
        *(told["coverage_factor"], told["degrees_of_freedom"], told["unit"], told["symbol"]),
        *(of.low, of.high, value_text(record, subject, of.specimen_id)),
    )


def scores_table(record: Record) -> Table:
    """Return the score of each specimen in each component."""
    fields = (
        text("component", "the component", required=True),
        SPECIMEN_ID,
        number("score", "0 to 10; empty when not judged", "points"),
        number("low", "lower end for 95 %", "points"),
        number("high", "upper end for 95 %", "points"),
        whole("counted", "how many attributes had a value"),
        whole("of", "of how many that the rules name"),
        number("coverage", "the share of weight that they hold"),
        text("contributions", "subject: points × weight, or why there are none"),
    )
    rows = tuple(
        row(
            *(s.component, s.specimen_id, s.value, s.low, s.high, s.counted, s.of, s.coverage),
            "; ".join(
                f"{c.subject}: {c.why_not}"
                if c.value is None
                else f"{c.subject}: {c.value:.6g} × {c.weight:g}"
                for c in s.contributions
            ),
        )
        for s in record.verdict.scores
    )
    return Table("scores", "Scores under the rules", fields, rows, ("component", "specimen_id"))


def awards_table(record: Record) -> Table:
    """Return what each component's comparison comes to, and where the reviewer overruled it."""
    fields = (
        text("component", "the component", required=True),
        text("award", "what the rules give, in one of six words", required=True),
        text("winners", "the specimens ahead"),
        text("behind", "the specimens clearly beaten"),
        text("support", "how well the judgement is supported"),
        text("reason", "why, in a sentence"),
        text("would_change", "what would change it"),
        text("judged_by", "how gaps were told from chance"),
        text("overruled_to", "what the reviewer says instead; empty where nothing else"),
        text("overruled_winners", "the specimens that the reviewer puts ahead"),
        text("overruled_reason", "the reviewer's reason"),
    )
    rows = []
    for award in record.verdict.awards:
        hand = record.overrulings.get(award.component)
        rows.append(
            row(
                *(award.component, award.kind, award.winners, award.behind, award.support),
                *(award.reason, award.would_change, award.judged_by),
                *((hand.kind, hand.winners, hand.reason) if hand else (None, None, None)),
            )
        )
    return Table("awards", "What each comparison comes to", fields, tuple(rows), ("component",))


def polls_table(record: Record) -> Table:
    """Return what viewers picked, a row for each specimen of each poll."""
    fields = (
        text("poll_id", "names the poll", required=True),
        text("question", "what viewers were asked"),
        SPECIMEN_ID,
        whole("votes", "how many picked it", "votes"),
        yes_no(
            "before_reveal",
            "whether it was entered before the codes of a blind run were opened or, "
            "without such a run, before the cut; never so once a result was published",
        ),
        moment("at", "when it was entered"),
    )
    rows = tuple(
        row(poll.id, poll.question, specimen, votes, poll.before_reveal, poll.at)
        for poll in record.polls
        for specimen, votes in poll.votes
    )
    return Table("polls", "What viewers picked", fields, rows, ("poll_id", "specimen_id"))
