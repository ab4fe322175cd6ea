"""One thing to record about a component, and the station at which it is asked."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.trade.component import Component


class Kind(StrEnum):
    """What sort of answer an attribute wants."""

    QUANTITY = "quantity"
    COUNT = "count"
    CHOICE = "choice"
    TEXT = "text"
    CLAIM = "claim"
    PRESENCE = "presence"


class Judged(StrEnum):
    """How an attribute is judged; `INPUT` and `IDENTITY` never are."""

    IDENTITY = "identity"
    INPUT = "input"
    BAND = "band"
    MORE = "more"
    LESS = "less"
    RANK = "rank"
    PRESENCE = "presence"
    FAULT = "fault"
    AMPLE = "ample"
    DIFFERENT = "different"


class Support(StrEnum):
    """How well a judgement is supported."""

    STANDARD = "standard"
    ENGINEERING = "engineering"
    OPINION = "opinion"


@dataclass(frozen=True)
class Choice:
    """One answer to choose: a stable key and what is shown."""

    key: str
    label: str


@dataclass(frozen=True)
class Range:
    """An inclusive range in the attribute's unit."""

    low: float
    high: float

    def holds(self, value: float) -> bool:
        """Whether `value` lies inside, ends included."""
        return self.low <= value <= self.high


@dataclass(frozen=True)
class Attribute:
    """One thing to record about a component.

    `unit` and `inch_unit` are unit registry names ("millimeter", "inch"); a bare number is in
    `unit`, or in `inch_unit` when the reviewer works in inches. `dimension` is a plain word
    ("length", "mass", "pressure" ...), "" for words. `repeats` is how many readings are asked.
    `comparable_when` names what must agree between two specimens before their values may be
    compared: "contact_pressure", "set_up" (one and the same set-up of a microscope), or an
    attribute's key such as "media_state". `usual` says whether a new line-up asks for it without
    being told to. `instrument` is the kind of instrument usually used, "" for the eye.
    `specimen_field` names the field of Specimen that keeps the answer when it is given in the
    line-up and not at the bench (price, lot, origin). `copied` marks a number that is copied off
    the box or the can: nobody measured it here, so it has no uncertainty of ours.
    """

    key: str
    label: str
    help: str
    station: str
    component: Component
    kind: Kind
    judged: Judged
    support: Support
    source: str
    method: str
    dimension: str = ""
    unit: str = ""
    inch_unit: str = ""
    soft: Range | None = None
    hard: Range | None = None
    repeats: int = 1
    choices: tuple[Choice, ...] = ()
    comparable_when: tuple[str, ...] = ()
    instrument: str = ""
    warning: str = ""
    usual: bool = True
    specimen_field: str = ""
    copied: bool = False

    @property
    def is_number(self) -> bool:
        """Whether the answer is a number (with or without a unit)."""
        return self.kind in (Kind.QUANTITY, Kind.COUNT)


@dataclass(frozen=True)
class Station:
    """One stop of the fixed sequence.

    `one_way` marks a step that cannot be taken back; `lost_after` says what can no longer be
    found out once it is taken; `cautions` are the usual ones for the work at this stop.
    """

    key: str
    label: str
    help: str
    one_way: bool = False
    lost_after: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True)
class Sequence:
    """The fixed order of stations for one kind of filter, and every attribute asked there."""

    key: str
    label: str
    version: str
    stations: tuple[Station, ...]
    attributes: tuple[Attribute, ...]

    def station(self, key: str) -> Station:
        """Return the station of that key; raises KeyError."""
        for station in self.stations:
            if station.key == key:
                return station
        raise KeyError(key)

    def attribute(self, key: str) -> Attribute:
        """Return the attribute of that key; raises KeyError."""
        for attribute in self.attributes:
            if attribute.key == key:
                return attribute
        raise KeyError(key)

    def at(self, station: str) -> tuple[Attribute, ...]:
        """Return the attributes asked at a station, in order."""
        return tuple(a for a in self.attributes if a.station == station)
