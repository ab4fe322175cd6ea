"""Enter clicks the button that has the focus, as Space does, outside dialogs too."""

from __future__ import annotations

from PySide6.QtWidgets import QPushButton, QWidget


def let_enter_click(place: QWidget) -> None:
    """Let Enter click any push button of a place; call it once all of them are there.

    Qt's own way outside a dialog: a button that may become the default answers to Enter.
    """
    for button in place.findChildren(QPushButton):
        button.setAutoDefault(True)
