"""A scale on a pseudo-terminal of its own process: weighs what it is told to, line by line."""

from __future__ import annotations

import os
import sys
import termios
import tty
from decimal import Decimal

from benchlog.instruments.placing import Placing, placing_lines
from benchlog.instruments.template_file import load_templates


def main() -> None:
    """Print the port's path, then play one placing for every weight, in grams, read from stdin."""
    master, slave = os.openpty()
    tty.setraw(slave, termios.TCSANOW)
    templates = load_templates()
    shape = templates.shape("words-before")
    print(os.ttyname(slave), flush=True)
    os.write(master, b"\r\n")
    for wanted in sys.stdin:
        placing = Placing(Decimal(wanted.strip()))
        for line in placing_lines(placing, shape, templates):
            os.write(master, line)


if __name__ == "__main__":
    main()
