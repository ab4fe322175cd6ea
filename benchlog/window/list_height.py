"""A short list just as high as its rows."""

from __future__ import annotations

from PySide6.QtWidgets import QListWidget


def fit_to_rows(shown: QListWidget) -> None:
    """Let a list stand as high as all of its rows; call it again when its letters change."""
    rows = sum(shown.sizeHintForRow(n) for n in range(shown.count()))
    shown.setFixedHeight(rows + 2 * shown.frameWidth() + 2)
