"""The most memory that this very process has held."""

from __future__ import annotations

import resource
import sys
from pathlib import Path


def peak_bytes() -> int:
    """Return the peak of this process; on Linux getrusage would keep that of its parent."""
    if sys.platform == "linux":
        lines = Path("/proc/self/status").read_text(encoding="ascii").splitlines()
        kilobytes = next(line.split()[1] for line in lines if line.startswith("VmHWM:"))
        return 1024 * int(kilobytes)
    most = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return most if sys.platform == "darwin" else 1024 * most
