"""How the fields of the line-up in hand stand, and which one the next picture goes into."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum

from benchlog.measure.micrograph import MicroscopeSetUp, Side
from benchlog.tasks.field_order import (
    BOTH_SIDES,
    FIELDS_A_SIDE,
    FieldStanding,
    FieldState,
    WantedField,
    fields_in_order,
    fields_standing,
    further_field,
    next_field,
)
from benchlog.tasks.set_ups import current_set_ups
from benchlog.trade.specimen import Specimen
from benchlog.window.desk import Desk


class Sides(StrEnum):
    """Which sides of every medium are looked at."""

    BOTH = "both sides"
    IN = "inlet side"
    OUT = "outlet side"

    @property
    def asked(self) -> tuple[Side, ...]:
        """The sides to ask for."""
        return BOTH_SIDES if self is Sides.BOTH else (Side(self.value),)


@dataclass(frozen=True)
class Wishes:
    """What the reviewer chose for a line-up's pictures; `folder` is "" while none is watched."""

    fields: int = FIELDS_A_SIDE
    sides: Sides = Sides.BOTH
    set_up: str = ""
    folder: str = ""


class FieldsNow:
    """Reads the shelf when told to; in between it knows what was so."""

    def __init__(self, desk: Desk) -> None:
        self._desk = desk
        self.lineup_id = desk.lineup_id
        self.wishes = kept_wishes(desk)
        self.standings: tuple[FieldStanding, ...] = ()
        self.set_ups: tuple[MicroscopeSetUp, ...] = ()
        self.asked_for: WantedField | None = None
        """A field that the reviewer asked for; it goes before what the order wants."""

    def read(self) -> None:
        """Read how everything stands from the shelf."""
        shelf, teardown = self._desk.workshop.shelf, self._desk.teardown
        assert teardown is not None
        self.standings = fields_standing(
            fields_in_order(teardown.lineup, self.wishes.fields, self.wishes.sides.asked),
            shelf.micrographs(self.lineup_id),
            shelf.picture_answers(self.lineup_id),
        )
        self.set_ups = tuple(shelf.set_ups())

    @property
    def wanted(self) -> WantedField | None:
        """The field that the next picture goes into; None when all were measured."""
        return self.asked_for or next_field(self.standings)

    @property
    def set_up(self) -> MicroscopeSetUp | None:
        """The set-up in use: the one chosen, that of the latest picture, or the latest made."""
        current = {one.id: one for one in current_set_ups(self._desk.workshop.shelf)}
        taken = [s.micrograph.set_up_id for s in self.standings if s.micrograph]
        names = (self.wishes.set_up, *reversed(taken), *current)
        return next((current[name] for name in names if name in current), None)

    @property
    def done(self) -> tuple[int, int]:
        """How many fields were measured, of how many."""
        measured = sum(one.state is FieldState.MEASURED for one in self.standings)
        return measured, len(self.standings)

    def specimen(self, specimen_id: str) -> Specimen:
        """Return a specimen of the line-up."""
        teardown = self._desk.teardown
        assert teardown is not None
        return next(s for s in teardown.lineup.specimens if s.id == specimen_id)

    def standing(self, field: WantedField | None) -> FieldStanding | None:
        """Return how a field stands."""
        return next((one for one in self.standings if one.field == field), None)

    def by_micrograph(self, micrograph_id: str) -> FieldStanding | None:
        """Return the field in which a micrograph stands."""
        return next(
            (s for s in self.standings if s.micrograph and s.micrograph.id == micrograph_id), None
        )

    def knows(self, micrograph_id: str) -> bool:
        """Whether a micrograph belongs to this line-up, whether or not it stands."""
        micrographs = self._desk.workshop.shelf.micrographs(self.lineup_id)
        return any(one.id == micrograph_id for one in micrographs)

    def used_by(self, one: FieldStanding) -> MicroscopeSetUp | None:
        """Return the set-up that a field's picture was taken with."""
        used = one.micrograph.set_up_id if one.micrograph else ""
        return next((s for s in self.set_ups if s.id == used), None)

    def one_more(self, like: WantedField) -> WantedField:
        """Return the field after all those of one side of a specimen."""
        return further_field(self.standings, like.specimen_id, like.side)

    def fields_of(self, field: WantedField) -> int:
        """Return how many fields of its side and specimen there are."""
        here = (field.specimen_id, field.side)
        return sum((s.field.specimen_id, s.field.side) == here for s in self.standings)


def kept_wishes(desk: Desk) -> Wishes:
    """Return what was chosen for the line-up in hand on this machine."""
    kept = desk.settings.pictures.get(desk.lineup_id, {})
    try:
        return Wishes(
            fields=min(99, max(1, int(kept.get("fields", FIELDS_A_SIDE)))),
            sides=Sides(kept.get("sides", Sides.BOTH.value)),
            set_up=str(kept.get("set_up", "")),
            folder=str(kept.get("folder", "")),
        )
    except (AttributeError, TypeError, ValueError):
        return Wishes()


def keep_wishes(desk: Desk, wishes: Wishes) -> None:
    """Keep what was chosen for the line-up in hand."""
    kept = {
        "fields": wishes.fields,
        "sides": wishes.sides.value,
        "set_up": wishes.set_up,
        "folder": wishes.folder,
    }
    desk.change_settings(pictures={**desk.settings.pictures, desk.lineup_id: kept})
