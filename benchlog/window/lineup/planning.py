"""The plan in hand: what was typed so far, taking it back, and putting it on the shelf."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QObject, QTimer, Signal

from benchlog.errors import PlanRefused
from benchlog.tasks import draft as drafts
from benchlog.tasks.draft import Draft
from benchlog.trade.attribute import Sequence
from benchlog.trade.sequence_file import load_sequence
from benchlog.window.desk import Desk
from benchlog.window.lineup.history import History

PAUSE_MS = 350


class Planning(QObject):
    """Holds one draft and forwards every change to it.

    `changed` follows each change; `refused` carries a PlanRefused when the draft cannot be put
    on the shelf as it stands (what was typed stays), `saved` follows when it could.
    """

    changed = Signal()
    refused = Signal(object)
    saved = Signal()

    def __init__(self, desk: Desk) -> None:
        super().__init__()
        self._desk = desk
        self.history = History()
        self.draft: Draft = self._fresh()
        self.current = self.draft.lineup.specimens[0].id
        self.on_shelf = False
        self.begun = False
        self._unsaved = False
        self._wanted_new = False
        self._set_aside: Draft | None = None
        self._soon = QTimer(self, singleShot=True, interval=PAUSE_MS)
        self._soon.timeout.connect(self.save)

    @property
    def sequence(self) -> Sequence:
        """The sequence that the plan follows."""
        return load_sequence(self.draft.lineup.sequence)

    @property
    def pending(self) -> bool:
        """Whether anything typed is not on the shelf."""
        return self._unsaved

    @property
    def keeping(self) -> bool:
        """Whether what was typed goes to the shelf in a moment, by itself."""
        return self._soon.isActive()

    def begin_new(self) -> None:
        """Begin a new plan, or go on with one that could not be put on the shelf yet.

        What was typed into the plan shown is kept first; while that is refused, it stays.
        """
        if self.on_shelf and not self.save_pending():
            return
        self._wanted_new = True
        if self.on_shelf:
            draft, self._set_aside = self._set_aside, None
            self._take(draft or self._fresh(), on_shelf=False)
            self._unsaved = draft is not None
            if self._unsaved and self.draft.lineup.name.strip():
                self._soon.start()
            self.changed.emit()

    def take_in_hand(self) -> None:
        """Show the line-up that is in hand, unless it is the one shown already."""
        teardown = self._desk.teardown
        if (
            self._wanted_new
            or teardown is None
            or (self.on_shelf and teardown.lineup == self.draft.lineup)
        ):
            return
        if not (self._unsaved and teardown.lineup.id == self.draft.lineup.id):
            self._take(Draft(teardown.lineup), on_shelf=True)

    def take_other(self) -> None:
        """Show the line-up that was just taken in hand; an unfinished new plan is set aside."""
        if self._unsaved and not self.on_shelf:
            self._set_aside = self.draft
            self._unsaved = False
        self._wanted_new = False
        self.take_in_hand()

    def choose(self, specimen_id: str) -> None:
        """Show another specimen."""
        self.current = specimen_id
        self.changed.emit()

    # --- changes -----------------------------------------------------------------------------

    def edit_heading(self, name: str, value: object) -> None:
        """Change the line-up's name, question, reviewer or kind."""
        if name == "sequence":
            self._change(drafts.of_kind(self.draft, load_sequence(str(value))), name, "kind")
        else:
            self._change(drafts.with_heading(self.draft, **{name: value}), name, name)

    def edit_specimen(self, name: str, value: object) -> None:
        """Change one field of the specimen shown."""
        changed = drafts.with_specimen(self.draft, self.current, **{name: value})
        words = name.replace("_text", "").replace("_", " ")
        self._change(changed, f"{self.current}/{name}", f"{words} of {self._nickname()}")

    def ask(self, keys: tuple[str, ...]) -> None:
        """Change what will be asked."""
        self._change(drafts.asking(self.draft, self.sequence, keys), "asked", "what is asked")

    def add(self) -> None:
        """Add a specimen and show it."""
        with_one_more, fresh = drafts.with_added(self.draft, self._desk.settings.currency)
        self._change(with_one_more, "", "a specimen added", show=fresh)

    def remove(self) -> None:
        """Take the specimen shown out of the line-up; raises PlanRefused when it has to stay."""
        ids = [s.id for s in self.draft.lineup.specimens]
        here = ids.index(self.current)
        after = (ids[here + 1 :] or ids[:here] or ids)[-1 if here + 1 >= len(ids) else 0]
        shelf, lineup_id = self._desk.workshop.shelf, self.draft.lineup.id
        read = {r.specimen_id for r in shelf.readings(lineup_id)} if self.on_shelf else set()
        left = drafts.without(self.draft, self.current, read)
        self._change(left, "", f"{self._nickname()} removed", show=after)

    def move(self, by: int) -> None:
        """Move the specimen shown in bench order."""
        moved = drafts.moved(self.draft, self.current, by)
        self._change(moved, "", f"{self._nickname()} moved")

    def take_back(self) -> None:
        """Take the latest change back."""
        before = self.history.take_back()
        if before is not None:
            self._show(before, self.current)

    def guarded(self, verb: Callable[[], None]) -> None:
        """Run a change; a refusal is told beside the form."""
        try:
            verb()
        except PlanRefused as refusal:
            self.refused.emit(refusal)

    # --- keeping -----------------------------------------------------------------------------

    def save(self) -> bool:
        """Put the plan on the shelf; whether that could be done."""
        self._soon.stop()
        try:
            lineup = drafts.save_draft(self._desk.workshop.shelf, self.draft)
        except PlanRefused as refusal:
            self.refused.emit(refusal)
            return False
        except Exception as fault:  # disk full and the like: told, text kept
            self._desk.faults.handle(fault)
            return False
        self.draft = Draft(lineup)
        self._unsaved = False
        self._wanted_new = False
        self.on_shelf = True
        if self._desk.lineup_id == lineup.id:
            self._desk.reload()
        else:
            self._desk.open_lineup(lineup.id)
        self.saved.emit()
        return True

    def save_pending(self) -> bool:
        """Put on the shelf what is not there yet; True when nothing is left unsaved."""
        return not self._unsaved or self.save()

    # --- inside ------------------------------------------------------------------------------

    def _fresh(self) -> Draft:
        settings = self._desk.settings
        clock = self._desk.workshop.clock
        return drafts.fresh_draft(clock, settings.reviewer, settings.currency)

    def _take(self, draft: Draft, *, on_shelf: bool) -> None:
        self._soon.stop()
        self.history.forget()
        self.draft = draft
        self.current = draft.lineup.specimens[0].id
        self.on_shelf = on_shelf
        self._unsaved = False
        shelf = self._desk.workshop.shelf
        self.begun = on_shelf and bool(shelf.readings(draft.lineup.id))
        self.changed.emit()

    def refresh_begun(self) -> None:
        """Look whether readings have come in meanwhile."""
        shelf = self._desk.workshop.shelf
        self.begun = self.on_shelf and bool(shelf.readings(self.draft.lineup.id))

    def _change(self, draft: Draft, thing: str, what: str, *, show: str = "") -> None:
        if draft != self.draft:
            self.history.note(self.draft, thing, what)
            self._show(draft, show or self.current)

    def _show(self, draft: Draft, current: str) -> None:
        ids = [s.id for s in draft.lineup.specimens]
        self.draft = draft
        self.current = current if current in ids else ids[0]
        self._unsaved = True
        if self.on_shelf or draft.lineup.name.strip():
            self._soon.start()
        self.changed.emit()

    def _nickname(self) -> str:
        return self.draft.specimen(self.current).nickname or "a specimen"
