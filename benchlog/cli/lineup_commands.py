"""Commands on one line-up: rehearse it, write its sheet, print its numbers and their sums."""

from __future__ import annotations

import argparse
from pathlib import Path

from benchlog.cli.terminal import (
    Commands,
    Told,
    as_json,
    sheet_choices,
    write_chosen_sheet,
)

LINEUP = "the line-up's name, or the beginning of its id"


def add_to(commands: Commands) -> None:
    """Add these commands to the command line."""
    _rehearse(commands.add_parser("rehearse", help="walk the sample line-up, write its sheet"))
    _sheet(commands.add_parser("sheet", help="write a line-up's sheet for viewers (PDF)"))
    told = commands.add_parser(
        "numbers", help="print every reading and every figure of a line-up as JSON"
    )
    told.add_argument("lineup", help=LINEUP)
    told.set_defaults(work=numbers)
    _sum(commands.add_parser("sum", help="print the sum behind one number as JSON"))


def _rehearse(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--out",
        type=Path,
        default=Path("rehearsal"),
        metavar="DIR",
        help="where its shelf, sheet and numbers go (usual: %(default)s)",
    )
    sheet_choices(command)
    command.set_defaults(work=rehearse)


def _sheet(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help=LINEUP)
    command.add_argument("--out", type=Path, metavar="FILE", help="the PDF to write")
    sheet_choices(command)
    command.set_defaults(work=sheet)


def _sum(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help=LINEUP)
    command.add_argument("figure", help="a figure or attribute: its key, or its name")
    command.add_argument(
        "specimen", nargs="?", help="its nickname, or its place from 1 (usual: all of them)"
    )
    command.add_argument(
        "--check", action="store_true", help="check the interval by a million draws (JCGM 101)"
    )
    command.set_defaults(work=show_sum)


def rehearse(wanted: argparse.Namespace) -> int:
    """Walk the sample line-up on a shelf of its own, then write its sheet and numbers."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.tell import tell  # noqa: PLC0415

    out: Path = wanted.out
    with wiring.open_workshop(out / "shelf") as workshop:
        progress = Told()
        lineup_id = wiring.rehearse_sample(workshop, progress)
        record = wiring.record_of(workshop, lineup_id)
        path = write_chosen_sheet(workshop, record, out / "sheet.pdf", wanted)
        (out / "numbers.json").write_text(as_json(tell(record)), encoding="utf-8")
    print(f"{len(record.readings)} readings of {len(record.lineup.specimens)} specimens")
    print(f"sheet:   {path}\nnumbers: {out / 'numbers.json'}\nshelf:   {out / 'shelf'}")
    return 0


def sheet(wanted: argparse.Namespace) -> int:
    """Write one line-up's sheet."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publish import sheet_name  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
        path = write_chosen_sheet(
            workshop, record, wanted.out or Path(sheet_name(record.lineup)), wanted
        )
    print(path)
    return 0


def numbers(wanted: argparse.Namespace) -> int:
    """Print one line-up's readings and figures as JSON."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.tell import tell  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
    print(as_json(tell(record)))
    return 0


def show_sum(wanted: argparse.Namespace) -> int:
    """Print the sum behind one number: formula, inputs, readings, budget; a list as JSON."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.find_number import find_number, find_specimens  # noqa: PLC0415
    from benchlog.tasks.tell_sum import tell_sum  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
    key = find_number(record, wanted.figure)
    specimens = find_specimens(record, wanted.specimen)
    check = Told() if wanted.check else None
    sums = [tell_sum(record, key, specimen.id, check) for specimen in specimens]
    print(as_json(sums))
    return 0
