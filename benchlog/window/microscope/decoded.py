"""A picture made ready to look at, off the main thread: whole, and smaller by halves."""

from __future__ import annotations

import io
from dataclasses import dataclass

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QImage

from benchlog.window.image_reading import read_image

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
    image, size = read_image(data, _held_in)
    if image.isNull():
        image = _deep(data)
        size = image.size()
    if image.isNull():
        return Decoded((), 0, 0)
    if image.size() != size and (image.width() > image.height()) != (size.width() > size.height()):
        size.transpose()  # turned on reading, which the size told before does not know
    return Decoded(_halves(image), size.width(), size.height())


def _held_in(size: QSize) -> QSize:
    pixels = size.width() * size.height()
    if pixels <= MOST_PIXELS:
        return size
    by = (MOST_PIXELS / pixels) ** 0.5
    return QSize(int(size.width() * by), int(size.height() * by))


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
