"""The keys that act at the pictures, shown as caps; each can be clicked as well."""

from __future__ import annotations

from PySide6.QtCore import Signal

from benchlog.window.bench.legend import LegendButton, cap_words
from benchlog.window.flow_box import FlowBox
from benchlog.window.keys import KeyMap, plain_key
from benchlog.window.microscope.picture_keys import Wish, wish_keys


class PictureLegend(FlowBox):
    """One button a wish, named with its keys; what cannot act now is greyed out."""

    chosen = Signal(object)

    def __init__(self) -> None:
        super().__init__(spacing=2)
        self._keys = wish_keys(KeyMap())
        self.buttons = {wish: self._made(wish) for wish in Wish}
        for button in self.buttons.values():
            self.add(button)

    def show_keys(self, keys: dict[Wish, tuple[str, ...]]) -> None:
        """Show the keys as they are assigned."""
        self._keys = keys
        for wish, button in self.buttons.items():
            every = " or ".join(plain_key(name) for name in keys[wish]) or "no key"
            button.setToolTip(f"{wish}: {every}")
            button.setAccessibleName(f"{wish}, key {every}")
        self.rescaled()

    def rescaled(self) -> None:
        """Fit the caps to the letters' size."""
        for wish, button in self.buttons.items():
            button.show_cap(cap_words(self._keys[wish], 1))
        self.updateGeometry()

    def show_state(self, useless: frozenset[Wish]) -> None:
        """Grey out what has no use just now."""
        for wish, button in self.buttons.items():
            button.setEnabled(wish not in useless)

    def _made(self, wish: Wish) -> LegendButton:
        button = LegendButton(wish.value)
        button.clicked.connect(lambda: self.chosen.emit(wish))
        return button
