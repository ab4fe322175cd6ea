"""Small buttons to the bench's dialogs: instruments, checks, scale, keys, settings."""

from __future__ import annotations

from PySide6.QtCore import QSize, Qt, Signal
from PySide6.QtWidgets import QGridLayout, QSizePolicy, QToolButton, QWidget

from benchlog.window import icons
from benchlog.window.theme import colours, px, sized

ENTRIES = {
    "tool": "Instruments",
    "checks": "Checks",
    "scale": "Scale",
    "keys": "Keys",
    "settings": "Settings",
}
ABOVE, ABOVE_SPAN, BELOW_SPAN = 2, 3, 2


class BenchMenu(QWidget):
    """Two buttons with icons above three without; `wanted` carries the name of a dialog."""

    wanted = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setSpacing(4)
        self.buttons = {name: self._made(name, label) for name, label in ENTRIES.items()}
        for n, button in enumerate(self.buttons.values()):
            if n < ABOVE:
                grid.addWidget(button, 0, n * ABOVE_SPAN, 1, ABOVE_SPAN)
            else:
                grid.addWidget(button, 1, (n - ABOVE) * BELOW_SPAN, 1, BELOW_SPAN)
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
