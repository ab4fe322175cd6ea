"""Walk a teardown: what is asked next, what was answered, and where the bench stands."""

from __future__ import annotations

from dataclasses import replace

from benchlog.errors import EntryRefused, PlanRefused
from benchlog.measure.reading import Reading, Source
from benchlog.measure.state import MEANING, State
from benchlog.tasks.answer import Answer, understand, with_si
from benchlog.tasks.bench_view import Accepted, BenchView
from benchlog.tasks.check_book import CheckBook
from benchlog.tasks.doubt import Doubter
from benchlog.tasks.group_scratch import refuse_a_group
from benchlog.tasks.look import look, told, tool_in_hand
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Moment, Place, Shelf, Weight
from benchlog.tasks.sealed import readings_to_show
from benchlog.tasks.slots import Slot, by_slot, is_answered, next_open, round_of
from benchlog.tasks.withdrawing import withdrawal_of
from benchlog.trade.attribute import Attribute, Sequence


class Teardown:
    """One line-up at the bench.

    Every verb that stores something has stored it durably when it returns; whatever raises has
    stored nothing and moved nowhere. The place is kept after every move, so that a bench opened
    again stands where it stood.
    """

    def __init__(
        self, shelf: Shelf, clock: Clock, sequence: Sequence, lineup_id: str, *, inch: bool = False
    ) -> None:
        self._shelf = shelf
        self._clock = clock
        self.sequence = sequence
        self.lineup = shelf.lineup(lineup_id)
        self.inch = inch
        self._doubter = Doubter(shelf, self.lineup, sequence)
        self._checked = CheckBook(shelf, clock, lineup_id)
        self._began = clock.seconds()
        self._readings = readings_to_show(shelf, lineup_id)
        self._taken = by_slot(self._readings)
        self._last = ""
        self._kept = shelf.place(lineup_id)
        self.place = self._kept or self._first_place()
        self._mend_place()

    # --- looking -------------------------------------------------------------------------

    @property
    def readings(self) -> tuple[Reading, ...]:
        """All readings of the line-up but those under seal, superseded ones too, oldest first."""
        return tuple(self._readings)

    def standing_readings(self, slot: Slot) -> tuple[Reading, ...]:
        """Return the readings of a slot that stand, in the order of their repeats."""
        return tuple(self._taken.get(slot, ()))

    @property
    def slot(self) -> Slot | None:
        """What is asked now; None at a station with nothing to ask."""
        if not self.place.attribute:
            return None
        return Slot(self.place.attribute, self.place.specimen_id)

    @property
    def yes_wanted(self) -> bool:
        """Whether the deliberate yes of a one-way station is still owed."""
        station = self.sequence.station(self.place.station)
        return station.one_way and station.key not in self.place.passed

    @property
    def session_s(self) -> float:
        """Seconds since this bench session began, for what is noted beside the readings."""
        return self._session()

    def view(self) -> BenchView:
        """Return all that the bench shows now."""
        return look(
            self.lineup,
            self.sequence,
            self.place,
            self._taken,
            self._shelf.instruments(),
            inch=self.inch,
            last=self._last,
            can_scratch=self._last_standing() is not None,
            checked=self._checked,
            readings=self._readings,
            photos=self._shelf.photos(self.lineup.id),
        )

    # --- answering -----------------------------------------------------------------------

    def accept(self, text: str, *, sure: bool = False, reason: str = "") -> Accepted:
        """Store what was typed for the slot that is asked, and go on.

        Raises EntryRefused when it cannot be understood; AskAgain when it is outside the usual
        range, contradicts other readings of the filter or disagrees with its repeats, and is not
        `sure`, or when it is outside the possible range and without a typed `reason`.
        """
        attribute = self._asked_attribute()
        answer = understand(attribute, text, inch=self.inch)
        return self._store(attribute, answer, sure=sure, reason=reason)

    def accept_weight(
        self,
        weight: Weight,
        *,
        source: Source = Source.SCALE,
        sure: bool = False,
        reason: str = "",
    ) -> Accepted:
        """Store a weight from the scale for the slot that is asked; errors as `accept`."""
        attribute = self._asked_attribute()
        if attribute.dimension != "mass":
            raise EntryRefused(
                f"A weight came in, but {attribute.label} is asked.",
                "Go to a weight first, or type the value.",
            )
        if weight.said is None:
            raise EntryRefused("The scale shows no weight.", "Take the load off and try again.")
        answer = Answer(State.MEASURED, weight.said.text, said=weight.said)
        return self._store(
            attribute, answer, sure=sure, reason=reason, source=source, raw=weight.raw
        )

    def estimate(self, text: str, *, sure: bool = False, reason: str = "") -> Accepted:
        """Store what was typed as an estimate; errors as `accept`."""
        attribute = self._asked_attribute()
        if not attribute.is_number:
            raise EntryRefused(
                f"{attribute.label} is not a number, so it cannot be an estimate.",
                "Choose 'could not tell' if it stayed unclear.",
            )
        marked = text if text.strip().startswith("~") else f"~{text.strip()}"
        return self.accept(marked, sure=sure, reason=reason)

    def no_value(self, state: State, reason: str = "") -> Accepted:
        """Store why there is no value for the slot that is asked, and go on."""
        if state.has_value:
            raise EntryRefused(f"'{state}' needs a value.", "Type the value instead.")
        attribute = self._asked_attribute()
        return self._store(attribute, Answer(state, MEANING[state]), sure=True, reason=reason)

    def scratch_last(self) -> str:
        """Take the latest standing reading back and return to its slot; says what was scratched.

        The reading stays in the log, superseded by its withdrawal. Raises EntryRefused when
        there is nothing to scratch, and where a whole group was corrected last.
        """
        last = self._last_standing()
        if last is None:
            raise EntryRefused("There is nothing to scratch.", "")
        refuse_a_group(last, self._readings, self._checked.taken_back)
        withdrawal = withdrawal_of(
            last, self._clock, "scratched at the bench", self._session(), "scratched"
        )
        self._add(withdrawal, Slot(last.attribute, last.specimen_id))
        self._last = f"Scratched: {told(last, self.lineup, self.sequence)}"
        return self._last

    def put_back(self) -> Accepted:
        """Undo the latest scratch, when nothing was entered since; raises EntryRefused."""
        last = self._readings[-1] if self._readings else None
        if last is None or not last.withdrawn:
            raise EntryRefused("There is no scratch to undo.", "")
        scratched = next(r for r in self._readings if r.id == last.supersedes)
        back = replace(
            scratched,
            id=new_id(),
            at=self._clock.now(),
            session_s=self._session(),
            supersedes=last.id,
        )
        return self._keep_and_go_on(back)

    def flag(self, label: str = "") -> Moment:
        """Mark this moment of the session for the editor."""
        station = self.sequence.station(self.place.station)
        moment = Moment(
            new_id(), self.lineup.id, self._clock.now(), self._session(), label or station.label
        )
        self._shelf.add_moment(moment)
        self._last = f"Flagged: {moment.label}"
        return moment

    # --- moving --------------------------------------------------------------------------

    def next(self) -> None:
        """Go to the next slot of the round, answered or not; past the last, to the next station."""
        round_ = self._round()
        here = self.slot
        if here in round_ and round_.index(here) + 1 < len(round_):
            self._move(round_[round_.index(here) + 1])
        else:
            self.next_station()

    def back(self) -> None:
        """Go one slot back in the round; before its first, to the station before."""
        round_ = self._round()
        here = self.slot
        if here in round_ and round_.index(here) > 0:
            self._move(round_[round_.index(here) - 1])
            return
        position = self._station_position()
        if position > 0:
            before = self.sequence.stations[position - 1].key
            self.place = replace(self.place, station=before)
            self._move(next(reversed(self._round()), None))

    def next_station(self) -> None:
        """Go to the next station; stays at the last one, and at a one-way one until the yes."""
        if self.yes_wanted:
            return
        position = self._station_position()
        if position + 1 < len(self.sequence.stations):
            self.go_to_station(self.sequence.stations[position + 1].key)

    def go_to_station(self, key: str) -> None:
        """Go to a station: to its first open slot, or its first one when all are answered."""
        self.sequence.station(key)
        round_ = round_of(self.sequence, self.lineup, key, by_specimen=self.place.by_specimen)
        slot = next_open(round_, None, self.sequence, self._taken) or (round_ or (None,))[0]
        self.place = replace(self.place, station=key)
        self._move(slot)

    def go_to(self, attribute: str, specimen_id: str) -> None:
        """Go to one slot, at whatever station it is asked."""
        self._move(Slot(attribute, specimen_id))

    def switch_round(self) -> None:
        """Turn the round: one attribute over all specimens, or one specimen at a time."""
        self._stand(replace(self.place, by_specimen=not self.place.by_specimen))

    def say_yes(self) -> None:
        """The deliberate yes of a one-way station: it is done, and what is lost is lost."""
        if self.yes_wanted:
            station = self.sequence.station(self.place.station)
            self._stand(replace(self.place, passed=(*self.place.passed, station.key)))
            self.flag(f"{station.label}: done")
        if self.slot is None:
            self.next_station()

    def use_tool(self, instrument_id: str) -> None:
        """Take another instrument in hand; readings of its kind are taken with it from now on."""
        kinds = {i.id: i.kind.value for i in self._shelf.instruments()}
        if instrument_id not in kinds:
            raise PlanRefused("That instrument is not on the shelf.", "Add it to the shelf first.")
        tools = dict(self.place.tools) | {kinds[instrument_id]: instrument_id}
        self._stand(replace(self.place, tools=tuple(sorted(tools.items()))))

    def keep_half_typed(self, text: str) -> None:
        """Keep what is being typed, so that it survives a crash."""
        self._stand(replace(self.place, half_typed=text))

    def reload(self) -> None:
        """Read the line-up and its readings again after another task changed them."""
        self.lineup = self._shelf.lineup(self.lineup.id)
        self._doubter = Doubter(self._shelf, self.lineup, self.sequence)
        self._checked = CheckBook(self._shelf, self._clock, self.lineup.id)
        self._readings = readings_to_show(self._shelf, self.lineup.id)
        self._taken = by_slot(self._readings)
        self._mend_place()

    # --- inside --------------------------------------------------------------------------

    def _store(
        self,
        attribute: Attribute,
        answer: Answer,
        *,
        sure: bool,
        reason: str,
        source: Source = Source.TYPED,
        raw: bytes | None = None,
    ) -> Accepted:
        slot = Slot(attribute.key, self.place.specimen_id)
        reading = Reading(
            id=new_id(),
            lineup_id=self.lineup.id,
            specimen_id=slot.specimen_id,
            attribute=attribute.key,
            ordinal=1 + max((r.ordinal for r in self._taken.get(slot, [])), default=0),
            state=answer.state,
            text=answer.text,
            at=self._clock.now(),
            session_s=self._session(),
            source=source,
            said=answer.said,
            word=answer.word,
            instrument_id=self._tool_for(attribute) if answer.said else None,
            raw=raw,
            reason=reason,
        )
        fresh = with_si(reading)
        self._doubter.ask(fresh, self._taken, sure=sure, reason=reason)
        return self._keep_and_go_on(fresh)

    def _keep_and_go_on(self, reading: Reading) -> Accepted:
        slot = Slot(reading.attribute, reading.specimen_id)
        taken = by_slot([*self._readings, reading])
        following = slot
        if is_answered(self.sequence.attribute(reading.attribute), taken.get(slot, [])):
            following = next_open(self._round(), slot, self.sequence, taken) or slot
        self._add(reading, following)
        self._last = told(reading, self.lineup, self.sequence)
        return Accepted(reading, self._last)

    def _add(self, reading: Reading, following: Slot) -> None:
        """Store a reading together with where the bench goes on, so that a cut splits neither."""
        place = self._place_at(following)
        self._shelf.add_reading(reading, place)
        self.place = self._kept = place
        self._readings.append(reading)
        self._taken = by_slot(self._readings)

    def _asked_attribute(self) -> Attribute:
        if self.yes_wanted:
            raise EntryRefused(
                "This step cannot be taken back, and it is not confirmed yet.",
                "Read what will be lost, then confirm it first.",
            )
        if self.slot is None:
            raise EntryRefused("Nothing is asked at this station.", "Go to the next station.")
        return self.sequence.attribute(self.slot.attribute)

    def _tool_for(self, attribute: Attribute) -> str | None:
        tool = tool_in_hand(attribute, self.place, self._shelf.instruments())
        return tool.id if tool else None

    def _last_standing(self) -> Reading | None:
        standing_ids = {r.id for taken in self._taken.values() for r in taken}
        return next((r for r in reversed(self._readings) if r.id in standing_ids), None)

    def _round(self) -> tuple[Slot, ...]:
        return round_of(
            self.sequence, self.lineup, self.place.station, by_specimen=self.place.by_specimen
        )

    def _move(self, slot: Slot | None) -> None:
        self._stand(self._place_at(slot))

    def _stand(self, place: Place) -> None:
        """Stand there, on the shelf as here; standing still costs nothing."""
        if place != self._kept:
            self._shelf.save_place(place)
        self.place = self._kept = place

    def _place_at(self, slot: Slot | None) -> Place:
        return replace(
            self.place,
            station=self.sequence.attribute(slot.attribute).station if slot else self.place.station,
            attribute=slot.attribute if slot else "",
            specimen_id=slot.specimen_id if slot else "",
            half_typed="",
        )

    def _first_place(self) -> Place:
        station = self.sequence.stations[0].key
        first = next(iter(round_of(self.sequence, self.lineup, station, by_specimen=False)), None)
        return Place(
            self.lineup.id,
            station,
            first.attribute if first else "",
            first.specimen_id if first else "",
        )

    def _mend_place(self) -> None:
        """A line-up may have been replanned since the place was kept."""
        if self.slot is not None and self.slot not in self._round():
            self.go_to_station(self.place.station)

    def _station_position(self) -> int:
        return [s.key for s in self.sequence.stations].index(self.place.station)

    def _session(self) -> float:
        return self._clock.seconds() - self._began
