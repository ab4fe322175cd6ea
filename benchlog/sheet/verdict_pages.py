"""Why each component came out as it did: the rule's sentence, the reviewer's, and the scores."""

from __future__ import annotations

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.judge.verdict import Award, AwardKind, Score
from benchlog.sheet.flow import Heading, gap, section
from benchlog.sheet.marks import AwardMark, Tag
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import FACE, GUTTER, HAIRLINE, SMALL, Page
from benchlog.sheet.words import OUTCOME, SUPPORT, components_shown, names, subject_label
from benchlog.tasks.record import Record

LEAD = (
    "Two specimens count as different only where the gap is wider than both the doubt of the "
    "readings and the smallest difference that the rules call meaningful."
)


def _headline(award: Award, record: Record, width: float) -> Table:
    words = award.kind.value
    who = names(record, award.winners)
    if award.kind in (AwardKind.WINNER, AwardKind.JOINT_WINNERS) and who:
        words += f": {who}"
    behind = names(record, award.behind)
    beneath = OUTCOME[award.kind] + (f". Clearly behind: {behind}" if behind else "")
    said = [para(words, "label"), para(beneath, "cell_muted")]
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 0),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 6),
    ]
    return Table([[AwardMark(award.kind), said]], colWidths=[24, width - 24], style=style,
                 hAlign="LEFT")  # fmt: skip


def _score_words(record: Record, score: Score | None) -> str:
    if score is None or score.value is None:
        return _without(record, score, "no score")
    words = f"{score.value:.1f}"
    if score.low is not None and score.high is not None:
        words += f" ({score.low:.1f} to {score.high:.1f})"
    words += f", on {score.counted} of {score.of} attributes"
    words += f" with {score.coverage * 100:.0f} % of the weight"
    return _without(record, score, words)


def _without(record: Record, score: Score | None, words: str) -> str:
    missing = [
        f"{subject_label(record, c.subject)} ({c.why_not})" if c.why_not
        else subject_label(record, c.subject)
        for c in (score.contributions if score else ())
        if c.value is None
    ]  # fmt: skip
    return f"{words}; without {', '.join(missing)}" if missing else words


def _specimen_lines(record: Record, award: Award, width: float) -> Flowable:
    scores = {s.specimen_id: s for s in record.verdict.scores if s.component is award.component}
    said = {_score_words(record, scores.get(s.id)) for s in record.lineup.specimens}
    if len(said) == 1:
        return para(said.pop(), "gutter", "Every specimen")
    rows = [
        [Tag(s, 3.8), para(shortened(s.nickname, 50), "cell"),
         para(shortened(_score_words(record, scores.get(s.id)), 600), "cell")]
        for s in record.lineup.specimens
    ]  # fmt: skip
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 2),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
        ("LINEBELOW", (0, 0), (-1, -1), 0.4, HAIRLINE),
        ("NOSPLIT", (0, 0), (-1, -1)),
    ]
    return Table(rows, colWidths=[16, GUTTER - 16, width - GUTTER], style=style, hAlign="LEFT")


def _remarks(record: Record, award: Award) -> list[Flowable]:
    key = award.component.value
    whole = _remark(record, key, "")
    parts: list[Flowable] = [para(whole, "gutter", "Reviewer adds")] if whole else []
    for specimen in record.lineup.specimens:
        text = _remark(record, key, specimen.id)
        if text:
            parts.append(para(text, "gutter", shortened(specimen.nickname, 16)))
    return parts


def _remark(record: Record, component: str, specimen_id: str) -> str:
    remark = record.remarks.get((component, specimen_id))
    return remark.text if remark else ""


def _award(record: Record, award: Award, page: Page) -> list[Flowable]:
    parts: list[Flowable] = [
        CondPageBreak(190),
        Heading(award.component.value.capitalize(), 1),
        _headline(award, record, page.content),
        para(award.reason or "no reason given", "gutter", "The rule says"),
        *_remarks(record, award),
    ]
    if award.kind is not AwardKind.NOT_JUDGED:
        parts.append(para(SUPPORT[award.support], "gutter", "How supported"))
    if award.would_change:
        parts.append(para(award.would_change, "gutter", "Would change it"))
    if record.lineup.specimens:
        parts.append(_specimen_lines(record, award, page.content))
    return [*parts, gap(16)]


def verdict_pages(record: Record, page: Page) -> list[Flowable]:
    """Return the section of reasons, one part for each component that has an outcome."""
    parts: list[Flowable] = section("Why, component by component", LEAD)
    by_component = {award.component: award for award in record.verdict.awards}
    for component in components_shown(record):
        parts += _award(record, by_component[component], page)
    return parts
