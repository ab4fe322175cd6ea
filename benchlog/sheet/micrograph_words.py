"""What is said of micrographs on the sheet, in words."""

from __future__ import annotations

from collections.abc import Iterable

from benchlog.tasks.field_order import FieldStanding, FieldState
from benchlog.tasks.media_seen import MediaView, PairOutcome, PairSeen, SideSeen
from benchlog.tasks.media_view import WANTED_SHARE
from benchlog.tasks.record import Record

WARNED = "measured, with that in mind"
RETAKEN, REFUSED = "refused; taken again", "refused; no figure from it"


APART = (PairOutcome.SMALLER, PairOutcome.LARGER)
IN_TURN = (
    APART,
    (PairOutcome.CANNOT_TELL, PairOutcome.TOO_LITTLE),
    (PairOutcome.NOT_COMPARED,),
)
"""What is told of openings, a paragraph for each: those told apart come first."""


def field_caption(one: FieldStanding) -> str:
    """Return what stands under a field: its number and opening, or why it has none."""
    name = f"Field {one.field.field}"
    if one.state is FieldState.REFUSED and one.answer is not None:
        return f"{name}, refused: {' '.join(one.answer.reasons)}"
    opening = one.answer.figure("D50") if one.answer else None
    if opening is None:
        return f"{name}, {one.state.value}"
    return f"{name}, D50 {opening.value:.1f} µm"


def figure_lines(side: SideSeen) -> tuple[str, ...]:
    """Return what the figures of a side come to: openings pair by pair, the rest as far as told."""
    openings = [pair for pair in side.pairs if pair.key == "D50"]
    rest = [pair for pair in side.pairs if pair.key != "D50"]
    lines = [line for line in (_joined(openings, outcomes) for outcomes in IN_TURN) if line]
    told = " ".join(filter(None, [_joined(rest, APART), *_quiet(rest)]))
    if told:
        lines.append(told)
    more = [one.more_fields for one in side.figures if one.key == "D50" and one.more_fields]
    if more:
        count = "1 more field" if max(more) == 1 else f"{max(more)} more fields"
        lines.append(
            f"To tell openings apart by {100 * WANTED_SHARE:.0f} % it would take up to {count} of "
            "each medium."
        )
    return tuple(lines)


def _joined(pairs: Iterable[PairSeen], outcomes: tuple[PairOutcome, ...]) -> str:
    return " ".join(pair.words for pair in pairs if pair.outcome in outcomes)


def _quiet(pairs: Iterable[PairSeen]) -> list[str]:
    """Return one sentence for all figures in which no two media are told apart."""
    apart: dict[str, bool] = {}
    for pair in pairs:
        apart[pair.key] = apart.get(pair.key, False) or pair.outcome in APART
    names = {"open area": "open area", "fibre median": "fibre diameter"}
    silent = [names.get(key, key) for key, any_told in apart.items() if not any_told]
    if not silent:
        return []
    return [f"In {' and '.join(silent)} no two media are told apart."]


def picture_rows(record: Record, view: MediaView) -> list[list[str]]:
    """Return a row for every picture that was refused, measured with a warning, or left out."""
    names = {specimen.id: specimen.nickname for specimen in record.lineup.specimens}
    rows = [
        [
            f"{names[one.specimen_id]}, {one.side.value}, field {one.field}",
            " ".join(one.reasons),
            RETAKEN if one.replaced else REFUSED,
        ]
        for one in view.refusals
        if one.specimen_id in names
    ]
    warned: dict[tuple[str, str, str], list[int]] = {}
    for side in view.sides:
        for one in side.fields:
            said = (*one.answer.warnings, *one.answer.withheld) if one.answer else ()
            if one.state is FieldState.MEASURED and said:
                key = names[one.field.specimen_id], side.side.value, " ".join(said)
                warned.setdefault(key, []).append(one.field.field)
    for (name, side_name, words), numbers in warned.items():
        listed = ", ".join(str(number) for number in sorted(numbers))
        which = f"field {listed}" if len(numbers) == 1 else f"fields {listed}"
        rows.append([f"{name}, {side_name}, {which}", words, WARNED])
    return rows
