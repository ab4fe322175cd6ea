"""Start Benchlog: the window, or the same work on the command line."""

from __future__ import annotations

import sys

from benchlog import cli


def main(argv: list[str] | None = None) -> int:
    """Run the command that was given; with none, open the window on the shelf."""
    wanted = cli.parse(sys.argv[1:] if argv is None else argv)
    if wanted.command is not None:
        return cli.run(wanted)
    from benchlog.settings import load_settings  # noqa: PLC0415
    from benchlog.window.app import run  # noqa: PLC0415 - Qt only for the window

    return run(wanted.shelf, load_settings())


if __name__ == "__main__":
    sys.exit(main())
