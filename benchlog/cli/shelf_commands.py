"""Commands on the whole shelf: list it, check it, look whether its awards lean."""

from __future__ import annotations

import argparse
import sys

from benchlog.cli.terminal import Commands, Told, as_json


def add_to(commands: Commands) -> None:
    """Add these commands to the command line."""
    leaning = commands.add_parser(
        "bias",
        help="print as JSON whether past awards lean to what was given, or to who came first",
    )
    leaning.set_defaults(work=bias)
    listing = commands.add_parser("list", help="list the line-ups on the shelf")
    listing.set_defaults(work=list_lineups)
    commands.add_parser("check", help="check that the shelf is sound").set_defaults(work=check)


def bias(wanted: argparse.Namespace) -> int:
    """Print whether the awards on the shelf lean: JSON, and the same in sentences on stderr."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import
    from benchlog.tasks.bias_check import check_bias, spoken, told  # noqa: PLC0415

    with wiring.open_workshop(wanted.shelf, read_only=True) as workshop:
        found = check_bias(workshop.shelf, Told())
    print(as_json(told(found)))
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
