"""A picture made ready to look at, off the main thread: whole, and smaller by halves."""

from __future__ import annotations

import io
from dataclasses import dataclass

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QSize, Qt
from PySide6.QtGui import QImage, QImageReader

MOST_PIXELS = 24_000_000
SMALLEST = 400


@dataclass(frozen=True)
class Decoded:
    """`images` are the picture and its halves, largest first; () for what cannot be shown.

    `width` and `height` are pixels of the file, turned as its camera says.
    """

    images: tuple[QImage, ...]
    width: int
    height: int

    def fit_for(self, scale: float) -> QImage:
        """Return the smallest image that is not blown up at `scale` screen pixels a file pixel."""
        wanted = scale * self.width
        return next((i for i in reversed(self.images) if i.width() >= wanted), self.images[0])


def decoded(data: bytes) -> Decoded:
    """Return a picture's bytes as images; slow, for a worker thread."""
    buffer = QBuffer()
    buffer.setData(QByteArray(data))
    buffer.open(QIODevice.OpenModeFlag.ReadOnly)
    reader = QImageReader(buffer)
    reader.setAutoTransform(True)
    size = reader.size()
    if size.isValid() and size.width() * size.height() > MOST_PIXELS:
        shrink = (MOST_PIXELS / (size.width() * size.height())) ** 0.5
        reader.setScaledSize(QSize(int(size.width() * shrink), int(size.height() * shrink)))
    image = reader.read()
    if image.isNull():
        image = _deep(data)
        size = image.size()
    if image.isNull():
        return Decoded((), 0, 0)
    if image.size() != size and (image.width() > image.height()) != (size.width() > size.height()):
        size.transpose()  # turned on reading, which the size told before does not know
    return Decoded(_halves(image), size.width(), size.height())


def _deep(data: bytes) -> QImage:
    """Return pictures of more than eight bits a colour, which Qt's readers may not know."""
    from PIL import Image, ImageOps  # noqa: PLC0415 - only for such pictures

    try:
        with Image.open(io.BytesIO(data)) as opened:
            turned = ImageOps.exif_transpose(opened)
            if turned.mode.startswith("I"):
                turned = turned.convert("I").point(lambda value: value / 256)
            grey = turned.convert("L")
    except Exception:  # Pillow's decoders raise many kinds on hostile bytes
        return QImage()
    raw = grey.tobytes()
    shown = QImage(raw, grey.width, grey.height, grey.width, QImage.Format.Format_Grayscale8)
    return shown.copy()


def _halves(image: QImage) -> tuple[QImage, ...]:
    found = [image.convertToFormat(QImage.Format.Format_RGB32)]
    while found[-1].width() > SMALLEST:
        last = found[-1]
        half = QSize(max(1, last.width() // 2), max(1, last.height() // 2))
        smooth = Qt.TransformationMode.SmoothTransformation
        found.append(last.scaled(half, Qt.AspectRatioMode.IgnoreAspectRatio, smooth))
    return tuple(found)
