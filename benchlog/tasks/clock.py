"""The real clock."""

from __future__ import annotations

import time
from datetime import UTC, datetime


class SystemClock:
    """Wall time in UTC, and seconds that never run backwards."""

    def now(self) -> datetime:
        """Return the wall time."""
        return datetime.now(UTC)

    def seconds(self) -> float:
        """Return steady seconds from an arbitrary start."""
        return time.monotonic()
