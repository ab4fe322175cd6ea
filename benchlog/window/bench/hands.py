"""The verbs of the bench: each forwards to the teardown and tells what came of it."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from PySide6.QtCore import QObject, Signal

from benchlog.errors import AskAgain, EntryRefused, WorldError
from benchlog.measure.state import State
from benchlog.tasks.bench_view import Accepted, BenchView
from benchlog.tasks.ports import Weight
from benchlog.tasks.walk import Teardown
from benchlog.window.faults import Faults


@dataclass(frozen=True)
class Attempt:
    """One answer on its way: typed text, or a caught weight."""

    text: str = ""
    weight: Weight | None = None
    estimate: bool = False


class Hands(QObject):
    """Does what the keys say to one teardown.

    `changed` carries the new view after every move; `accepted` and `moved` what to say of it;
    `refused` an EntryRefused or another fault of the world that stored nothing; `asked_again` an
    AskAgain: the same attempt once more keeps it, or a reason does where one is wanted.
    """

    changed = Signal(object)
    accepted = Signal(str)
    moved = Signal(str)
    refused = Signal(object)
    asked_again = Signal(object)
    held = Signal(object)

    def __init__(self, teardown: Teardown, faults: Faults) -> None:
        super().__init__()
        self.teardown = teardown
        self._faults = faults
        self._asked: Attempt | None = None
        self._reason_wanted = False
        self.held_weight: Weight | None = None

    @property
    def in_question(self) -> Attempt | None:
        """The attempt that AskAgain stands over, if any."""
        return self._asked

    def view(self) -> BenchView:
        """Return what the bench shows now."""
        return self.teardown.view()

    # --- answers ---------------------------------------------------------------------------

    def accept(self, text: str, reason: str = "") -> None:
        """Take what was typed; with nothing typed, the weight that was held back, if any."""
        if not text.strip() and self._asked is not None and self._asked.weight is not None:
            self._try(self._asked, reason)
        elif not text.strip() and self.held_weight is not None:
            self._try(Attempt(weight=self.held_weight), reason)
        else:
            self._try(Attempt(text=text), reason)

    def estimate(self, text: str, reason: str = "") -> None:
        """Take what was typed as an estimate."""
        self._try(Attempt(text=text, estimate=True), reason)

    def repeat_with(self, reason: str) -> None:
        """Try the attempt in question again, with the reason that was wanted."""
        if self._asked is not None:
            self._try(self._asked, reason)

    def weight_caught(self, weight: Weight, typed: str) -> None:
        """Take a weight from the scale, or hold it back while something else is being typed."""
        if typed.strip():
            self.held_weight = weight
            self.held.emit(weight)
            return
        self._try(Attempt(weight=weight), "")

    def no_value(self, state: State, reason: str) -> None:
        """Say why there is no value."""
        self._store(lambda: self.teardown.no_value(state, reason))

    def typed_anew(self) -> None:
        """What was typed changed: the question over the last attempt no longer stands."""
        self._asked = None
        self._reason_wanted = False

    def _try(self, attempt: Attempt, reason: str) -> None:
        sure = bool(reason) or (attempt == self._asked and not self._reason_wanted)
        try:
            done = self._forward(attempt, sure=sure, reason=reason)
        except AskAgain as question:
            self._asked, self._reason_wanted = attempt, question.reason_wanted
            self.asked_again.emit(question)
        except EntryRefused as refusal:
            self.refused.emit(refusal)
        except Exception as fault:
            self._stopped(fault)
        else:
            self._after(done)

    def _forward(self, attempt: Attempt, *, sure: bool, reason: str) -> Accepted:
        if attempt.weight is not None:
            return self.teardown.accept_weight(attempt.weight, sure=sure, reason=reason)
        if attempt.estimate:
            return self.teardown.estimate(attempt.text, sure=sure, reason=reason)
        return self.teardown.accept(attempt.text, sure=sure, reason=reason)

    # --- taking back, flagging, moving -----------------------------------------------------

    def scratch_last(self) -> None:
        """Take the latest reading back."""
        self._move(self.teardown.scratch_last)

    def put_back(self) -> None:
        """Undo the latest scratch."""
        self._store(self.teardown.put_back)

    def flag(self) -> None:
        """Mark this moment for the editor."""
        self._move(lambda: f"Flagged: {self.teardown.flag().label}")

    def next(self) -> None:
        """Leave the slot unanswered and go on."""
        self._move(self.teardown.next)

    def back(self) -> None:
        """Go one slot back."""
        self._move(self.teardown.back)

    def next_station(self) -> None:
        """Go on to the next station, whatever the round still holds."""
        self._move(self.teardown.next_station)

    def go_to_station(self, key: str) -> None:
        """Go to a station."""
        self._move(lambda: self.teardown.go_to_station(key))

    def go_to(self, attribute: str, specimen_id: str) -> None:
        """Go to one slot of this station."""
        self._move(lambda: self.teardown.go_to(attribute, specimen_id))

    def switch_round(self) -> None:
        """Turn the round."""
        self._move(self.teardown.switch_round)

    def say_yes(self) -> None:
        """Pass a one-way station."""
        self._move(self.teardown.say_yes)

    def use_tool(self, instrument_id: str) -> None:
        """Take another instrument in hand."""
        self._move(lambda: self.teardown.use_tool(instrument_id))

    def keep_half_typed(self, text: str) -> None:
        """Keep what is being typed on the shelf."""
        with self._faults.guarded():
            self.teardown.keep_half_typed(text)

    # --- inside ----------------------------------------------------------------------------

    def _store(self, verb: Callable[[], Accepted]) -> None:
        try:
            done = verb()
        except Exception as fault:
            self._stopped(fault)
        else:
            self._after(done)

    def _move(self, verb: Callable[[], object]) -> None:
        try:
            said = verb()
        except Exception as fault:
            self._stopped(fault)
        else:
            self.typed_anew()
            self.changed.emit(self.view())
            self.moved.emit(said if isinstance(said, str) else "")

    def _after(self, done: Accepted) -> None:
        self.held_weight = None
        self.typed_anew()
        self.changed.emit(self.view())
        self.accepted.emit(done.message)

    def _stopped(self, fault: Exception) -> None:
        if isinstance(fault, WorldError):
            self.refused.emit(fault)
        else:
            self._faults.handle(fault)
