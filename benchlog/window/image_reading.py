"""A picture's bytes read as an image, turned as its camera says; for worker threads too."""

from __future__ import annotations

from collections.abc import Callable

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize
from PySide6.QtGui import QImage, QImageReader


def read_image(data: bytes, shrunk: Callable[[QSize], QSize]) -> tuple[QImage, QSize]:
    """Return the image and the size of the file; a null image for what cannot be read.

    `shrunk` is asked, with the file's size, how large the image should be.
    """
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid():
        reader.setScaledSize(shrunk(size))
    image = reader.read()
    # The reader of TIFF looks at its buffer once more when it goes, so it has to go first.
    del reader
    return image, size
