"""The same work without a window; starts without Qt."""

from __future__ import annotations

import argparse
import json
import logging
import os
import sys
from collections.abc import Callable
from pathlib import Path
from typing import TYPE_CHECKING

from benchlog import __version__
from benchlog.errors import WorldError
from benchlog.settings import UNITS_SHOWN, default_shelf, load_settings, log_file

if TYPE_CHECKING:
    from benchlog.tasks.record import Record
    from benchlog.tasks.sheet_wishes import SheetWishes
    from benchlog.wiring import Workshop

log = logging.getLogger(__name__)


def parse(argv: list[str]) -> argparse.Namespace:
    """Read the command line; `command` is None when the window is wanted."""
    parser = argparse.ArgumentParser(
        prog="benchlog",
        description="The bench record of an oil filter teardown. "
        "Without a command, the window opens.",
    )
    parser.add_argument("--version", action="version", version=f"benchlog {__version__}")
    parser.add_argument(
        "--shelf",
        type=Path,
        default=default_shelf(),
        metavar="DIR",
        help="the shelf's folder (usual: %(default)s)",
    )
    commands = parser.add_subparsers(dest="command", metavar="COMMAND")
    _rehearse(commands.add_parser("rehearse", help="walk the sample line-up, write its sheet"))
    _sheet(commands.add_parser("sheet", help="write a line-up's sheet for viewers (PDF)"))
    numbers = commands.add_parser(
        "numbers", help="print every reading and every figure of a line-up as JSON"
    )
    numbers.add_argument("lineup", help="the line-up's name, or the beginning of its id")
    _sum(commands.add_parser("sum", help="print the sum behind one number as JSON"))
    commands.add_parser(
        "bias",
        help="print as JSON whether past awards lean to what was given, or to who came first",
    )
    _publish(commands.add_parser("publish", help="publish a line-up as its next revision"))
    revisions = commands.add_parser("revisions", help="list what was published of a line-up")
    changes = commands.add_parser("changes", help="say what changed between two revisions")
    for command in (revisions, changes):
        command.add_argument("lineup", help="the line-up's name, or the beginning of its id")
        command.add_argument("--json", action="store_true", help="as JSON")
    changes.add_argument("older", nargs="?", type=int, metavar="FROM", help="a revision's number")
    changes.add_argument("newer", nargs="?", type=int, metavar="TO", help="a later one")
    revisions.add_argument(
        "--out", type=Path, metavar="DIR", help="copy the files of the newest into a new folder"
    )
    revisions.add_argument("--revision", type=int, help="with --out: those of this one instead")
    again = commands.add_parser(
        "recompute", help="work a published data package out again and name every difference"
    )
    again.add_argument("package", type=Path, help="its folder, or the zip file")
    again.add_argument("--json", action="store_true", help="as JSON")
    commands.add_parser("list", help="list the line-ups on the shelf")
    commands.add_parser("check", help="check that the shelf is sound")
    for command in commands.choices.values():
        command.add_argument(
            "--shelf", type=Path, default=argparse.SUPPRESS, metavar="DIR", help=argparse.SUPPRESS
        )
    return parser.parse_args(argv)


def _rehearse(command: argparse.ArgumentParser) -> None:
    command.add_argument(
        "--out",
        type=Path,
        default=Path("rehearsal"),
        metavar="DIR",
        help="where its shelf, sheet and numbers go (usual: %(default)s)",
    )
    _sheet_choices(command)


def _sheet_choices(command: argparse.ArgumentParser) -> None:
    command.add_argument("--paper", choices=("A4", "Letter"), default="A4")
    command.add_argument(
        "--units", choices=UNITS_SHOWN, help="units to print (usual: as set in the window)"
    )
    command.add_argument(
        "--sums", action="store_true", help="with the sum behind every figure as an appendix"
    )


def _sheet(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help="the line-up's name, or the beginning of its id")
    command.add_argument("--out", type=Path, metavar="FILE", help="the PDF to write")
    _sheet_choices(command)


