"""Where the answer is typed: one large field that shrinks its letters before it cuts any off."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QSizePolicy, QVBoxLayout

from benchlog.tasks.bench_view import Asked
from benchlog.trade.attribute import Kind
from benchlog.window.theme import px, sized

LARGE, WORDS, LEAST = 106, 44, 22
"""Letter sizes: figures stand a tenth of a 768 high window tall (106 × 0.73 ≥ 77)."""


class EntryField(QLineEdit):
    """The field itself. Dropped files go to the bench around it."""

    def __init__(self) -> None:
        super().__init__(objectName="entry")
        self.setProperty("bare", "true")
        self.setAcceptDrops(False)
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.NoContextMenu)
        self._largest = LARGE
        sized(self, LARGE, bold=True, numeral=True)
        self.textChanged.connect(self.fit)

    def let_letters_stand(self, size: int) -> None:
        """Set how large the letters stand while there is room."""
        self._largest = size
        self.fit()
        self.updateGeometry()

    def fit(self) -> None:
        """Shrink the letters until all that is typed can be seen."""
        for size in range(self._largest, LEAST - 1, -6):
            sized(self, size, bold=True, numeral=True)
            words = self.text() or self.placeholderText()
            if self.fontMetrics().horizontalAdvance(words) <= self.width() - px(12):
                break

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.fit()

    def minimumSizeHint(self) -> QSize:
        return QSize(px(120), round(px(self._largest) * 1.2))

    sizeHint = minimumSizeHint  # noqa: N815 - Qt's name


class EntryBox(QFrame):
    """The entry with what it expects above it."""

    def __init__(self) -> None:
        super().__init__()
        self.setProperty("card", "true")
        self.setProperty("live", "true")
        self.caption = QLabel("Type the value", objectName="entryCaption")
        self.caption.setProperty("tone", "dim")
        self.unit = QLabel(objectName="entryUnit")
        self.unit.setProperty("tone", "dim")
        self.field = EntryField()
        sized(self.caption, 15)
        sized(self.unit, 30, bold=True)
        line = QHBoxLayout()
        line.addWidget(self.field, 1)
        line.addWidget(self.unit, 0, Qt.AlignmentFlag.AlignBottom)
        column = QVBoxLayout(self)
        column.setContentsMargins(12, 4, 12, 4)
        column.setSpacing(0)
        column.addWidget(self.caption)
        column.addLayout(line, 1)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)

    def show_asked(self, asked: Asked | None) -> None:
        """Say what the entry expects."""
        self.setEnabled(asked is not None)
        self.unit.setText(asked.unit if asked else "")
        caption = expected(asked)
        self.caption.setText(caption)
        label = asked.attribute.label if asked else "nothing asked"
        self.field.setAccessibleName(f"Answer: {label}")
        self.field.setAccessibleDescription(caption)
        number = asked is not None and asked.attribute.is_number
        self.field.let_letters_stand(LARGE if number else WORDS)


def expected(asked: Asked | None) -> str:
    """Return what the entry expects, in one line."""
    if asked is None:
        return "Nothing is asked here"
    if asked.choices:
        keys = "1" if len(asked.choices) == 1 else f"1 to {len(asked.choices)}"
        yes_no = ", y or n," if asked.attribute.kind is Kind.PRESENCE else ""
        return f"Press {keys}{yes_no} or type the first letters"
    if asked.attribute.kind is Kind.COUNT:
        return "Type the count"
    if asked.attribute.is_number:
        plain = f"a bare number is in {asked.unit}" if asked.unit else "a bare number"
        return f"Type the value; {plain}"
    return "Type it word for word"


def one_key_answer(asked: Asked | None, sign: str) -> str:
    """Return the whole answer that one key gives on an empty entry; "" when it gives none.

    A digit that could be the beginning of a larger number waits for Enter.
    """
    if asked is None or not asked.choices:
        return ""
    if asked.attribute.kind is Kind.PRESENCE and sign.casefold() in ("y", "n"):
        return "yes" if sign.casefold() == "y" else "no"
    if len(sign) != 1 or sign not in "123456789":
        return ""
    numbers = [str(n) for n in range(1, len(asked.choices) + 1)]
    return sign if [n for n in numbers if n.startswith(sign)] == [sign] else ""
