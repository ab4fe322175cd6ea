"""From the answer of one picture to readings, a figure a reading, and back to the doubt in them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from decimal import Decimal

from benchlog.errors import AskAgain
from benchlog.measure.micrograph import Micrograph, PictureAnswer, PictureFigure, Side
from benchlog.measure.reading import Reading, Said, Source, standing
from benchlog.measure.state import State
from benchlog.measure.units import unit_symbol
from benchlog.tasks.answer import Answer, check_answer, with_si
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock
from benchlog.tasks.slots import Slot, by_slot
from benchlog.tasks.withdrawing import withdrawal_of
from benchlog.trade.attribute import Attribute, Sequence

FIGURE_ATTRIBUTES = {
    ("D50", Side.IN): "opening_d50_in",
    ("D50", Side.OUT): "opening_d50_out",
    ("open area", Side.IN): "open_area_in",
    ("open area", Side.OUT): "open_area_out",
    ("fibre median", Side.IN): "fibre_median_in",
    ("fibre median", Side.OUT): "fibre_median_out",
}
"""The attribute that a figure of a picture of one side is a reading of."""

FIGURES_OF_ATTRIBUTES = {attribute: key for (key, _), attribute in FIGURE_ATTRIBUTES.items()}

_PLACES = Decimal("0.01")


@dataclass(frozen=True)
class FreshReadings:
    """Readings that an answer makes; `told` are their questions of range, which hold up nothing."""

    readings: tuple[Reading, ...]
    told: tuple[str, ...]


def readings_of_answer(
    answer: PictureAnswer,
    micrograph: Micrograph,
    before: PictureAnswer | None,
    taken: list[Reading],
    sequence: Sequence,
    clock: Clock,
    session_s: float = 0.0,
) -> FreshReadings:
    """Return the readings of a measured picture, none of a refused one.

    `before` is an earlier answer to the same picture: its readings are superseded, or taken back
    where the figure is no longer told. `taken` are all readings of the line-up. Figures that the
    sequence does not ask for make no reading.
    """
    earlier = {r.attribute: r for r in readings_behind(before, taken)} if before else {}
    asked = {attribute.key: attribute for attribute in sequence.attributes}
    slots, made, told = by_slot(taken), [], []
    for figure in answer.figures if answer.verdict == "measured" else ():
        attribute = asked.get(FIGURE_ATTRIBUTES.get((figure.key, micrograph.side), ""))
        if attribute is None:
            continue
        there = slots.get(Slot(attribute.key, micrograph.specimen_id), [])
        old = earlier.pop(attribute.key, None)
        said = said_of_figure(figure, attribute)
        question = _question(attribute, said)
        told += [question] if question else []
        made.append(
            with_si(
                Reading(
                    id=new_id(),
                    lineup_id=micrograph.lineup_id,
                    specimen_id=micrograph.specimen_id,
                    attribute=attribute.key,
                    ordinal=old.ordinal if old else 1 + max((r.ordinal for r in there), default=0),
                    state=State.MEASURED,
                    text=said.text,
                    at=clock.now(),
                    session_s=session_s,
                    source=Source.PICTURE,
                    said=said,
                    instrument_id=micrograph.set_up_id,
                    reason="measured anew" if old else question and "as the picture has it",
                    supersedes=old.id if old else None,
                )
            )
        )
    gone = (withdrawal_of(r, clock, "measured anew", session_s) for r in earlier.values())
    return FreshReadings((*made, *gone), tuple(told))


def withdrawals_of(
    answer: PictureAnswer | None,
    taken: list[Reading],
    clock: Clock,
    reason: str,
    session_s: float = 0.0,
) -> list[Reading]:
    """Return what takes back the standing readings of an answer, corrected ones too."""
    if answer is None:
        return []
    return [withdrawal_of(r, clock, reason, session_s) for r in readings_behind(answer, taken)]


def readings_behind(answer: PictureAnswer, taken: Iterable[Reading]) -> Iterator[Reading]:
    """Yield the standing readings that an answer made, or that were corrected from such ones."""
    every = list(taken)
    by_id = {reading.id: reading for reading in every}
    own = set(answer.readings)
    for reading in standing(every):
        if any(one.id in own for one in chain_of(reading, by_id)):
            yield reading


def chain_of(reading: Reading, by_id: dict[str, Reading]) -> Iterator[Reading]:
    """Yield a reading and all that it supersedes, back to the first."""
    one: Reading | None = reading
    while one is not None:
        yield one
        one = by_id.get(one.supersedes or "")


def said_of_figure(figure: PictureFigure, attribute: Attribute) -> Said:
    """Return a figure as a number said, in the attribute's unit, to a hundredth."""
    value = Decimal(figure.value * unit_factor(figure)).quantize(_PLACES)
    return Said(f"{value} {unit_symbol(attribute.unit)}".rstrip(), value, attribute.unit)


def unit_factor(figure: PictureFigure) -> float:
    """Return what turns a figure into its attribute's unit: shares are told in percent."""
    return 100.0 if figure.unit == "1" else 1.0


def _question(attribute: Attribute, said: Said) -> str:
    """Return what the ranges would ask about a number; a picture's is kept all the same."""
    try:
        check_answer(attribute, Answer(State.MEASURED, said.text, said), sure=False, reason="")
    except AskAgain as asked:
        return asked.what
    return ""
