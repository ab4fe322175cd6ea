"""The bench of one line-up: shows the view, sends keys to the hands, says what came of it."""

from __future__ import annotations

from PySide6.QtCore import QTimer, Signal
from PySide6.QtWidgets import QWidget

from benchlog.errors import AskAgain, EntryRefused, WorldError
from benchlog.measure.units import unit_symbol
from benchlog.tasks.bench_view import BenchView
from benchlog.tasks.fields import STATION
from benchlog.tasks.ports import ScaleState, Weight
from benchlog.window.bench import bench_layout
from benchlog.window.bench.bench_photos import BenchPhotos
from benchlog.window.bench.bench_scale import BenchScale, weight_words
from benchlog.window.bench.bench_sum import BenchSum
from benchlog.window.bench.done_words import done_words
from benchlog.window.bench.entry_row import one_key_answer
from benchlog.window.bench.habits import Habits
from benchlog.window.bench.hands import Hands
from benchlog.window.bench.key_router import KeyRouter
from benchlog.window.desk import Desk
from benchlog.window.keys import Action, KeyMap, LockOut, plain_key
from benchlog.window.sounds import Sound, Sounds


class Bench(QWidget):
    """Draws a BenchView and forwards every wish; the teardown decides.

    `fields_wanted` asks for the pictures of the media under the microscope.
    """

    fields_wanted = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        assert desk.teardown is not None
        self.desk = desk
        self.hands = Hands(desk.teardown, desk.faults)
        self.parts = bench_layout.furnish(self, desk)
        self.sounds = Sounds(wanted=desk.settings.sounds)
        self.scale = BenchScale(self.parts.scale, desk.faults)
        self.photos = BenchPhotos(self)
        self.sums = BenchSum(self)
        self.lock_out = LockOut(desk.workshop.clock.seconds)
        self.router = KeyRouter(self.parts.entry.field, self.lock_out, self._one_key)
        self._station_done = False
        self.habits = Habits(desk.workshop.clock.seconds)
        self.view: BenchView = self.hands.view()
        self._keep_soon = QTimer(self, singleShot=True, interval=0)
        self._keep_soon.timeout.connect(self._keep_half_typed)
        self._connect_parts()
        self._connect_hands()
        self._take_settings()
        self.setAcceptDrops(True)
        self.scale.attach_from(desk.settings)
        QTimer.singleShot(1500, self.sounds.prepare)
        self.show_view(self.view)
        if self.view.half_typed:
            self.parts.strip.plain("What was half typed is still here.")

    # --- showing ---------------------------------------------------------------------------

    def show_now(self) -> None:
        """Show what is so now; other places may have changed it."""
        self._keep_at_once()
        self.show_view(self.hands.view())

    def show_view(self, view: BenchView) -> None:
        """Draw a view."""
        self.view = view
        bench_layout.show(self.parts, view)
        self.photos.show(view)
        field = self.parts.entry.field
        if field.text() != view.half_typed:
            field.blockSignals(True)
            field.setText(view.half_typed)
            field.blockSignals(False)
            field.fit()
        self._show_keys()

    def take_focus(self) -> None:
        """Put the focus where the next key belongs."""
        if self.view.yes_wanted:
            self.parts.one_way.field.setFocus()
        elif self.parts.lower.currentWidget() is self.parts.no_value:
            self.parts.no_value.setFocus()
        elif self.parts.lower.currentWidget() is self.parts.finder:
            self.parts.finder.field.setFocus()
        else:
            self.parts.entry.field.setFocus()

    def rescaled(self) -> None:
        """Follow the window's size."""
        bench_layout.rescale(self.parts)

    # --- keys ------------------------------------------------------------------------------

    def act(self, action: Action) -> None:
        """Do what a key, a click on the legend or a digit of a panel asks for."""
        text = self.parts.entry.field.text()
        done, self._station_done = self._station_done, False
        self._keep_at_once()
        verbs = {
            Action.ACCEPT: lambda: self._accept(text),
            Action.ESTIMATE: lambda: self.hands.estimate(text),
            Action.NEXT: self.hands.next_station if done else self.hands.next,
            Action.BACK: self.hands.back,
            Action.SCRATCH: self.hands.scratch_last,
            Action.PUT_BACK: self.hands.put_back,
            Action.CLEAR: self._clear,
            Action.NO_VALUE: self._open_no_value,
            Action.FLAG: self.hands.flag,
            Action.GO_TO: self._open_finder,
            Action.ROUND: self.hands.switch_round,
            Action.PHOTO: self.photos.ask,
            Action.WEIGH: self.scale.poll,
            Action.TOOL: self._open_tools,
            Action.SUM: self.sums.open_here,
            Action.CHECK: lambda: self._open_dialog("checks"),
            Action.FIELDS: self.fields_wanted.emit,
        }
        if action is not Action.ACCEPT:
            self.habits.something_else()
        verbs[action]()

    def _accept(self, text: str) -> None:
        waiting = self.hands.held_weight is not None or self.hands.in_question is not None
        asked = self.view.asked
        weighable = asked is not None and asked.takes_weight and self.scale.attached
        if not text.strip() and self.habits.enter_meant_before(would_do=waiting or weighable):
            return
        if not text.strip() and not waiting and weighable:
            self.scale.poll()
            return
        self.hands.accept(text)

    def _one_key(self, sign: str) -> bool:
        answer = one_key_answer(self.view.asked, sign)
        if not answer or self.view.yes_wanted:
            return False
        if not self.lock_out.bounces(f"answer {answer}"):
            self.hands.accept(answer)
            self.habits.answered_by_one_key()
        return True

    def _clear(self) -> None:
        self.parts.entry.field.clear()
        self.take_focus()
        held = self.hands.held_weight
        if held is not None:
            words = weight_words(held, unit_symbol)
            self.parts.strip.held(f"{words} was caught. Press Enter to take it.")

    def _open_no_value(self) -> None:
        if self.view.asked is None or self.view.yes_wanted:
            self.parts.strip.plain("Nothing is asked here.")
            return
        bench_layout.show_panel(self.parts, self.parts.no_value)
        self.parts.no_value.open()

    def _open_finder(self) -> None:
        self.parts.work.setCurrentWidget(self.parts.asking)
        bench_layout.show_panel(self.parts, self.parts.finder)
        self.parts.finder.open(self.view.stations)

    def _open_tools(self) -> None:
        from benchlog.window.dialogs.instruments_dialog import (  # noqa: PLC0415 - on demand
            InstrumentsDialog,
        )

        kind = self.view.asked.attribute.instrument if self.view.asked else ""
        dialog = InstrumentsDialog(self.desk, kind, self)
        dialog.taken.connect(self.hands.use_tool)
        dialog.finished.connect(self.show_now)
        dialog.open()

    def _close_panel(self) -> None:
        bench_layout.show_panel(self.parts, self.parts.below)
        bench_layout.show(self.parts, self.view)
        self.take_focus()

    def _also(self, action: Action) -> None:
        self._close_panel()
        self.act(action)

    # --- what came of it -------------------------------------------------------------------

    def _changed(self, view: BenchView) -> None:
        self._station_done = False
        bench_layout.show_panel(self.parts, self.parts.below)
        self.show_view(view)
        self.take_focus()

    def _accepted(self, message: str) -> None:
        key = next(map(plain_key, self.router.keys.keys[Action.NEXT]), "'next'")
        done = done_words(self.view, key)
        self._station_done = bool(done)
        self.parts.strip.accepted(f"{message}.  {done}" if done else message)
        self.sounds.play(Sound.ACCEPTED)
        self.desk.recorded.emit()

    def _refused(self, fault: WorldError) -> None:
        self.parts.strip.refused(fault)
        self.sounds.play(Sound.REFUSED)
        if isinstance(fault, EntryRefused):
            self.take_focus()

    def _asked_again(self, question: AskAgain) -> None:
        self.parts.strip.asks_again(question)
        self._correct()
        self.sounds.play(Sound.ASKED_AGAIN)

    def _correct(self) -> None:
        """Back to the value, selected: what is typed next takes its place."""
        self.take_focus()
        self.parts.entry.field.selectAll()

    def _blocked(self, action: Action) -> None:
        self.parts.strip.refused(
            EntryRefused(
                f"'{action}' waits: something is typed.",
                "Accept it with Enter, or clear it first; nothing typed is thrown away.",
            )
        )

    def _weight_caught(self, weight: Weight) -> None:
        self.sounds.play(Sound.CAUGHT)
        self.hands.weight_caught(weight, self.parts.entry.field.text())

    def _held(self, weight: Weight) -> None:
        words = weight_words(weight, unit_symbol)
        self.parts.strip.held(
            f"{words} was caught while you were typing. Enter takes what is typed; "
            "clear it to take the weight."
        )

    def _typed(self) -> None:
        self.habits.something_else()
        self.hands.typed_anew()
        if self.parts.strip.tone == "warn" and self.hands.held_weight is None:
            self.parts.strip.plain("")
        self._keep_soon.start()
        self._show_keys()

    def _keep_at_once(self) -> None:
        """What is typed may not wait when the view is about to be drawn from what is kept."""
        if self._keep_soon.isActive():
            self._keep_soon.stop()
            self._keep_half_typed()

    def _keep_half_typed(self) -> None:
        self.hands.keep_half_typed(self.parts.entry.field.text())

    def go_to(self, attribute: str, specimen_id: str) -> None:
        """Go to one slot; half-typed text waits in its own."""
        self._go(self.hands.go_to, attribute, specimen_id)

    def _go(self, move: object, *where: str) -> None:
        """A click that would leave half-typed text behind waits, as a key does."""
        if self.parts.entry.field.text():
            self._blocked(Action.GO_TO)
        else:
            move(*where)

    # --- wiring ----------------------------------------------------------------------------

    def _connect_parts(self) -> None:
        p = self.parts
        p.entry.field.textChanged.connect(self._typed)
        p.choices.chosen.connect(self.hands.accept)
        p.strip.reason_given.connect(self.hands.repeat_with)
        p.strip.left.connect(self._correct)
        p.stations.wanted.connect(lambda key: self._go(self.hands.go_to_station, key))
        p.table.wanted.connect(self.go_to)
        p.table.sum_wanted.connect(lambda key, who: self.sums.open((key, who)))
        p.legend.chosen.connect(self.act)
        p.no_value.stored.connect(self.hands.no_value)
        p.no_value.also.connect(self._also)
        p.no_value.closed.connect(self._close_panel)
        p.finder.wanted.connect(self.hands.go_to_station)
        p.finder.closed.connect(self._close_panel)
        p.one_way.confirmed.connect(self.hands.say_yes)
        p.one_way.left.connect(self.hands.back)
        p.one_way.rules_wanted.connect(self.desk.rules_wanted)
        p.menu.wanted.connect(self._open_dialog)
        self.router.acted.connect(self.act)
        self.router.blocked.connect(self._blocked)
        for widget in bench_layout.key_takers(self.parts):
            self.router.watch(widget)
        p.entry.field.installEventFilter(p.strip)  # after the router, so that it is asked first

    def _connect_hands(self) -> None:
        h = self.hands
        h.changed.connect(self._changed)
        h.accepted.connect(self._accepted)
        h.moved.connect(self.parts.strip.plain)
        h.refused.connect(self._refused)
        h.asked_again.connect(self._asked_again)
        h.held.connect(self._held)
        self.scale.caught.connect(self._weight_caught)
        self.scale.state_changed.connect(self._scale_state)
        self.desk.settings_changed.connect(self._take_settings)

    def _scale_state(self, _state: ScaleState) -> None:
        self._show_keys()

    def _show_keys(self) -> None:
        useless = set()
        if not self.view.can_scratch:
            useless.add(Action.SCRATCH)
        if not self.scale.attached:
            useless.add(Action.WEIGH)
        if self.view.asked is None or not self.view.asked.attribute.is_number:
            useless.add(Action.ESTIMATE)
        typed = bool(self.parts.entry.field.text())
        # Nothing is weighed under the microscope, and nothing looked at through it elsewhere.
        elsewhere = Action.WEIGH if self.view.station.key == STATION else Action.FIELDS
        self.parts.legend.show_only(frozenset({elsewhere}))
        self.parts.legend.show_state(typed=typed, useless=frozenset(useless))

    def _take_settings(self) -> None:
        keys = KeyMap.from_settings(self.desk.settings.keys)
        self.router.keys = keys
        self.parts.legend.show_keys(keys)
        self.parts.asked.checks_key = next(map(plain_key, keys.keys[Action.CHECK]), "'Checks'")
        self.sounds.wanted = self.desk.settings.sounds
        self.show_now()
        self.rescaled()

    def _open_dialog(self, name: str) -> None:
        from benchlog.window.dialogs import open_dialog  # noqa: PLC0415 - on demand

        if name == "blind":
            self.desk.go_to.emit("verdict")
            self.desk.blind_wanted.emit()
            return
        open_dialog(name, self)

    # --- drops and pastes ------------------------------------------------------------------

    def dragEnterEvent(self, event: object) -> None:
        self.photos.drag_entered(event)

    def dropEvent(self, event: object) -> None:
        self.photos.dropped(event)
