"""The stand-in check on screen: its word, then a caution for each line that is not cleared.

The part number by the handbook stands on every one of them.
"""

from __future__ import annotations

from collections import Counter

from benchlog.sheet.cards.block import Para
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.folding import cut_to
from benchlog.sheet.cards.frame import Frame
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET
from benchlog.sheet.cards.marked import marked
from benchlog.sheet.cards.marks import line_mark, word_mark
from benchlog.tasks.stand_in import LineOutcome, LineResult, Side, StandInCheck

MARK = 84.0
_LONGEST = 40


def stand_in_cards(
    frame: Frame, check: StandInCheck, candidate: Side, specified: Side
) -> tuple[Card, ...]:
    """Return the card of the whole check, then one for each line that is not cleared.

    The two sides are those that the check was made of; they tell which readings are shown. Raises
    NoRoom.
    """
    sides = (candidate, specified)
    uncleared = [line for line in check.lines if line.outcome is not LineOutcome.MATCH]
    cautions = (_line_card(frame, check, line, sides, n) for n, line in enumerate(uncleared, 1))
    return (_word_card(frame, check, sides), *cautions)


def _word_card(frame: Frame, check: StandInCheck, sides: tuple[Side, Side]) -> Card:
    counts = Counter(line.outcome for line in check.lines)
    tally = " · ".join(f"{counts[o]} {o.value}" for o in LineOutcome)
    head = [Para(check.word.value, 104.0, PLAIN_TO_READ, BOLD, most=2)]
    tail = [
        Para(_beside(check), LEAST, LEAST, most=3),
        Para(f"Lines: {tally}", colour=QUIET, before=8.0),
        Para(check.handbook, LEAST, LEAST, BOLD, before=8.0),
    ]
    found = marked(frame, head, tail, MARK)
    mark = word_mark(check.word, found.x, found.y, MARK)
    return Card(
        name="stand_in",
        title="Stand-in check",
        items=(*frame.notice, *found.items, *mark),
        spoken=f"{check.word.value}. {_full(check)}. Lines: {tally}. {check.handbook}.",
        readings=_readings(check.lines, sides),
        shortened=found.shortened,
        margin=frame.margin,
    )


def _line_card(
    frame: Frame, check: StandInCheck, line: LineResult, sides: tuple[Side, Side], n: int
) -> Card:
    outcome = line.outcome.value
    head = [
        Para(line.line.label, PLAIN_TO_READ, PLAIN_TO_READ, BOLD, most=2),
        Para(outcome, PLAIN_TO_READ, PLAIN_TO_READ, most=1),
    ]
    tail = [
        Para(line.words, 66.0, LEAST, before=8.0),
        Para(_beside(check), colour=QUIET, most=3, before=8.0),
        Para(check.handbook, LEAST, LEAST, BOLD, before=8.0),
    ]
    found = marked(frame, head, tail, MARK)
    mark = line_mark(line.outcome, found.x, found.y, MARK)
    return Card(
        name=f"stand_in_caution_{n}",
        title=f"Stand-in check: {line.line.label}, {outcome}",
        items=(*frame.notice, *found.items, *mark),
        spoken=f"{line.line.label}: {outcome}. {line.words} {_full(check)}. {check.handbook}.",
        readings=_readings((line,), sides),
        shortened=found.shortened,
        margin=frame.margin,
    )


def _full(check: StandInCheck) -> str:
    return f"{check.candidate} beside {check.specified}, the specified filter"


def _beside(check: StandInCheck) -> str:
    candidate, specified = _short(check.candidate), _short(check.specified)
    return f"{candidate} beside {specified}, the specified filter"


def _short(name: str) -> str:
    line = " ".join(name.split())
    return line if len(line) <= _LONGEST else cut_to(line, _LONGEST - 1)


def _readings(lines: tuple[LineResult, ...], sides: tuple[Side, Side]) -> tuple[str, ...]:
    found = [
        reading.id
        for line in lines
        for subject in line.subjects
        for side in sides
        if subject.subject.key in side.findings
        for reading in side.findings[subject.subject.key].readings
    ]
    return tuple(dict.fromkeys(found))
