"""What every command uses: progress on a terminal, JSON, choices of a sheet, the log."""

from __future__ import annotations

import argparse
import json
import logging
import sys
from pathlib import Path
from typing import TYPE_CHECKING, TypeAlias

from benchlog.settings import UNITS_SHOWN, load_settings, log_file

if TYPE_CHECKING:
    from benchlog.tasks.record import Record
    from benchlog.tasks.sheet_wishes import SheetWishes
    from benchlog.wiring import Workshop

Commands: TypeAlias = "argparse._SubParsersAction[argparse.ArgumentParser]"
"""Where a file of commands puts its own; each sets `work`, the function that does it."""


class Told:
    """Progress on one line of the terminal; silent where output is not one."""

    def step(self, done: int, total: int, what: str) -> None:
        """Show how far it has come."""
        if sys.stderr.isatty():
            end = "\n" if done >= total else ""
            print(f"\r{done:4d} of {total}  {what[:60]:<60}", end=end, file=sys.stderr, flush=True)


def sheet_choices(command: argparse.ArgumentParser) -> None:
    """Let a command choose how a sheet is written."""
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    command.add_argument(
        "--units", choices=UNITS_SHOWN, help="units to print (usual: as set in the window)"
    )
    command.add_argument(
        "--sums", action="store_true", help="with the sum behind every figure as an appendix"
    )


def write_chosen_sheet(
    workshop: Workshop, record: Record, path: Path, wanted: argparse.Namespace
) -> Path:
    """Write a record's sheet as it was chosen, and return its path."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publish import write_sheet  # noqa: PLC0415

    writer, wishes = wiring.sheet_writer(), chosen_wishes(wanted)
    return write_sheet(workshop.shelf, record, writer, path, wanted.paper, Told(), wishes)


def chosen_wishes(wanted: argparse.Namespace) -> SheetWishes:
    """Return the units and sums that were chosen."""
    from benchlog.tasks.sheet_wishes import SheetWishes  # noqa: PLC0415

    return SheetWishes(wanted.units or load_settings().units, wanted.sums)


def as_json(value: object) -> str:
    """Return plain values as JSON for people and programs."""
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False)


def log_to_file() -> None:
    """Let the log go to its file; where that cannot be, only faults are told."""
    path = log_file()
    try:
        path.parent.mkdir(parents=True, exist_ok=True)
        logging.basicConfig(
            filename=path,
            level=logging.INFO,
            format="%(asctime)s %(levelname)s %(name)s: %(message)s",
        )
    except OSError:
        logging.basicConfig(level=logging.ERROR)
