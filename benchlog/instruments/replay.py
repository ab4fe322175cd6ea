r"""What a port once sent, with its times, kept as text and played again.

One chunk a line: seconds since the start, a tab, the bytes as ASCII, with the escapes of a Python
bytes literal:

    0.103	ST,GS,+00287.4  g\r\n
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

from benchlog.errors import ScaleFault
from benchlog.instruments.listening import Listening
from benchlog.tasks.ports import Weight


@dataclass(frozen=True)
class Chunk:
    """Bytes as they came in together, `at_s` seconds after the log began."""

    at_s: float
    data: bytes


def write_log(chunks: Iterable[Chunk]) -> str:
    """Return the log as text."""
    return "".join(f"{chunk.at_s!r}\t{_escape(chunk.data)}\n" for chunk in chunks)


def read_log(path: Path) -> list[Chunk]:
    """Read a log file; raises ScaleFault naming file and line for one that is not a log."""
    try:
        text = path.read_text(encoding="ascii")
    except (OSError, UnicodeDecodeError) as error:
        raise ScaleFault(f"{path} cannot be read as a log of a scale ({error}).") from error
    return list(parse_log(text, path.name))


def parse_log(text: str, name: str = "log") -> Iterator[Chunk]:
    """Give the chunks of a log's text; raises ScaleFault for a line that is not one."""
    earlier = float("-inf")
    for number, line in enumerate(text.split("\n"), start=1):
        if not line:
            continue
        time, tab, data = line.partition("\t")
        try:
            chunk = Chunk(float(time), _unescape(data))
        except ValueError as error:
            what = f"{name}, line {number}: not a time, a tab and bytes."
            raise ScaleFault(what) from error
        # Written so that a time that is no number ("nan") fails it as well.
        if not tab or not chunk.at_s >= earlier:
            raise ScaleFault(f"{name}, line {number}: the time is missing or goes back.")
        earlier = chunk.at_s
        yield chunk


def replay(chunks: Iterable[Chunk], listening: Listening) -> list[Weight]:
    """Play a log in no time, settling by the log's own times; return the weights caught."""
    caught = []
    for chunk in chunks:
        caught += listening.feed(chunk.data, chunk.at_s)
    return caught


def _escape(data: bytes) -> str:
    return data.decode("latin-1").encode("unicode_escape").decode("ascii")


def _unescape(text: str) -> bytes:
    return text.encode("ascii").decode("unicode_escape").encode("latin-1")
