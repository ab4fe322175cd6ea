"""What viewers picked, beside what the bench gave the same specimens."""

from __future__ import annotations

from reportlab.platypus import Flowable

from benchlog.judge.blind import Poll
from benchlog.judge.verdict import AwardKind
from benchlog.sheet.flow import Cell, columns, part, specimen_head, table
from benchlog.sheet.shown_award import NAMING, shown_award
from benchlog.sheet.text import para
from benchlog.sheet.typography import Page
from benchlog.tasks.poll import poll_rows, poll_story
from benchlog.tasks.record import Record

LABELS = 118.0
NEVER = "none"
BENCH = {
    AwardKind.WINNER: "The bench: winner in",
    AwardKind.JOINT_WINNERS: "The bench: joint winner in",
}


def poll_part(record: Record, page: Page) -> list[Flowable]:
    """Return every poll in a sentence, and votes and outcomes in one table, a specimen a column."""
    if not record.polls:
        return []
    several = len(record.polls) > 1
    named = [f"Poll {i}" if several else "Viewers" for i in range(1, len(record.polls) + 1)]
    specimens = record.lineup.specimens
    widths = columns(page.content, LABELS, len(specimens))
    heads = [specimen_head(s, w, 2) for s, w in zip(specimens, widths[1:], strict=True)]
    rows: list[list[Cell]] = [["", *heads]]
    rows += [_votes(record, poll, name) for name, poll in zip(named, record.polls, strict=True)]
    rows += [_outcomes(record, kind) for kind in NAMING]
    stories = [
        para(f"{name}: {poll_story(poll, record.lineup)}" if several else
             poll_story(poll, record.lineup), "note")
        for name, poll in zip(named, record.polls, strict=True)
    ]  # fmt: skip
    title = "Viewers’ polls" if several else "Viewers’ poll"
    return [*part(title, 150), *stories, table(rows, widths)]


def _votes(record: Record, poll: Poll, name: str) -> list[Cell]:
    when = "before" if poll.before_reveal else "after"
    shares = {row.specimen_id: row for row in poll_rows(poll, record.lineup)}
    cells: list[Cell] = [f"{name}, {when} the reveal"]
    for specimen in record.lineup.specimens:
        row = shares.get(specimen.id)
        cells.append(f"{row.share:.0%} (n = {row.votes})" if row else "not asked about")
    return cells


def _outcomes(record: Record, kind: AwardKind) -> list[Cell]:
    """Return for every specimen where the rules named it; what was overruled says so."""
    cells: list[Cell] = [BENCH[kind]]
    for specimen in record.lineup.specimens:
        named = [
            award.component.value + (" (overruled)" if shown_award(record, award).by_hand else "")
            for award in record.verdict.awards
            if award.kind is kind and specimen.id in award.winners
        ]
        cells.append(para(", ".join(named) or NEVER, "cell"))
    return cells