def _publish(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help="the line-up's name, or the beginning of its id")
    command.add_argument(
        "--out", type=Path, metavar="DIR", help="a new folder for copies of the files"
    )
    _sheet_choices(command)
    command.add_argument(
        "--reason", default="", metavar="TEXT", help="why there is a further revision"
    )
    command.add_argument(
        "--licence", default="", metavar="NAME",
        help="under which the data goes out, such as CC-BY-4.0 (usual: without the data)",
    )  # fmt: skip
    command.add_argument(
        "--without", action="append", default=[], metavar="KIND",
        choices=("cards", "data", "chapters", "description"),
        help="leave out cards, data, chapters or description; may be given again",
    )  # fmt: skip


def _sum(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help="the line-up's name, or the beginning of its id")
    command.add_argument("figure", help="a figure or attribute: its key, or its name")
    command.add_argument(
        "specimen", nargs="?", help="its nickname, or its place from 1 (usual: all of them)"
    )
    command.add_argument(
        "--check", action="store_true", help="check the interval by a million draws (JCGM 101)"
    )


def run(wanted: argparse.Namespace) -> int:
    """Do one command; returns 0, or 1 with a plain message on standard error."""
    _log_to_file()
    commands: dict[str, Callable[[argparse.Namespace], int]] = {
        "rehearse": rehearse,
        "sheet": sheet,
        "numbers": numbers,
        "sum": show_sum,
        "bias": bias,
        "publish": publish,
        "revisions": revisions,
        "changes": changes,
        "recompute": recompute,
        "list": list_lineups,
        "check": check,
    }
    try:
        return commands[wanted.command](wanted)
    except BrokenPipeError:  # whoever read our output has gone, as in `numbers | head`
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return 1
    except WorldError as fault:
        log.warning("%s", fault)
        print(f"benchlog: {fault.what}\n          {fault.do}".rstrip(), file=sys.stderr)
        return 1
    except Exception:
        log.exception("a fault of this program in '%s'", wanted.command)
        print(
            "benchlog: a fault of this program; nothing that was recorded is lost.\n"
            f"          What happened stands in {log_file()}",
            file=sys.stderr,
        )
        return 2


def rehearse(wanted: argparse.Namespace) -> int:
    """Walk the sample line-up on a shelf of its own, then write its sheet and numbers."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    out: Path = wanted.out
    with wiring.open_workshop(out / "shelf") as workshop:
        progress = Told()
        lineup_id = wiring.rehearse_sample(workshop, progress)
        record = wiring.record_of(workshop, lineup_id)
        path = _write_sheet(workshop, record, out / "sheet.pdf", wanted)
        _write_numbers(record, out / "numbers.json")
    print(f"{len(record.readings)} readings of {len(record.lineup.specimens)} specimens")
    print(f"sheet:   {path}\nnumbers: {out / 'numbers.json'}\nshelf:   {out / 'shelf'}")
    return 0


def sheet(wanted: argparse.Namespace) -> int:
    """Write one line-up's sheet."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publish import sheet_name  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
        path = _write_sheet(workshop, record, wanted.out or Path(sheet_name(record.lineup)), wanted)
    print(path)
    return 0


def numbers(wanted: argparse.Namespace) -> int:
    """Print one line-up's readings and figures as JSON."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.tell import tell  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
    print(_as_json(tell(record)))
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
    print(_as_json(sums))
    return 0


def publish(wanted: argparse.Namespace) -> int:
    """Publish one line-up: every output, frozen together as the next revision."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publications import outputs_as_lines  # noqa: PLC0415
    from benchlog.tasks.publish_revision import publish_revision  # noqa: PLC0415

    kinds = [kind for kind in wiring.OUTPUT_KINDS if kind not in wanted.without]
    with wiring.open_workshop(wanted.shelf) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
        writers = wiring.output_writers(wanted.paper, _wishes(wanted), wanted.licence, kinds)
        made = publish_revision(
            workshop.shelf, workshop.clock, record, writers, wanted.out, Told(), wanted.reason
        )
    print(f"revision {made.revision}, digest {made.digest[:12]}, {len(made.outputs)} files")
    print("\n".join(outputs_as_lines(made)))
    if wanted.out is not None:
        print(f"copies in {wanted.out}")
    if "data" in kinds and not wanted.licence:
        print("The data was left out: choose its licence with --licence.", file=sys.stderr)
    return 0


