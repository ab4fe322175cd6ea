"""The only place that builds the real shelf and real devices and hands them to the tasks."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path
from typing import TYPE_CHECKING

from benchlog.settings import ScaleSettings
from benchlog.tasks.clock import SystemClock
from benchlog.tasks.ports import Clock, Scale, SheetWriter

if TYPE_CHECKING:
    from benchlog.shelf import SqlShelf


@dataclass
class Workshop:
    """An open shelf, a clock, and what makes devices and sheets; close it when done."""

    shelf: SqlShelf
    folder: Path
    clock: Clock = field(default_factory=SystemClock)

    def close(self) -> None:
        """Let go of the shelf."""
        self.shelf.close()


def open_workshop(folder: Path, *, read_only: bool = False) -> Workshop:
    """Open the shelf in `folder` (made when missing); raises ShelfFault kinds."""
    from benchlog.shelf import open_shelf  # noqa: PLC0415 - SQLAlchemy is slow to import

    return Workshop(open_shelf(folder, read_only=read_only), folder)


def sheet_writer() -> SheetWriter:
    """Return the writer of the viewers' sheet."""
    from benchlog.sheet import PdfSheet  # noqa: PLC0415 - ReportLab is slow to import

    return PdfSheet()


def serial_scale(settings: ScaleSettings) -> Scale:
    """Return the scale at the port of the settings; raises ScaleFault at `start`."""
    from benchlog.instruments.serial_scale import (  # noqa: PLC0415 - only with a scale
        scale_from,
    )

    return scale_from(settings)
