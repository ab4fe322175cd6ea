"""A correction, on screen: what was read, what it is now, when and why."""

from __future__ import annotations

import re

from benchlog.errors import OurFault
from benchlog.measure.rounding import MINUS
from benchlog.sheet.cards.block import Para
from benchlog.sheet.cards.card import Card
from benchlog.sheet.cards.letters import BOLD
from benchlog.sheet.cards.look import LEAST, PLAIN_TO_READ, QUIET
from benchlog.sheet.cards.marked import marked
from benchlog.sheet.cards.marks import correction_mark
from benchlog.sheet.cards.told import Deck, with_short_names
from benchlog.tasks.correction_lines import correction_lines
from benchlog.tasks.record import Record
from benchlog.tasks.revision import revision_told

MARK = 60.0


def correction_cards(deck: Deck) -> tuple[Card, ...]:
    """Return a card for each correction, oldest first; raises NoRoom."""
    lines = correction_lines(deck.record)
    changed = readings_corrected(deck.record)
    if len(lines) != len(changed):
        raise OurFault(f"{len(lines)} corrections are told, {len(changed)} were made")
    return tuple(
        _card(deck, line, readings, n)
        for n, (line, readings) in enumerate(zip(lines, changed, strict=True), start=1)
    )


def readings_corrected(record: Record) -> tuple[tuple[str, ...], ...]:
    """Return, for each correction, the ids of the old and the new readings in it."""
    every = {reading.id: reading for reading in record.readings}
    withdrawals = {r.id for r in record.readings if r.withdrawn}
    found: dict[str, list[str]] = {}
    for reading in record.readings:
        old = every.get(reading.supersedes or "")
        if old is None or reading.withdrawn or reading.supersedes in withdrawals:
            continue
        found.setdefault(reading.group or reading.id, []).extend((old.id, reading.id))
    return tuple(tuple(ids) for ids in found.values())


def _card(deck: Deck, line: str, readings: tuple[str, ...], n: int) -> Card:
    signed = re.sub(r"(?<=\s)-(?=\d)", MINUS, line)
    told = with_short_names(signed, deck.record.lineup.specimens)
    told_as = revision_told(deck.record)
    standing = f"{told_as[:1].upper()}{told_as[1:]}"
    head = [Para("Correction", PLAIN_TO_READ, PLAIN_TO_READ, BOLD)]
    tail = [
        Para(told, 66.0, LEAST, before=8.0, may_shorten=True),
        Para(standing, colour=QUIET, before=8.0),
    ]
    found = marked(deck.frame, head, tail, MARK)
    mark = correction_mark(found.x, found.y, MARK)
    return Card(
        name=f"correction_{n}",
        title=f"Correction {n}",
        items=(*deck.frame.notice, *found.items, *mark),
        spoken=f"Correction. {line} {standing}.",
        readings=readings,
        shortened=found.shortened,
        margin=deck.frame.margin,
    )
