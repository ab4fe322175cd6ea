"""Look through the shelf: which line-ups answer to what was typed."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.tasks.ports import LineupBrief
from benchlog.trade.specimen import Specimen


def matching(briefs: Iterable[LineupBrief], typed: str) -> list[LineupBrief]:
    """Return the line-ups in which every typed word occurs, in given order.

    Looked at are the line-up's name and date, and of its specimens nickname, maker, part number
    and lot; capitals play no part. Nothing typed matches all.
    """
    words = typed.casefold().split()
    return [brief for brief in briefs if all(word in _said_of(brief) for word in words)]


def readings_said(count: int) -> str:
    """Return how many readings there are, in words."""
    return {0: "nothing read yet", 1: "1 reading"}.get(count, f"{count} readings")


def _said_of(brief: LineupBrief) -> str:
    parts = [brief.name, brief.created_at.strftime("%Y-%m-%d")]
    parts += ["rehearsal"] if brief.rehearsal else []
    for specimen in brief.specimens:
        parts += _words_of(specimen)
    return "\n".join(parts).casefold()


def _words_of(specimen: Specimen) -> list[str]:
    return [specimen.nickname, specimen.maker, specimen.part_number, specimen.lot]
