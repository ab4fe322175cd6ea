"""The page of pictures: the next field large, the picture with what was found, and its verdict."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from PySide6.QtCore import QObject, Qt, Signal
from PySide6.QtGui import QDragEnterEvent, QDropEvent
from PySide6.QtWidgets import QWidget

from benchlog.errors import AskAgain, WorldError
from benchlog.measure.micrograph import Micrograph, PictureGate
from benchlog.tasks.field_order import FieldStanding, FieldState, WantedField, field_words
from benchlog.tasks.fields import KeptAnswer
from benchlog.tasks.picture_ports import PictureMeasurer
from benchlog.tasks.set_ups import scale_words
from benchlog.window.bench.pictures_in import Incoming
from benchlog.window.desk import Desk
from benchlog.window.faults import in_plain_words
from benchlog.window.keys import KeyMap, plain_key
from benchlog.window.microscope import pictures_layout
from benchlog.window.microscope.field_taking import FieldTaking
from benchlog.window.microscope.field_words import (
    figure_lines,
    left_behind,
    refused_at_once,
    show_verdict,
)
from benchlog.window.microscope.fields_now import FieldsNow, Sides, keep_wishes
from benchlog.window.microscope.marks_paint import Overlay
from benchlog.window.microscope.measuring import Measuring, Task
from benchlog.window.microscope.picture_keys import (
    PictureKeys,
    Wish,
    useless_wishes,
    wish_keys,
)
from benchlog.window.microscope.pictures_coming import PicturesComing
from benchlog.window.microscope.pictures_dialogs import PictureDialogs
from benchlog.window.microscope.shown_field import ShownField
from benchlog.window.sounds import Sound, Sounds

NO_SET_UP = "No set-up yet: make one first, from a picture of a stage micrometer."


class PicturesPage(QWidget):
    """Draws how the fields stand and forwards every wish; `left` leads back to the bench."""

    left = Signal()

    def __init__(
        self, desk: Desk, measurer: PictureMeasurer, measuring: Measuring, sounds: Sounds
    ) -> None:
        super().__init__()
        self._desk, self._measuring = desk, measuring
        self._sounds = sounds
        self._gates: dict[str, tuple[PictureGate, ...]] = {}
        self.now = FieldsNow(desk)
        self.parts = pictures_layout.furnish(self, desk, measuring)
        self.keys = PictureKeys(desk.workshop.clock.seconds, self)
        self.taking = FieldTaking(desk, self.now, measurer, measuring)
        self.shown = ShownField(desk, measurer, self.parts.view)
        self.dialogs = PictureDialogs(desk, measurer, self, self.take_focus)
        self.coming = PicturesComing(desk, self)
        self.coming.last_folder = self.now.wishes.folder
        self.setAcceptDrops(True)
        self._connect()
        self._take_settings()
        self.parts.fields.setValue(self.now.wishes.fields)
        self.parts.sides.setCurrentIndex(self.parts.sides.findData(self.now.wishes.sides))
        self.parts.overlays[Overlay.NOTHING].setChecked(True)
        self._view(0)

    def enter(self) -> None:
        """Show what is so now, measure what was left, and take the keys."""
        self.refresh()
        if self.parts.list.here is None:
            self.parts.list.choose(self.now.wanted)
        self.taking.measure_left()
        self.take_focus()
        if self.now.set_up is None:
            self.parts.strip.plain(NO_SET_UP)
            self.parts.set_up.setFocus()

    def take_focus(self) -> None:
        """Put the focus where the next key belongs."""
        pictures = self.parts.pages.currentIndex() == 0
        first = self.parts.list if pictures else self.parts.media.first
        first.setFocus(Qt.FocusReason.OtherFocusReason)

    def rescaled(self) -> None:
        """Follow the window's size."""
        pictures_layout.rescale(self.parts)
        self.refresh()

    # --- showing ---------------------------------------------------------------------------

    def refresh(self) -> None:
        """Read how everything stands and show it."""
        with self._desk.faults.guarded():
            self.now.read()
            self._show_next()
            self.parts.list.show_fields(self.now.standings, self.now.specimen, self.now.wanted)
            self._show_field()
            self._show_set_up()

    def _show_next(self) -> None:
        wanted = self.now.wanted
        banner = self.parts.banner
        banner.setVisible(wanted is not None)
        self.parts.done.setVisible(wanted is None)
        if wanted is None:
            return
        of = max(self.now.fields_of(wanted), wanted.field)
        again = self.now.standing(wanted)
        more = ", again" if again and again.micrograph else ""
        words = f"{wanted.side} · field {wanted.field} of {of}{more}"
        banner.show_specimen(self.now.specimen(wanted.specimen_id), words)

    @property
    def here(self) -> FieldStanding | None:
        """The field that is looked at."""
        return self.now.standing(self.parts.list.here)

    def _show_field(self) -> None:
        one = self.here
        used = self.now.used_by(one) if one else None
        name = self._name(one.field) if one else ""
        words = f"{name}: no picture yet." if one else "Choose a field in the list."
        self.shown.show(one, used, f"{name}, {one.state}" if one and one.micrograph else words)
        under_way = bool(one and one.micrograph and self._measuring.has(one.micrograph.id))
        gates = self._gates.get(one.micrograph.id, ()) if one and one.micrograph else ()
        show_verdict(self.parts.gates, one, gates, under_way=under_way)
        self.parts.gates.show_figures(figure_lines(one.answer if one else None))
        self._show_keys()

    def _show_set_up(self) -> None:
        used = self.now.set_up
        self.parts.set_up_words.setText(f"{used.name}: {scale_words(used)}" if used else NO_SET_UP)

    def _show_keys(self) -> None:
        useless = self._useless()
        self.parts.legend.show_state(useless)
        for wish, button in self.parts.buttons.items():
            button.setEnabled(wish not in useless)

    def _useless(self) -> frozenset[Wish]:
        one = self.here
        return useless_wishes(
            media=self.parts.pages.currentIndex() == 1,
            field=one is not None,
            picture=one is not None and one.micrograph is not None,
            in_view=self.parts.view.has_picture,
            measuring=self._measuring.now is not None,
        )

    def _name(self, field: WantedField) -> str:
        teardown = self._desk.teardown
        assert teardown is not None
        return field_words(teardown.lineup, field)

    # --- wishes ----------------------------------------------------------------------------

    def act(self, wish: Wish) -> None:
        """Do what a key or a click asks for, where it has a use."""
        if wish in self._useless():
            return
        view = self.parts.view
        {
            Wish.BACK: self._leave,
            Wish.CHOOSE: self.coming.choose,
            Wish.PASTE: self.coming.paste,
            Wish.FOLDER: self.coming.switch_folder,
            Wish.RETAKE: self._retake,
            Wish.MORE: self._one_more,
            Wish.TAKE_BACK: self._take_back,
            Wish.MEASURE: self._measure,
            Wish.BEFORE: lambda: self.parts.list.step(-1),
            Wish.AFTER: lambda: self.parts.list.step(1),
            Wish.FLIP: lambda: view.choose(view.overlay.after),
            Wish.CLOSER: view.closer,
            Wish.FURTHER: lambda: view.closer(0.8),
            Wish.WHOLE: view.fit,
            Wish.SET_UP: self._open_set_ups,
            Wish.OTHER: lambda: self._view(1 - self.parts.pages.currentIndex()),
            Wish.STOP: self._measuring.cancel,
            Wish.SUM: self.parts.media.open_sum,
        }[wish]()

    def bring(self, pictures: Sequence[Incoming]) -> None:
        """Take pictures into the wanted fields."""
        if pictures:
            self.parts.yes.hide()
            self.taking.bring(pictures)

    def _leave(self) -> None:
        if self.taking.in_question:
            self._leave_question()
        else:
            self.left.emit()

    def _retake(self) -> None:
        if self.here is not None:
            self._want(self.here.field)

    def _one_more(self) -> None:
        if self.here is not None:
            self._want(self.now.one_more(self.here.field))

    def _want(self, field: WantedField) -> None:
        """Let the next picture go into this field."""
        self.now.asked_for = field
        self.refresh()
        self.parts.strip.plain(f"Next: {self._name(field)}.")

    def _take_back(self) -> None:
        one = self.here
        if one is None or one.micrograph is None:
            return
        try:
            self.taking.take_back(one.micrograph)
        except WorldError as refusal:
            self.parts.strip.refused(refusal)
            return
        self.refresh()
        self.parts.strip.plain(
            f"Taken back: {self._name(one.field)}. The photo stays among the photos."
        )

    def _measure(self) -> None:
        one = self.here
        if one is not None and one.micrograph is not None:
            self.taking.measure(one.micrograph)
            self._show_field()

    def _wish(self, **changes: object) -> None:
        """Keep a choice for this line-up."""
        self.now.wishes = replace(self.now.wishes, **changes)
        keep_wishes(self._desk, self.now.wishes)

    def _view(self, number: int) -> None:
        self.parts.pages.setCurrentIndex(number)
        for n, button in enumerate(self.parts.views):
            button.setChecked(n == number)
        self._show_keys()
        if self.isVisible():
            self.take_focus()

    # --- what came of it -------------------------------------------------------------------

    def _taken(self, micrograph: Micrograph, data: bytes) -> None:
        self.shown.keep(micrograph.photo_id, data)
        self.refresh()
        one = self.now.by_micrograph(micrograph.id)
        if one is not None:
            self.parts.list.choose(one.field)
            self.parts.strip.took(f"{self._name(one.field)} is on the shelf.")
            self._sounds.play(Sound.ACCEPTED)

    def _looked(self, micrograph_id: str, gates: Sequence[PictureGate]) -> None:
        self._gates[micrograph_id] = tuple(gates)
        one = self.now.by_micrograph(micrograph_id)
        if one is not None and one.answer is None and refused_at_once(gates):
            self.now.asked_for = one.field
            self._sounds.play(Sound.REFUSED)
        self.refresh()

    def _asked(self, question: AskAgain) -> None:
        self.parts.strip.asks(question)
        self.parts.yes.show()
        self.parts.yes.setFocus()
        self._sounds.play(Sound.ASKED_AGAIN)

    def _say_yes(self) -> None:
        self.parts.yes.hide()
        self.take_focus()
        self.taking.say_yes()

    def _leave_question(self) -> None:
        left = self.taking.forget_question()
        self.parts.yes.hide()
        self.parts.strip.plain(" ".join(filter(None, ("Not taken.", left_behind(left)))))
        self.take_focus()

    def _refused(self, fault: BaseException, left: int = 0) -> None:
        told = in_plain_words(fault)
        self.parts.strip.warns(" ".join(filter(None, (told.what, told.do, left_behind(left)))))
        self._sounds.play(Sound.REFUSED)
        if told.ours:
            self._desk.faults.handle(fault)

    def measured(self, task: Task, kept: KeptAnswer) -> None:
        """Show what measuring one picture of this line-up came to."""
        self.now.read()
        one = self.now.by_micrograph(task.micrograph_id)
        if one is not None and self.now.asked_for == one.field and one.state is FieldState.MEASURED:
            self.now.asked_for = None
        self.refresh()
        if kept.answer.verdict == "measured":
            self.parts.strip.took(" ".join((f"{task.title}: measured.", *kept.told)))
        else:
            self.parts.strip.warns(f"{task.title}: take it again. {kept.answer.reasons[0]}")

    def not_measured(self, task: Task, fault: BaseException) -> None:
        """Show why one picture of this line-up was not measured."""
        self.refresh()
        told = in_plain_words(fault)
        self.parts.strip.warns(f"{task.title}: {told.what} {told.do}".strip())

    # --- set-ups ---------------------------------------------------------------------------

    def _open_set_ups(self) -> None:
        used = self.now.set_up
        self.dialogs.open_set_ups(used.id if used else "", self.keys.keys[Wish.CHOOSE])

    def _use_set_up(self, set_up_id: str) -> None:
        self._wish(set_up=set_up_id)
        self.refresh()
        self.parts.strip.took(f"In use: {self.now.set_up.name}." if self.now.set_up else "")

    # --- drops -----------------------------------------------------------------------------

    def dragEnterEvent(self, event: QDragEnterEvent) -> None:
        if event.mimeData().hasUrls() or event.mimeData().hasImage():
            event.acceptProposedAction()

    def dropEvent(self, event: QDropEvent) -> None:
        event.acceptProposedAction()
        self.coming.drop(event.mimeData())

    # --- wiring ----------------------------------------------------------------------------

    def _connect(self) -> None:
        p = self.parts
        p.back.clicked.connect(self._leave)
        p.set_up.clicked.connect(self._open_set_ups)
        for number, button in enumerate(p.views):
            button.clicked.connect(lambda _=False, n=number: self._view(n))
        p.fields.valueChanged.connect(lambda n: (self._wish(fields=n), self.refresh()))
        p.sides.activated.connect(
            lambda _n: (self._wish(sides=Sides(p.sides.currentData())), self.refresh())
        )
        p.list.chosen.connect(lambda _field: self._show_field())
        p.list.opened.connect(self._want)
        for wish, button in p.buttons.items():
            button.clicked.connect(lambda _=False, w=wish: self.act(w))
        p.yes.hide()
        p.yes.clicked.connect(self._say_yes)
        for overlay, button in p.overlays.items():
            button.clicked.connect(lambda _=False, o=overlay: p.view.choose(o))
        p.view.overlay_changed.connect(self._show_overlay)
        p.legend.chosen.connect(self.act)
        p.media.sum_wanted.connect(self.dialogs.open_sum)
        self.dialogs.set_up_taken.connect(self._use_set_up)
        p.line.wanted.connect(lambda: p.line.say(""))
        self.keys.wished.connect(self.act)
        for widget in self._key_takers():
            self.keys.watch(widget)
        self.taking.taken.connect(self._taken)
        self.taking.looked.connect(self._looked)
        self.taking.asked.connect(self._asked)
        self.taking.refused.connect(self._refused)
        self.shown.told.connect(p.drawing.setText)
        self.shown.changed.connect(self._show_keys)
        self._measuring.changed.connect(self._show_keys)
        self.coming.came.connect(self.bring)
        self.coming.saved.connect(self.taking.follow)
        self.coming.said.connect(p.strip.plain)
        self.coming.refused.connect(self._refused)
        self.coming.watching.connect(self._watching)
        self._desk.settings_changed.connect(self._take_settings)

    def _key_takers(self) -> list[QObject]:
        p = self.parts
        return [
            p.back, *p.views, p.set_up, p.fields, p.sides, p.list, p.line.stop, *p.buttons.values(),
            p.yes, p.view, p.gates, *p.overlays.values(), *p.media.key_takers(),
            *p.legend.buttons.values(),
        ]  # fmt: skip

    def _show_overlay(self) -> None:
        for overlay, button in self.parts.overlays.items():
            button.setChecked(overlay is self.parts.view.overlay)

    def _watching(self, folder: str) -> None:
        if folder:
            self._wish(folder=folder)
        words = "Stop &watching" if folder else "&Watch folder…"
        self.parts.buttons[Wish.FOLDER].setText(words)
        self.parts.buttons[Wish.FOLDER].setAccessibleName(words.replace("&", ""))

    def _take_settings(self) -> None:
        keys = KeyMap.from_settings(self._desk.settings.keys)
        self.keys.keys = wish_keys(keys)
        self.parts.legend.show_keys(self.keys.keys)
        other = next(map(plain_key, self.keys.keys[Wish.OTHER]), "Media")
        self.parts.done.setText(f"Every field has its picture; {other} shows the media.")
        cap = next(map(plain_key, self.keys.keys[Wish.CHOOSE]), "no key")
        self.parts.buttons[Wish.CHOOSE].setToolTip(f"Choose a picture's file ({cap})")
