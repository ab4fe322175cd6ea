"""The answers to choose from, numbered for one-key answers."""

from __future__ import annotations

from PySide6.QtCore import Qt, Signal
from PySide6.QtWidgets import QPushButton

from benchlog.trade.attribute import Choice
from benchlog.window.flow_box import FlowBox
from benchlog.window.theme import sized


class ChoiceRow(FlowBox):
    """Numbered buttons; clicking one answers as typing its number does."""

    chosen = Signal(str)

    def __init__(self) -> None:
        super().__init__()
        self._buttons: list[QPushButton] = []
        self._shown: tuple[Choice, ...] = ()

    @property
    def buttons(self) -> tuple[QPushButton, ...]:
        """The buttons in the order of their numbers."""
        return tuple(self._buttons)

    def show_choices(self, choices: tuple[Choice, ...]) -> None:
        """Show the answers of what is asked; hides itself when there are none."""
        self.setVisible(bool(choices))
        if choices == self._shown:
            return
        self._shown = choices
        self.clear()
        self._buttons = [self._made(n, choice) for n, choice in enumerate(choices, 1)]

    def _made(self, number: int, choice: Choice) -> QPushButton:
        label = choice.label.replace("&", "&&")
        button = QPushButton(f"{number}  {label}")
        button.setAccessibleName(f"Answer {number}: {choice.label}")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.clicked.connect(lambda: self.chosen.emit(str(number)))
        sized(button, 17)
        self.add(button)
        return button
