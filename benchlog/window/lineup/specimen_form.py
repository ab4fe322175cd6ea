"""The form of one specimen: what it is, where it comes from, and who paid."""

from __future__ import annotations

from itertools import pairwise

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QGridLayout, QLineEdit, QWidget

from benchlog.tasks.draft import Draft, remarks_on
from benchlog.trade.specimen import Paid, Specimen
from benchlog.window.lineup.field import Field, line, show_text
from benchlog.window.lineup.tag_choice import Choices, ColourChoice, ShapeChoice

LINES = (
    ("nickname", "Nickname", "short, said aloud at the bench"),
    ("maker", "Maker", "as on the box"),
    ("part_number", "Part number", ""),
    ("lot", "Lot or date code", "as stamped, sign by sign"),
    ("origin_box", "Origin: the box says", "“not marked” if it says nothing"),
    ("origin_can", "Origin: the can says", "“not marked” if it says nothing"),
    ("origin_inferred", "Origin: you infer", "and from what"),
    ("giver", "Seller or giver", "shop, or who gave it"),
    ("price_text", "Price", "for example 8.90"),
    ("currency", "Currency", "for example EUR"),
    ("bought_on", "Bought or received on", "as 2026-03-02"),
    ("note", "Note", ""),
)

# Rows of (field, columns) on a grid six columns wide.
LAYOUT = (
    (("nickname", 2), ("shape", 2), ("colour", 2)),
    (("maker", 2), ("part_number", 2), ("lot", 2)),
    (("origin_box", 2), ("origin_can", 2), ("origin_inferred", 2)),
    (("paid", 3), ("giver", 3)),
    (("price_text", 2), ("currency", 2), ("bought_on", 2)),
    (("note", 6),),
)


class SpecimenForm(QWidget):
    """Shows one specimen; `edited` carries the name of a field and what is in it now."""

    edited = Signal(str, object)

    def __init__(self) -> None:
        super().__init__()
        self._fault = ("", "")
        self._remarks: dict[str, str] = {}
        self.shape, self.colour = ShapeChoice(), ColourChoice()
        self.paid = Choices("Who paid")
        for paid in Paid:
            self.paid.addItem(paid.value, paid)
        self.fields = {name: Field(label, line(hint)) for name, label, hint in LINES}
        self.fields["shape"] = Field("Tag shape", self.shape)
        self.fields["colour"] = Field("Tag colour", self.colour)
        self.fields["paid"] = Field("Who paid", self.paid)
        for name, field in self.fields.items():
            self._connect(name, field.editor)
        self._lay_out()

    def show_specimen(self, draft: Draft, specimen_id: str) -> None:
        """Show one specimen of a draft."""
        specimen = draft.specimen(specimen_id)
        for name, field in self.fields.items():
            if isinstance(field.editor, QLineEdit):
                show_text(field.editor, _text(draft, specimen, name))
        self.shape.show_specimen(specimen)
        self.colour.show_specimen(specimen)
        self.paid.show_choice(specimen.paid)
        owed = specimen.paid is Paid.UNANSWERED
        self.fields["paid"].show_note("viewers are owed this" if owed else "", owed=owed)
        self._remarks = remarks_on(draft, specimen_id)
        self.show_fault(*self._fault)

    def show_fault(self, name: str, words: str) -> None:
        """Show a fault beside one field, and beside the others what reads as unfinished."""
        self._fault = (name, words)
        wanted = "price_text" if name == "price" else name
        for key, field in self.fields.items():
            field.show_fault(words if key == wanted else self._remark_on(key))

    def _remark_on(self, name: str) -> str:
        """Return the remark on a field; a date is let be while it is being typed."""
        if name == "bought_on" and self.fields[name].editor.hasFocus():
            return ""
        return self._remarks.get(name, "")

    def _connect(self, name: str, editor: QWidget) -> None:
        if isinstance(editor, QLineEdit):
            editor.textEdited.connect(lambda text: self.edited.emit(name, text))
            editor.editingFinished.connect(lambda: self.show_fault(*self._fault))
        elif isinstance(editor, Choices):
            editor.chosen.connect(lambda data: self.edited.emit(name, data))

    def _lay_out(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(5)
        grid.setHorizontalSpacing(10)
        for row, fields in enumerate(LAYOUT):
            column = 0
            for name, wide in fields:
                grid.addWidget(self.fields[name], row, column, 1, wide, Qt.AlignmentFlag.AlignTop)
                column += wide
        for column in range(6):
            grid.setColumnStretch(column, 1)
        editors = [self.fields[name].editor for fields in LAYOUT for name, _ in fields]
        for before, after in pairwise(editors):
            QWidget.setTabOrder(before, after)


def _text(draft: Draft, specimen: Specimen, name: str) -> str:
    if name == "price_text":
        return draft.price_text(specimen.id)
    return str(getattr(specimen, name))
