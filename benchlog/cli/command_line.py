"""The command line: what it takes, and what becomes of a command that fails."""

from __future__ import annotations

import argparse
import logging
import os
import sys
from pathlib import Path

from benchlog import __version__
from benchlog.cli import lineup_commands, picture_commands, publishing_commands, shelf_commands
from benchlog.cli.terminal import log_to_file
from benchlog.errors import WorldError
from benchlog.settings import default_shelf, log_file

log = logging.getLogger(__name__)

ROOMS = (lineup_commands, publishing_commands, shelf_commands, picture_commands)


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
    for room in ROOMS:
        room.add_to(commands)
    for command in commands.choices.values():
        command.add_argument(
            "--shelf", type=Path, default=argparse.SUPPRESS, metavar="DIR", help=argparse.SUPPRESS
        )
    return parser.parse_args(argv)


def run(wanted: argparse.Namespace) -> int:
    """Do one command; returns 0, or 1 with a plain message on standard error."""
    log_to_file()
    try:
        return int(wanted.work(wanted))
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
