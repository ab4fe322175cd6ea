"""A program that is killed in the middle of its work, as a power cut would."""

from __future__ import annotations

import subprocess
import sys
import threading
from pathlib import Path

ROOT = Path(__file__).parents[2]


def said_until_cut(child: str, folder: Path, after: int, grace_s: float) -> list[list[str]]:
    """Start tests.journeys.<child>, kill it `grace_s` after `after` lines; return what it said."""
    command = [sys.executable, "-m", f"tests.journeys.{child}", str(folder)]
    seen: list[list[str]] = []
    with subprocess.Popen(command, cwd=ROOT, stdout=subprocess.PIPE, text=True) as running:
        assert running.stdout is not None
        timer = threading.Timer(grace_s, running.kill)
        for line in running.stdout:
            if line.endswith("\n"):
                seen.append(line.split())
            if len(seen) == after:
                timer.start()
        timer.join()
    return seen
