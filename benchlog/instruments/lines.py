"""Whole lines out of whatever pieces a port hands over."""

from __future__ import annotations

import re

LONGEST_LINE = 96
"""Bytes; the longest line of any known shape is a third of it."""

# Text frames may wrap a line in STX and ETX; both end what stands before them.
_ENDS = re.compile(rb"[\r\n\x02\x03]")


class Lines:
    """Puts lines together from chunks, however they are split.

    CR, LF, both, or an STX/ETX frame end a line; empty lines are dropped; NULs stay for the
    reader to overlook. Of a run without an end only the first LONGEST_LINE + 1 bytes are handed
    out, once, and the rest up to the next end is dropped: garbage cannot grow. `mid_stream`
    drops what comes before the first end, since it may be the tail of a line ("7.4 g").
    """

    def __init__(self, *, mid_stream: bool = False) -> None:
        self._held = b""
        self._dropping = mid_stream

    def feed(self, data: bytes) -> list[bytes]:
        """Take a chunk, return the lines that it completed."""
        *ended, tail = _ENDS.split(self._held + data)
        lines = []
        for piece in ended:
            if not self._dropping and piece:
                lines.append(piece[: LONGEST_LINE + 1])
            self._dropping = False
        self._held = b"" if self._dropping else tail
        if len(self._held) > LONGEST_LINE:
            lines.append(self._held[: LONGEST_LINE + 1])
            self._held = b""
            self._dropping = True
        return lines
