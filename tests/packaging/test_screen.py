"""The system libraries that the set-up brings are enough for a window on a screen server."""

from __future__ import annotations

import sys

import pytest
from PySide6.QtCore import QSysInfo
from PySide6.QtGui import QColor, QGuiApplication
from PySide6.QtWidgets import QWidget
from pytestqt.qtbot import QtBot


@pytest.mark.real_window
def test_window_paints_on_screen(qtbot: QtBot) -> None:
    assert sys.platform != "linux" or QGuiApplication.platformName() == "xcb", QSysInfo.kernelType()
    widget = QWidget()
    qtbot.addWidget(widget)
    widget.setStyleSheet("background: #2a7f62")
    widget.resize(120, 80)
    with qtbot.waitExposed(widget):
        widget.show()

    def is_painted() -> bool:
        shot = widget.screen().grabWindow(widget.winId()).toImage()
        return shot.pixelColor(shot.width() // 2, shot.height() // 2) == QColor("#2a7f62")

    qtbot.waitUntil(is_painted)
