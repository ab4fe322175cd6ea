"""Commands on what was published: publish, list, compare, hand out, work out again."""

from __future__ import annotations

import argparse
import sys
from pathlib import Path

from benchlog.cli.lineup_commands import LINEUP
from benchlog.cli.terminal import Commands, Told, as_json, chosen_wishes, sheet_choices


def add_to(commands: Commands) -> None:
    """Add these commands to the command line."""
    _publish(commands.add_parser("publish", help="publish a line-up as its next revision"))
    _revisions(commands.add_parser("revisions", help="list what was published of a line-up"))
    _changes(commands.add_parser("changes", help="say what changed between two revisions"))
    again = commands.add_parser(
        "recompute", help="work a published data package out again and name every difference"
    )
    again.add_argument("package", type=Path, help="its folder, or the zip file")
    again.add_argument("--json", action="store_true", help="as JSON")
    again.add_argument(
        "--pictures", action="store_true", help="measure its pictures of media again too"
    )
    again.set_defaults(work=recompute)


def _revisions(command: argparse.ArgumentParser) -> None:
    _lineup_or_json(command)
    command.add_argument(
        "--out", type=Path, metavar="DIR", help="copy the files of the newest into a new folder"
    )
    command.add_argument("--revision", type=int, help="with --out: those of this one instead")
    command.set_defaults(work=revisions)


def _changes(command: argparse.ArgumentParser) -> None:
    _lineup_or_json(command)
    command.add_argument("older", nargs="?", type=int, metavar="FROM", help="a revision's number")
    command.add_argument("newer", nargs="?", type=int, metavar="TO", help="a later one")
    command.set_defaults(work=changes)


def _lineup_or_json(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help=LINEUP)
    command.add_argument("--json", action="store_true", help="as JSON")


def _publish(command: argparse.ArgumentParser) -> None:
    command.add_argument("lineup", help=LINEUP)
    command.add_argument(
        "--out", type=Path, metavar="DIR", help="a new folder for copies of the files"
    )
    sheet_choices(command)
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
    command.set_defaults(work=publish)


def publish(wanted: argparse.Namespace) -> int:
    """Publish one line-up: every output, frozen together as the next revision."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.publications import outputs_as_lines  # noqa: PLC0415
    from benchlog.tasks.publish_revision import publish_revision  # noqa: PLC0415
    from benchlog.tasks.publish_wishes import PublishWishes  # noqa: PLC0415
    from benchlog.tasks.wanted import wanted_of  # noqa: PLC0415

    kinds = [kind for kind in wiring.OUTPUT_KINDS if kind not in wanted.without]
    with wiring.open_workshop(wanted.shelf) as workshop:
        record = wiring.record_of(workshop, wiring.find_lineup(workshop, wanted.lineup))
        of_sheet = chosen_wishes(wanted)
        writers = wiring.output_writers(wanted.paper, of_sheet, wanted.licence, kinds)
        wishes = PublishWishes(tuple(kinds), of_sheet.sums, licence=wanted.licence)
        licence = wanted.licence if "data" in kinds else ""
        made = publish_revision(
            workshop.shelf, workshop.clock, record, writers, wanted.out, Told(), wanted.reason,
            licence, wanted_of(record, wishes, wanted.paper, of_sheet.units),
        )  # fmt: skip
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
            lines = [as_json(told.told_publications(shelf, lineup_id))]
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
        print(as_json({"between": between, "changes": told.told_changes(found)}))
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
    if wanted.pictures:
        found += wiring.remeasure_package(wanted.package, Told())
    if wanted.json:
        print(as_json([{**asdict(one), "sentence": one.sentence} for one in found]))
        return 1 if found else 0
    for one in found:
        print(one.sentence)
    if not found:
        print("Everything in the package comes out the same.")
    return 1 if found else 0
