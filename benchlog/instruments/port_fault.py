"""What can go wrong with a serial port, and what the reviewer can do about it."""

from __future__ import annotations

import errno
import os

import serial

from benchlog.errors import ScaleFault

PORT_ERRORS: tuple[type[Exception], ...] = (serial.SerialException, OSError, ValueError)
try:
    import termios
except ImportError:  # a system without POSIX terminals
    pass
else:
    # A setting that the port cannot do surfaces raw, and is no OSError.
    PORT_ERRORS = (*PORT_ERRORS, termios.error)


def _number(error: BaseException | None) -> int | None:
    """Find the system's error number, which the port's library may have wrapped."""
    while error is not None:
        number = getattr(error, "errno", None) or next(iter(error.args), None)
        if isinstance(number, int):
            return number
        error = error.__context__
    return None


def reason(error: Exception) -> str:
    """Return the system's own short word for what went wrong."""
    number = _number(error)
    return "no answer" if number is None else os.strerror(number).lower()


def port_fault(path: str, error: Exception) -> ScaleFault:
    """Say why a port cannot be opened, and what to do about it."""
    number = _number(error)
    typed = "Typing the weight always works too."
    if number == errno.ENOENT:
        what, do = f"There is no port {path}.", "Plug the scale in, or pick another port."
    elif number in (errno.EACCES, errno.EPERM):
        what = f"This user may not use the port {path}."
        do = (
            "On Linux, ask for membership of the group that owns it (often 'dialout'), "
            "then sign out and in again."
        )
    elif number in (errno.EBUSY, errno.EAGAIN):
        what, do = f"Another program holds the port {path}.", "Close that program, then try again."
    elif number == errno.ENOTTY:
        what, do = f"{path} is not a serial port.", "Pick another port."
    else:
        what = f"The port {path} cannot be opened with these settings ({reason(error)})."
        do = "Check speed, data bits, parity and stop bits against the scale's handbook."
    return ScaleFault(what, f"{do} {typed}")
