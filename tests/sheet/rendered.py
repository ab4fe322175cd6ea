"""Pages of a written PDF as pictures, for tests."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import numpy as np
from PySide6.QtCore import QSize
from PySide6.QtGui import QImage, QPainter
from PySide6.QtPdf import QPdfDocument


def page_in_grey(path: Path, page: int, dots_per_inch: int) -> Any:
    """Return one page in grey, as rows of bytes; what is not printed is white."""
    document = QPdfDocument()
    assert document.load(str(path)) is QPdfDocument.Error.None_
    points = document.pagePointSize(page)
    scale = dots_per_inch / 72
    size = QSize(round(points.width() * scale), round(points.height() * scale))
    drawn = document.render(page, size)
    paper = QImage(size, QImage.Format.Format_ARGB32)
    paper.fill(0xFFFFFFFF)
    flat = _laid_on(paper, drawn).convertToFormat(QImage.Format.Format_Grayscale8)
    rows = np.frombuffer(flat.constBits(), np.uint8).reshape(flat.height(), flat.bytesPerLine())
    return rows[:, : flat.width()].copy()


def _laid_on(paper: QImage, drawn: QImage) -> QImage:

    painter = QPainter(paper)
    painter.drawImage(0, 0, drawn)
    painter.end()
    return paper
