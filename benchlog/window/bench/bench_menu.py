"""Small buttons to the bench's dialogs, and to judging blind."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QHBoxLayout, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from benchlog.window import icons
from benchlog.window.theme import colours, px, sized

ENTRIES = {
    "tool": "Instruments",
    "checks": "Checks",
    "scale": "Scale",
    "keys": "Keys",
    "settings": "Settings",
    "blind": "Blind",
}
ABOVE = 2


class BenchMenu(QWidget):
    """Two buttons with icons above four without; `wanted` carries the name of one."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self.buttons = {name: self._made(name, label) for name, label in ENTRIES.items()}
        lines = QVBoxLayout(self)
        lines.setContentsMargins(0, 0, 0, 0)
        lines.setSpacing(4)
        every = list(self.buttons.values())
        for some in (every[:ABOVE], every[ABOVE:]):
            line = QHBoxLayout()
            line.setSpacing(4)
            for button in some:
                line.addWidget(button)
            lines.addLayout(line)
        self.rescaled()

    def rescaled(self) -> None:
        """Draw the icons for the theme and size."""
        self.setFixedWidth(px(236))
        for name, button in list(self.buttons.items())[:ABOVE]:
            button.setIcon(icons.icon(name, colours().text))
            button.setIconSize(QSize(px(18), px(18)))

    def _made(self, name: str, label: str) -> QToolButton:
        button = QToolButton()
        button.setText(label)
        button.setProperty("tight", "true")
        button.setToolButtonStyle(Qt.ToolButtonStyle.ToolButtonTextBesideIcon)
        button.setAccessibleName(f"{label} dialog")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Preferred)
        button.clicked.connect(lambda: self.wanted.emit(name))
        sized(button, 13)
        return button
