"""Where every run of text stands on the pages of a written sheet, for tests."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path
from typing import Any

from pypdf import PdfReader
from reportlab.pdfbase.pdfmetrics import stringWidth

from benchlog.sheet.typography import BOLD, FACE


@dataclass(frozen=True)
class Run:
    """One run of text: its left end and baseline in points from the lower left, and its size."""

    text: str
    x: float
    y: float
    size: float
    bold: bool
    begins: float
    """Left end of the line that the run stands in, as the reader tells it."""

    @property
    def right(self) -> float:
        """Right end of what is seen of it; a line ends with a space that parts words."""
        return self._after(self.text.rstrip(" "))

    @property
    def end(self) -> float:
        return self._after(self.text)

    def _after(self, text: str) -> float:
        return self.x + float(stringWidth(text, BOLD if self.bold else FACE, self.size))

    def meets(self, other: Run) -> bool:
        """Whether the letters of two runs lie on one another, by more than a hair."""
        apart = self.right < other.x + 0.8 or other.right < self.x + 0.8
        # Letters stand 0.73 of the size above the line and hang 0.2 below it.
        above = self.y - 0.2 * self.size > other.y + 0.73 * other.size - 0.8
        below = other.y - 0.2 * other.size > self.y + 0.73 * self.size - 0.8
        return not (apart or above or below)


def runs_of(path: Path) -> list[list[Run]]:
    """Return the runs of text of every page."""
    pages = []
    for page in PdfReader(path).pages:
        found: list[Run] = []

        def note(
            text: str, cm: list[float], tm: list[float], font: Any, size: float,
            found: list[Run] = found,
        ) -> None:  # fmt: skip
            said = text.strip("\n")
            if said.strip() and font is not None:
                x = tm[4] * cm[0] + tm[5] * cm[2] + cm[4]
                y = tm[4] * cm[1] + tm[5] * cm[3] + cm[5]
                begins = x
                if found and (x, y) == (found[-1].begins, found[-1].y):
                    # The reader does not move on where only the font changes within a line.
                    x = found[-1].end
                bold = "Bold" in str(font["/BaseFont"])
                found.append(Run(said, x, y, size * abs(tm[3]), bold, begins))

        page.extract_text(visitor_text=note)
        pages.append(found)
    return pages
