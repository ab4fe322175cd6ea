"""Every page drawn by a second reader: the margins beside the text stay white."""

from __future__ import annotations

from pathlib import Path

import pytest
from PIL import Image
from PySide6.QtCore import QSize
from PySide6.QtGui import QImage
from PySide6.QtPdf import QPdfDocument

from benchlog.sheet.typography import PAPERS
from tests.sheet.reading_back import with_photos, write
from tests.sheet.sample_record import record
from tests.sheet.test_front_page import crowded


def drawn(path: Path) -> list[Image.Image]:
    """Return every page as a grey picture, a dot a point."""
    document = QPdfDocument()
    assert document.load(str(path)) is QPdfDocument.Error.None_
    found = []
    for number in range(document.pageCount()):
        points = document.pagePointSize(number)
        size = QSize(round(points.width()), round(points.height()))
        image = document.render(number, size)
        page = image.convertToFormat(QImage.Format.Format_RGBA8888)
        rgba = Image.frombytes("RGBA", (page.width(), page.height()), bytes(page.constBits()))
        white = Image.new("RGBA", rgba.size, "white")
        found.append(Image.alpha_composite(white, rgba).convert("L"))
    document.close()
    return found


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("make", [record, crowded])
@pytest.mark.parametrize("count", [1, 3, 6])
def test_nothing_runs_into_the_margins(
    qapp: object, tmp_path: Path, make, paper: str, count: int
) -> None:
    full, shelf = with_photos(make(count))
    page = PAPERS[paper]
    for image in drawn(write(full, tmp_path, paper, shelf)):
        left = image.crop((0, 0, int(page.side) - 8, image.height))
        right = image.crop((image.width - int(page.side) + 8, 0, image.width, image.height))
        assert left.getextrema()[0] > 250
        assert right.getextrema()[0] > 250
        assert image.getextrema()[0] < 120  # the page itself is not blank


def test_footer_and_text_keep_apart(qapp: object, tmp_path: Path) -> None:
    full, shelf = with_photos(crowded(6))
    page = PAPERS["A4"]
    for image in drawn(write(full, tmp_path, "A4", shelf)):
        # between the frame's bottom and the footer's rule lies nothing
        strip = image.crop((0, image.height - int(page.bottom) + 2, image.width,
                            image.height - 49))  # fmt: skip
        assert strip.getextrema()[0] > 250