def revisions(wanted: argparse.Namespace) -> int:
    """List what was published of a line-up, or copy the files of one revision."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks import publications as told  # noqa: PLC0415
    from benchlog.tasks.publish_revision import hand_out  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
        shelf, lineup_id = workshop.shelf, record.lineup.id
        if wanted.out is not None:
            number = wanted.revision or max(1, record.revision - record.draft)
            one = told.publication_of(shelf, lineup_id, number)
            lines = [str(path) for path in hand_out(shelf, one, wanted.out)]
        elif wanted.json:
            lines = [_as_json(told.told_publications(shelf, lineup_id))]
        else:
            lines = told.revisions_as_lines(shelf, record)
    print("\n".join(lines))
    return 0


def changes(wanted: argparse.Namespace) -> int:
    """Say what changed between two revisions, or since the last one."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks import publications as told  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        lineup_id = wiring.find_lineup(workshop, wanted.lineup)
        if wanted.older is None:
            record = wiring.record_of(workshop, lineup_id)
            between, found = told.latest_changes(workshop.shelf, record)
        else:
            newer = wanted.newer or wanted.older + 1
            between = f"from revision {wanted.older} to {newer}"
            found = told.changes_between_revisions(workshop.shelf, lineup_id, wanted.older, newer)
    if wanted.json:
        print(_as_json({"between": between, "changes": told.told_changes(found)}))
        return 0
    count = "1 change" if len(found) == 1 else f"{len(found)} changes"
    print(f"{between[:1].upper()}{between[1:]}: {count}")
    for change in found:
        print(change.sentence)
    return 0


def recompute(wanted: argparse.Namespace) -> int:
    """Work a data package out again; every difference on a line, 1 when there are any."""
    from dataclasses import asdict  # noqa: PLC0415

    from benchlog import wiring  # noqa: PLC0415 - slow to import

    found = wiring.recompute_package(wanted.package)
    if wanted.json:
        print(_as_json([{**asdict(one), "sentence": one.sentence} for one in found]))
        return 1 if found else 0
    for one in found:
        print(one.sentence)
    if not found:
        print("Everything in the package comes out the same.")
    return 1 if found else 0


def bias(wanted: argparse.Namespace) -> int:
    """Print whether the awards on the shelf lean: JSON, and the same in sentences on stderr."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.bias_check import check_bias, spoken, told  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        found = check_bias(workshop.shelf, Told())
    print(_as_json(told(found)))
    print(spoken(found), file=sys.stderr)
    return 0


def list_lineups(wanted: argparse.Namespace) -> int:
    """List the line-ups on the shelf, newest first."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        briefs = workshop.shelf.lineups()
    for brief in briefs:
        names = ", ".join(s.nickname for s in brief.specimens)
        print(
            f"{brief.id[:8]}  {brief.created_at:%Y-%m-%d}  {brief.readings:5d} readings  "
            f"{brief.name} ({names})"
        )
    if not briefs:
        print("The shelf is empty. Plan a line-up in the window, or try the command rehearse.")
    return 0


def check(wanted: argparse.Namespace) -> int:
    """Check the shelf; every problem on a line, 1 when there are any."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    problems = wiring.check_shelf(wanted.shelf)
    for problem in problems:
        print(problem)
    if not problems:
        print("The shelf is sound.")
    return 1 if problems else 0


class Told:
    """Progress on one line of the terminal; silent where output is not one."""

    def step(self, done: int, total: int, what: str) -> None:
        """Show how far it has come."""
        if sys.stderr.isatty():
            end = "\n" if done >= total else ""
            print(f"\r{done:4d} of {total}  {what[:60]:<60}", end=end, file=sys.stderr, flush=True)


def _write_sheet(
    workshop: Workshop, record: Record, path: Path, wanted: argparse.Namespace
) -> Path:
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publish import write_sheet  # noqa: PLC0415

    writer, wishes = wiring.sheet_writer(), _wishes(wanted)
    return write_sheet(workshop.shelf, record, writer, path, wanted.paper, Told(), wishes)


def _wishes(wanted: argparse.Namespace) -> SheetWishes:
    from benchlog.tasks.sheet_wishes import SheetWishes  # noqa: PLC0415

    return SheetWishes(wanted.units or load_settings().units, wanted.sums)


def _as_json(value: object) -> str:
    return json.dumps(value, indent=1, ensure_ascii=False, allow_nan=False)


def _write_numbers(record: Record, path: Path) -> None:
    from benchlog.tasks.tell import tell  # noqa: PLC0415

    path.write_text(_as_json(tell(record)), encoding="utf-8")


def _log_to_file() -> None:
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
