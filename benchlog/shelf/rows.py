"""Records to rows and back; every field of the record has a column, or a few."""

from __future__ import annotations

from dataclasses import fields
from typing import Any

from sqlalchemy import RowMapping

from benchlog.measure.check import Check, CheckMoment, GroupCorrection, Remedy
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.reading import Reading, Said, Source
from benchlog.measure.state import State
from benchlog.tasks.ports import Moment, Photo, Place, Remark
from benchlog.trade.specimen import Lineup, Paid, Shape, Specimen

_SAID = ("text", "value", "unit", "low", "high", "approximate")
_NOT_SAID = {f"said_{name}": None for name in _SAID}


def _names(record: type[Any]) -> tuple[str, ...]:
    """Return the names of a record's fields, in order."""
    return tuple(field.name for field in fields(record))


_READING = tuple(name for name in _names(Reading) if name != "said")
_LINEUP = tuple(name for name in _names(Lineup) if name != "specimens")
_SPECIMEN = _names(Specimen)
_INSTRUMENT = _names(Instrument)
_CHECK = tuple(name for name in _names(Check) if name != "said")
_GROUP_CORRECTION = _names(GroupCorrection)
_PHOTO = _names(Photo)
_MOMENT = _names(Moment)
_REMARK = _names(Remark)
_PLACE = _names(Place)


def _taken(record: object, wanted: tuple[str, ...]) -> dict[str, Any]:
    return {name: getattr(record, name) for name in wanted}


def _picked(row: RowMapping, wanted: tuple[str, ...]) -> dict[str, Any]:
    return {name: row[name] for name in wanted}


def _said_row(said: Said) -> dict[str, Any]:
    return {f"said_{name}": getattr(said, name) for name in _SAID}


def _said_from(row: RowMapping) -> Said:
    return Said(**{name: row[f"said_{name}"] for name in _SAID})


def reading_row(reading: Reading) -> dict[str, Any]:
    """Return a reading as a row; what was said is laid out flat."""
    row = _taken(reading, _READING)
    row["state"] = reading.state.value
    row["source"] = reading.source.value
    row["group"] = reading.group or None
    row.update(_NOT_SAID if reading.said is None else _said_row(reading.said))
    return row


def reading_from(row: RowMapping) -> Reading:
    """Return the reading of a row."""
    said = None if row["said_text"] is None else _said_from(row)
    kept = _picked(row, _READING)
    kept["group"] = row["group"] or ""
    kept["state"] = State(row["state"])
    kept["source"] = Source(row["source"])
    return Reading(said=said, **kept)


def check_row(check: Check) -> dict[str, Any]:
    """Return a check as a row; one before the first reading has a blank there."""
    row = {**_taken(check, _CHECK), **_said_row(check.said)}
    row["moment"] = check.moment.value
    row["after"] = check.after or None
    return row


def check_from(row: RowMapping) -> Check:
    """Return the check of a row."""
    kept = _picked(row, _CHECK)
    kept["moment"] = CheckMoment(row["moment"])
    kept["after"] = row["after"] or ""
    return Check(said=_said_from(row), **kept)


def group_correction_row(correction: GroupCorrection) -> dict[str, Any]:
    """Return a group correction as a row; one that takes none back has a blank there."""
    row = _taken(correction, _GROUP_CORRECTION)
    row["remedy"] = correction.remedy.value
    row["takes_back"] = correction.takes_back or None
    return row


def group_correction_from(row: RowMapping) -> GroupCorrection:
    """Return the group correction of a row."""
    kept = _picked(row, _GROUP_CORRECTION)
    kept["remedy"] = Remedy(row["remedy"])
    kept["takes_back"] = row["takes_back"] or ""
    return GroupCorrection(**kept)


def lineup_row(lineup: Lineup) -> dict[str, Any]:
    """Return a line-up as a row, without its specimens."""
    return _taken(lineup, _LINEUP)


def lineup_from(row: RowMapping, specimens: tuple[Specimen, ...]) -> Lineup:
    """Return the line-up of a row and its specimens."""
    return Lineup(specimens=specimens, **_picked(row, _LINEUP))


def specimen_row(specimen: Specimen) -> dict[str, Any]:
    """Return a specimen as a row, without its line-up and position."""
    row = _taken(specimen, _SPECIMEN)
    row["shape"] = specimen.shape.value
    row["paid"] = specimen.paid.value
    return row


def specimen_from(row: RowMapping) -> Specimen:
    """Return the specimen of a row."""
    kept = _picked(row, _SPECIMEN)
    kept["shape"] = Shape(row["shape"])
    kept["paid"] = Paid(row["paid"])
    return Specimen(**kept)


def instrument_row(instrument: Instrument) -> dict[str, Any]:
    """Return an instrument as a row."""
    row = _taken(instrument, _INSTRUMENT)
    row["kind"] = instrument.kind.value
    return row


def instrument_from(row: RowMapping) -> Instrument:
    """Return the instrument of a row."""
    kept = _picked(row, _INSTRUMENT)
    kept["kind"] = InstrumentKind(row["kind"])
    return Instrument(**kept)


def photo_row(photo: Photo) -> dict[str, Any]:
    """Return a photo as a row; a photo of no specimen in particular has a blank there."""
    row = _taken(photo, _PHOTO)
    row["specimen_id"] = photo.specimen_id or None
    return row


def photo_from(row: RowMapping) -> Photo:
    """Return the photo of a row."""
    kept = _picked(row, _PHOTO)
    kept["specimen_id"] = row["specimen_id"] or ""
    return Photo(**kept)


def moment_row(moment: Moment) -> dict[str, Any]:
    """Return a moment as a row."""
    return _taken(moment, _MOMENT)


def moment_from(row: RowMapping) -> Moment:
    """Return the moment of a row."""
    return Moment(**_picked(row, _MOMENT))


def remark_row(remark: Remark) -> dict[str, Any]:
    """Return a remark as a row; one on the comparison as a whole has a blank specimen."""
    row = _taken(remark, _REMARK)
    row["specimen_id"] = remark.specimen_id or None
    return row


def remark_from(row: RowMapping) -> Remark:
    """Return the remark of a row."""
    kept = _picked(row, _REMARK)
    kept["specimen_id"] = row["specimen_id"] or ""
    return Remark(**kept)


def place_row(place: Place) -> dict[str, Any]:
    """Return a place as a row, without its turn."""
    return _taken(place, _PLACE)


def place_from(row: RowMapping) -> Place:
    """Return the place of a row."""
    return Place(**_picked(row, _PLACE))
