"""The same work without a window; starts without Qt."""

from benchlog.cli.command_line import parse, run

__all__ = ["parse", "run"]
