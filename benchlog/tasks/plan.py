"""Plan a line-up: who stands in it, in what colours and shapes, and what will be asked."""

from __future__ import annotations

import uuid
from collections.abc import Callable
from collections.abc import Sequence as Many
from dataclasses import replace

from benchlog.errors import PlanRefused
from benchlog.tasks.ports import Clock, Shelf
from benchlog.trade.attribute import Sequence
from benchlog.trade.specimen import Lineup, Shape, Specimen

MOST_SPECIMENS = 6

# Colours that stay apart under the common colour-vision deficiencies and in grey print
# (after the palette published by Okabe and Ito, 2008, darkened for white numerals).
TAG_COLOURS = ("#b35c00", "#0060a8", "#00795a", "#a8457f", "#6b5b00", "#4b4b52")
TAG_NAMES = ("Amber", "Cobalt", "Moss", "Mulberry", "Olive", "Slate")


def new_id() -> str:
    """Return a new identifier, unique over all shelves."""
    return uuid.uuid4().hex


def fresh_specimen(position: int) -> Specimen:
    """Return an empty specimen for bench position 0 to 5, with its own colour, shape and name."""
    return Specimen(
        id=new_id(),
        nickname=TAG_NAMES[position],
        shape=list(Shape)[position],
        colour=TAG_COLOURS[position],
    )


def added_specimen(standing: Many[Specimen]) -> Specimen:
    """Return an empty specimen whose tag no specimen of `standing` carries yet.

    Raises PlanRefused when the line-up is full.
    """
    if len(standing) >= MOST_SPECIMENS:
        raise PlanRefused(
            f"A line-up holds at most {MOST_SPECIMENS} specimens.",
            "Start a second line-up for the others.",
        )
    shapes = {s.shape for s in standing}
    names = {s.nickname.casefold() for s in standing}
    colours = {s.colour.lower() for s in standing}
    fresh = [fresh_specimen(position) for position in range(MOST_SPECIMENS)]
    return replace(
        fresh[0],
        shape=next(s.shape for s in fresh if s.shape not in shapes),
        nickname=next(
            (s.nickname for s in fresh if s.nickname.casefold() not in names),
            f"Specimen {len(standing) + 1}",
        ),
        colour=next((s.colour for s in fresh if s.colour not in colours), TAG_COLOURS[0]),
    )


def usual_attributes(sequence: Sequence) -> tuple[str, ...]:
    """Return the keys that a new line-up asks for, in the sequence's order."""
    return tuple(a.key for a in sequence.attributes if a.usual)


def new_lineup(
    clock: Clock,
    sequence: Sequence,
    *,
    name: str,
    question: str = "",
    specimens: tuple[Specimen, ...] = (),
    attributes: tuple[str, ...] = (),
    rules: str = "bench_rules",
    reviewer: str = "",
    rehearsal: bool = False,
) -> Lineup:
    """Return a line-up, not yet on the shelf; three empty specimens unless some are given."""
    return Lineup(
        id=new_id(),
        name=name,
        question=question,
        sequence=sequence.key,
        rules=rules,
        created_at=clock.now(),
        specimens=specimens or tuple(fresh_specimen(n) for n in range(3)),
        attributes=attributes or usual_attributes(sequence),
        reviewer=reviewer,
        rehearsal=rehearsal,
    )


def check_lineup(lineup: Lineup) -> None:
    """Raise PlanRefused where a line-up cannot stand: the first thing wrong, in plain words."""
    if not lineup.name.strip():
        raise PlanRefused("The line-up has no name.", "Type a name for it.", field="name")
    if not 1 <= len(lineup.specimens) <= MOST_SPECIMENS:
        raise PlanRefused(
            f"A line-up holds one to {MOST_SPECIMENS} specimens.", "Add or remove some."
        )
    for specimen in lineup.specimens:
        _check_specimen(specimen)
    _check_apart(lineup.specimens, "nickname", lambda s: s.nickname.strip().casefold())
    _check_apart(lineup.specimens, "shape", lambda s: s.shape.value)


def _check_specimen(specimen: Specimen) -> None:
    if not specimen.nickname.strip():
        raise PlanRefused(
            "A specimen has no nickname.",
            "Give it a short one to say aloud.",
            field="nickname",
            specimen_id=specimen.id,
        )
    if specimen.price is not None and specimen.price < 0:
        raise PlanRefused(
            f"The price of {specimen.nickname} is below zero.",
            "Type what was paid.",
            field="price",
            specimen_id=specimen.id,
        )


def _check_apart(specimens: Many[Specimen], field: str, mark_of: Callable[[Specimen], str]) -> None:
    seen: set[str] = set()
    for specimen in specimens:
        mark = mark_of(specimen)
        if mark in seen:
            raise PlanRefused(
                f"Two specimens share the {field} '{mark}'.",
                f"Give each its own {field}: it tells them apart on trays and on the sheet.",
                field=field,
                specimen_id=specimen.id,
            )
        seen.add(mark)


def save_plan(shelf: Shelf, lineup: Lineup) -> None:
    """Check a line-up and put it on the shelf.

    Raises PlanRefused where it cannot stand, when a specimen with readings was taken out, and
    when the kind of filter was changed after the first reading.
    """
    check_lineup(lineup)
    kept = {s.id for s in lineup.specimens}
    if any(brief.id == lineup.id for brief in shelf.lineups()):
        read = {r.specimen_id for r in shelf.readings(lineup.id)}
        before = shelf.lineup(lineup.id)
        for specimen in before.specimens:
            if specimen.id in read - kept:
                raise PlanRefused(
                    f"{specimen.nickname} has readings and cannot be taken out.",
                    "Readings are never deleted; leave it in the line-up.",
                )
        if read and before.sequence != lineup.sequence:
            raise PlanRefused(
                "The kind of filter stays as it was when the first reading came in.",
                "Start another line-up for the other kind.",
                field="sequence",
            )
    shelf.save_lineup(lineup)
