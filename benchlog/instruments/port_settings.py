"""How a serial scale is reached: the port, its line settings, and who speaks first."""

from __future__ import annotations

from dataclasses import dataclass, field
from enum import StrEnum

from serial.tools import list_ports as system_ports

from benchlog.errors import ScaleFault
from benchlog.instruments.line_reader import AUTOMATIC
from benchlog.instruments.steady import SteadyRule
from benchlog.instruments.template import MASS_UNITS

BAUDS = (300, 600, 1200, 2400, 4800, 9600, 19200, 38400, 57600, 115200)
"""Speeds to choose from; any other may be typed."""

FASTEST_BAUD = 4_000_000


class Flow(StrEnum):
    """How either end says that it cannot take more."""

    NONE = "none"
    XONXOFF = "xon/xoff"
    RTSCTS = "rts/cts"


class Sending(StrEnum):
    """When the scale sends a line."""

    CONTINUOUS = "continuous"
    PRINT_KEY = "on its print key"
    POLLED = "when asked"


@dataclass(frozen=True)
class PortSettings:
    """Settings of one serial scale.

    `path` is a port as listed, or typed. `parity` is N, E, O, M or S. `poll` is sent every
    `poll_every_s` seconds when the scale only answers, and at each `SerialScale.poll`; an interval
    of 0 asks only then. `template` is a line shape's key or "automatic"; `unit` the full name
    of the unit of lines without one.
    """

    path: str
    baud: int = 9600
    bytesize: int = 8
    parity: str = "N"
    stopbits: float = 1
    flow: Flow = Flow.NONE
    sending: Sending = Sending.CONTINUOUS
    poll: bytes = b"W\r\n"
    poll_every_s: float = 0.2
    template: str = AUTOMATIC
    unit: str = "gram"
    rule: SteadyRule = field(default_factory=SteadyRule)

    def check(self) -> None:
        """Raise ScaleFault naming the first setting that cannot stand."""
        wrong = (
            (not self.path.strip(), "No port is chosen.", "Pick one or type its path."),
            (not 0 < self.baud <= FASTEST_BAUD, f"{self.baud} is not a speed.", "9600 is usual."),
            (self.bytesize not in (5, 6, 7, 8), f"{self.bytesize} data bits do not exist.", ""),
            (self.parity not in tuple("NEOMS"), f"'{self.parity}' is not a parity.", "N is usual."),
            (self.stopbits not in (1, 1.5, 2), f"{self.stopbits} stop bits do not exist.", ""),
            (
                self.sending is Sending.POLLED and not self.poll,
                "The scale is to be asked, but there is no text to ask with.",
                "Look the command up in the scale's handbook.",
            ),
            (self.poll_every_s < 0, "The interval of asking is below zero.", ""),
            (
                self.unit not in MASS_UNITS,
                f"'{self.unit}' is not a unit a scale weighs in.",
                f"Choose one of: {', '.join(MASS_UNITS)}.",
            ),
            (self.rule.equal_readings < 1, "At least one reading makes a weight.", ""),
            (self.rule.within_s <= 0, "The time to settle in must be above zero.", ""),
        )
        for is_wrong, what, do in wrong:
            if is_wrong:
                raise ScaleFault(what, do)


@dataclass(frozen=True)
class PortFound:
    """A serial port the system knows of, and what it says of itself."""

    path: str
    description: str


def list_ports() -> list[PortFound]:
    """Return the system's serial ports by path; ports of other kinds have to be typed."""
    found = [PortFound(p.device, p.description or "") for p in system_ports.comports()]
    return sorted(found, key=lambda port: port.path)
