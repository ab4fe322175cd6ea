"""Why each component came out as it did: the rule's sentence, the reviewer's, and the scores."""

from __future__ import annotations

from reportlab.platypus import CondPageBreak, Flowable, Table

from benchlog.judge.verdict import Award, Contribution, Score
from benchlog.measure.state import State
from benchlog.sheet.blind_words import blind_line
from benchlog.sheet.flow import Heading, gap, section
from benchlog.sheet.marks import Tag
from benchlog.sheet.poll_part import poll_part
from benchlog.sheet.shown_award import shown_award
from benchlog.sheet.text import para, shortened
from benchlog.sheet.typography import FACE, GUTTER, SMALL, Page
from benchlog.sheet.verdict_head import headline
from benchlog.sheet.words import components_shown, names, subject_label
from benchlog.tasks.overruled_view import hand_story
from benchlog.tasks.record import Record
from benchlog.tasks.rule_flip import would_change_rules
from benchlog.tasks.value_text import NO_ANSWER, value_text

LEAD = (
    "Two specimens count as different only where the gap is wider than both the doubt of the "
    "readings and the smallest difference that the rules call meaningful."
)


def _score_words(score: Score | None) -> str:
    if score is None or score.value is None:
        return "no score"
    words = f"{score.value:.1f}"
    if score.low is not None and score.high is not None:
        words += f" ({score.low:.1f} to {score.high:.1f})"
    return words


def _rests_on(record: Record, score: Score | None) -> str:
    words = ""
    if score is not None and score.value is not None and score.counted < score.of:
        words = f"{score.counted} of {score.of} attributes"
        words += f" with {score.coverage * 100:.0f} % of the weight"
    return _without(record, score, words)


def _without(record: Record, score: Score | None, words: str) -> str:
    missing = [
        f"{subject_label(record, c.subject)} ({_why_not(record, c, score)})" if c.why_not
        else subject_label(record, c.subject)
        for c in (score.contributions if score else ())
        if c.value is None
    ]  # fmt: skip
    return "; ".join(filter(None, [words, f"without {', '.join(missing)}" if missing else ""]))


def _why_not(record: Record, part: Contribution, score: Score | None) -> str:
    """Return why an attribute did not count; a slot that nobody answered is no state."""
    if score is not None and part.why_not == State.NOT_MEASURED.value:
        text = value_text(record, part.subject, score.specimen_id)
        return text if text == NO_ANSWER else part.why_not
    return part.why_not


def _scores(record: Record, award: Award, width: float) -> list[Flowable]:
    """Return every specimen's score in one line, then on what they rest, alike ones together."""
    scores = {s.specimen_id: s for s in record.verdict.scores if s.component is award.component}
    specimens = record.lineup.specimens
    parts = [_score_line(record, scores, width)]
    rests = {s.id: _rests_on(record, scores.get(s.id)) for s in specimens}
    for words in dict.fromkeys(filter(None, rests.values())):
        alike = tuple(key for key, said in rests.items() if said == words)
        who = "" if len(alike) == len(specimens) else f"{names(record, alike)}: "
        parts.append(para(shortened(f"{who}{words}", 700), "gutter_cell", "Scores rest on"))
    return parts


def _score_line(record: Record, scores: dict[str, Score], width: float) -> Table:
    cells: list[Flowable] = []
    for s in record.lineup.specimens:
        said = f"{shortened(s.nickname, 24)}  {_score_words(scores.get(s.id))}"
        cells += [Tag(s, 3.8), para(said, "cell")]
    across = 2 * min(3, len(record.lineup.specimens))
    rows = [cells[i : i + across] for i in range(0, len(cells), across)]
    rows[-1] += [para("")] * (across - len(rows[-1]))
    each = (width - GUTTER) / (across / 2)
    style = [
        ("FONT", (0, 0), (-1, -1), FACE, SMALL),
        ("VALIGN", (0, 0), (-1, -1), "TOP"),
        ("LEFTPADDING", (0, 0), (-1, -1), 0),
        ("TOPPADDING", (0, 0), (-1, -1), 1),
        ("BOTTOMPADDING", (0, 0), (-1, -1), 2),
    ]
    lines = [[para("Scores" if i == 0 else "", "gutter_head"), *row] for i, row in enumerate(rows)]
    widths = [GUTTER, *([16.0, each - 16.0] * (across // 2))]
    return Table(lines, colWidths=widths, style=style, hAlign="LEFT")


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
    shown = shown_award(record, award)
    blind = blind_line(record, award.component)
    parts: list[Flowable] = [
        Heading(award.component.value.capitalize(), 1),
        headline(award, record, page.content),
        para(award.reason or "no reason given", "gutter", "The rule says"),
    ]
    if shown.by_hand:
        parts.append(para(shown.why or "no reason given", "gutter", "Reviewer’s why"))
    if said_before := hand_story(record, award.component):
        parts.append(para(said_before, "gutter", "Reviewer’s hand"))
    parts += _remarks(record, award)
    for label, words in (
        ("Would change it", _would_change(record, award)),
        ("Judged by eye", blind),
    ):
        if words:
            parts.append(para(words, "gutter_cell", label))
    if record.lineup.specimens:
        parts += _scores(record, award, page.content)
    parts.append(gap(4))
    return parts


def _would_change(record: Record, award: Award) -> str:
    """Return the smallest change of a reading that would change an award, then that of a rule."""
    return " ".join(filter(None, (award.would_change, would_change_rules(record, award))))


ROOM_FOR_REASONS = 105.0
"""Points that a component's name, its outcome and the first lines of its reason take."""

ROOM_WITH_HEADING = 185.0


def verdict_pages(record: Record, page: Page) -> list[Flowable]:
    """Return the section of reasons, one part for each component that has an outcome."""
    by_component = {award.component: award for award in record.verdict.awards}
    parts: list[Flowable] = []
    # The section's heading goes where its first component goes.
    ahead = section("Why, component by component", LEAD)
    for component in components_shown(record):
        room = ROOM_WITH_HEADING if ahead else ROOM_FOR_REASONS
        parts += [CondPageBreak(room), *ahead, *_award(record, by_component[component], page)]
        ahead = []
    parts = parts or ahead
    return [*parts, *poll_part(record, page)] if record.polls else parts
