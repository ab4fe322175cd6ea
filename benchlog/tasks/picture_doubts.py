"""What the readings of pictures are unsure by, from the answers that made them."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Mapping

from benchlog.measure.field_scatter import FieldSpread, field_spreads
from benchlog.measure.micrograph import Micrograph, PictureAnswer
from benchlog.measure.picture_doubt import PictureDoubt, doubt_of, typical_share
from benchlog.measure.reading import Reading
from benchlog.measure.repeats import counted
from benchlog.measure.scatter import one_instrument
from benchlog.measure.seen import is_plain
from benchlog.measure.units import convert
from benchlog.tasks.picture_readings import FIGURES_OF_ATTRIBUTES, chain_of, unit_factor
from benchlog.tasks.slots import by_slot
from benchlog.trade.attribute import Sequence

Spreads = dict[tuple[str, str], FieldSpread]
"""By attribute key and specimen id."""


def picture_doubts(
    readings: Iterable[Reading],
    micrographs: Iterable[Micrograph],
    answers: Iterable[PictureAnswer],
) -> dict[str, PictureDoubt]:
    """Return the doubt in every reading that a picture made, by the reading's id.

    A reading corrected by hand keeps the doubt of the one that it corrects.
    """
    set_ups = {m.id: m.set_up_id for m in micrographs}
    made = {
        reading: (answer, set_ups[answer.micrograph_id])
        for answer in answers
        if answer.micrograph_id in set_ups
        for reading in answer.readings
    }
    every = {reading.id: reading for reading in readings}
    found = {}
    for reading in every.values():
        origin = next((one.id for one in chain_of(reading, every) if one.id in made), None)
        if origin is None or reading.said is None:
            continue
        answer, set_up = made[origin]
        figure = answer.figure(FIGURES_OF_ATTRIBUTES.get(reading.attribute, ""))
        if figure is not None and reading.instrument_id == set_up:
            found[reading.id] = doubt_of(set_up, answer.light, figure, unit_factor(figure))
    return found


def spreads_of(
    readings: Iterable[Reading], sequence: Sequence, doubts: Mapping[str, PictureDoubt]
) -> Spreads:
    """Return how sure the fields make every mean of pictures, by attribute and specimen.

    Media share what their fields show within one set-up. Specimens whose readings come from
    several set-ups, or hold an estimate, are left to their own scatter.
    """
    units = {a.key: a.unit for a in sequence.attributes if a.key in FIGURES_OF_ATTRIBUTES}
    media: dict[tuple[str, str], dict[str, list[float]]] = defaultdict(dict)
    stated: dict[tuple[str, str], list[tuple[float, float]]] = defaultdict(list)
    for slot, there in by_slot(readings).items():
        numbers = [r for r in counted(there) if r.said is not None]
        set_up = one_instrument(numbers)
        known = [doubts[r.id] for r in numbers if r.id in doubts]
        if slot.attribute not in units or not set_up or not known:
            continue
        if all(is_plain(r) for r in numbers):
            key = slot.attribute, set_up
            values = [_value(r, units[slot.attribute]) for r in numbers]
            media[key][slot.specimen_id] = values
            stated[key] += [
                (value, doubts[r.id].sampling)
                for value, r in zip(values, numbers, strict=True)
                if r.id in doubts
            ]
    return {
        (attribute, specimen): spread
        for (attribute, set_up), values in media.items()
        for specimen, spread in field_spreads(
            values, typical_share(stated[attribute, set_up])
        ).items()
    }


def _value(reading: Reading, unit: str) -> float:
    assert reading.said is not None
    return convert(float(reading.said.value), reading.said.unit, unit)
