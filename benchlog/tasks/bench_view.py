"""What the bench shows at one moment, as plain values; whoever draws it decides nothing."""

from __future__ import annotations

from dataclasses import dataclass

from benchlog.measure.instrument import Instrument
from benchlog.measure.reading import Reading
from benchlog.tasks.check_book import ToolCheck
from benchlog.trade.attribute import Attribute, Choice, Station
from benchlog.trade.specimen import Lineup, Specimen


@dataclass(frozen=True)
class StationRow:
    """One station in the list: `missing` of `asked` slots (attribute × specimen) are open."""

    key: str
    label: str
    missing: int
    asked: int
    one_way: bool
    passed: bool
    here: bool


@dataclass(frozen=True)
class Cell:
    """What came in for one attribute of one specimen; `text` is "" while nothing did.

    `taken` readings of `wanted` are in; a state without a value ends the repeats. `in_doubt` says
    that the instrument of one of them failed its check and nobody has put that right.
    """

    specimen_id: str
    text: str
    state: str
    taken: int
    wanted: int
    here: bool
    in_doubt: bool = False


@dataclass(frozen=True)
class TableRow:
    """One attribute of this station, with a cell for every specimen in bench order."""

    attribute: Attribute
    cells: tuple[Cell, ...]


@dataclass(frozen=True)
class Asked:
    """What is asked now.

    `unit` is the printed symbol that a bare number will be taken in; `range_text` names the
    usual range. `takes_weight` says that the scale can answer. `choices` are numbered from 1 for
    one-key answers. `taken` are the standing readings of this slot.
    """

    attribute: Attribute
    specimen: Specimen
    ordinal: int
    wanted: int
    unit: str
    range_text: str
    takes_weight: bool
    choices: tuple[Choice, ...]
    tool: Instrument | None
    taken: tuple[Reading, ...]


@dataclass(frozen=True)
class BenchView:
    """Everything the Bench draws.

    `asked` is None at a station with nothing to ask. `yes_wanted` is True at a one-way station
    that was not passed yet: nothing may be entered there before the deliberate yes. `tool_check`
    is what is known of the tool in hand, None where there is none or it wants no check;
    `still_open` names, at the last station, the instruments that want a closing check.
    """

    lineup: Lineup
    stations: tuple[StationRow, ...]
    station: Station
    asked: Asked | None
    by_specimen: bool
    table: tuple[TableRow, ...]
    yes_wanted: bool
    half_typed: str
    last: str
    missing: int
    can_scratch: bool
    photos_here: int
    tool_check: ToolCheck | None = None
    still_open: tuple[str, ...] = ()


@dataclass(frozen=True)
class Accepted:
    """What was stored, and a short sentence to show: "Amber · Weight: 287.4 g"."""

    reading: Reading
    message: str
