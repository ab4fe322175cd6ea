"""Which field of which medium is wanted next: sides and specimens interleaved, in balanced order.

Light and hand drift over an evening. A field of every specimen is taken before the second of any,
so that what drifts falls on all alike.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from enum import StrEnum

from benchlog.judge.balanced import balanced_orders
from benchlog.measure.micrograph import (
    Micrograph,
    PictureAnswer,
    Side,
    latest_answers,
    standing_micrographs,
)
from benchlog.trade.specimen import Lineup

FIELDS_A_SIDE = 3
"""Fewest fields with which a fifth is told apart in four of five tries."""

BOTH_SIDES = (Side.IN, Side.OUT)


@dataclass(frozen=True)
class WantedField:
    """One place of one side of one specimen, counted from 1."""

    specimen_id: str
    side: Side
    field: int


class FieldState(StrEnum):
    """How a field stands, in the words that are shown."""

    WANTED = "wanted"
    WAITING = "not measured yet"
    MEASURED = "measured"
    REFUSED = "refused: take it again"


@dataclass(frozen=True)
class FieldStanding:
    """One field with its picture and what measuring said, None where there is none."""

    field: WantedField
    state: FieldState
    micrograph: Micrograph | None = None
    answer: PictureAnswer | None = None


def fields_in_order(
    lineup: Lineup, fields: int = FIELDS_A_SIDE, sides: Sequence[Side] = BOTH_SIDES
) -> tuple[WantedField, ...]:
    """Return every field to take, in order.

    A round is one field of one side of every specimen. Rounds go there and back through the sides
    (inlet, outlet, outlet, inlet, …), so that strips are turned half as often; within them each
    specimen is first about equally often (see `judge.balanced`).
    """
    ids = [specimen.id for specimen in lineup.specimens]
    turns = [
        (side, number)
        for number in range(1, fields + 1)
        for side in (sides if number % 2 else tuple(reversed(sides)))
    ]
    orders = balanced_orders(len(ids), len(turns))
    return tuple(
        WantedField(ids[item], side, number)
        for (side, number), order in zip(turns, orders, strict=True)
        for item in order
    )


def fields_standing(
    order: Iterable[WantedField],
    micrographs: Iterable[Micrograph],
    answers: Iterable[PictureAnswer],
) -> tuple[FieldStanding, ...]:
    """Return how every wanted field stands, then those taken beyond them; all oldest first."""
    said = latest_answers(tuple(answers))
    taken = {field_of(m): m for m in standing_micrographs(tuple(micrographs))}
    planned = tuple(order)
    further = [field for field in taken if field not in set(planned)]
    return tuple(_standing(field, taken, said) for field in (*planned, *further))


def next_field(standings: Iterable[FieldStanding]) -> WantedField | None:
    """Return the first field without a picture, or whose picture was refused; None when done.

    One that is still being measured does not hold the reviewer up.
    """
    for one in standings:
        if one.state in (FieldState.WANTED, FieldState.REFUSED):
            return one.field
    return None


def further_field(standings: Iterable[FieldStanding], specimen_id: str, side: Side) -> WantedField:
    """Return the field that comes after all those planned or taken of one side of a specimen."""
    numbers = [
        one.field.field
        for one in standings
        if one.field.specimen_id == specimen_id and one.field.side is side
    ]
    return WantedField(specimen_id, side, 1 + max(numbers, default=0))


def field_of(micrograph: Micrograph) -> WantedField:
    """Return the field that a micrograph shows."""
    return WantedField(micrograph.specimen_id, micrograph.side, micrograph.field)


def field_words(lineup: Lineup, field: WantedField) -> str:
    """Return a field's name: "Amber, inlet side, field 2"."""
    name = next(s.nickname for s in lineup.specimens if s.id == field.specimen_id)
    return f"{name}, {field.side.value}, field {field.field}"


def _standing(
    field: WantedField, taken: dict[WantedField, Micrograph], said: dict[str, PictureAnswer]
) -> FieldStanding:
    micrograph = taken.get(field)
    if micrograph is None:
        return FieldStanding(field, FieldState.WANTED)
    answer = said.get(micrograph.id)
    if answer is None:
        return FieldStanding(field, FieldState.WAITING, micrograph)
    measured = answer.verdict == "measured"
    state = FieldState.MEASURED if measured else FieldState.REFUSED
    return FieldStanding(field, state, micrograph, answer)
