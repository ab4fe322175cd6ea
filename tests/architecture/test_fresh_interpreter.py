"""What a fresh interpreter has loaded after it imported a part of the program."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).parents[2]

IMPORT_ALL_BUT_THE_WINDOW = """
import importlib, json, pkgutil, sys
import benchlog
names = [
    found.name
    for found in pkgutil.walk_packages(benchlog.__path__, "benchlog.", onerror=print)
    if not found.name.startswith("benchlog.window")
    and ".migrations." not in found.name  # run by Alembic alone, which hands them a connection
    and not found.name.endswith("__main__")
]
for name in names:
    importlib.import_module(name)
print(json.dumps([names, sorted(sys.modules)]))
"""

RUN_HELP = """
import json, runpy, sys
sys.argv = ["benchlog", "--help"]
try:
    runpy.run_module("benchlog", run_name="__main__")
except SystemExit as end:
    assert not end.code, end.code
print()
print(json.dumps(sorted(sys.modules)))
"""

HEAVY = {"PySide6", "pint", "sqlalchemy", "alembic", "reportlab", "numpy", "PIL", "uncertainties"}


def last_line(code: str) -> object:
    """Run `code` in a new interpreter; return what its last line says, read as JSON."""
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    return json.loads(ran.stdout.splitlines()[-1])


def test_rooms_load_without_qt() -> None:
    names, loaded = last_line(IMPORT_ALL_BUT_THE_WINDOW)
    for room in ("measure", "trade", "derive", "judge", "tasks", "shelf", "instruments", "sheet"):
        assert f"benchlog.{room}" in names
    assert not {name for name in loaded if name.split(".")[0] in {"PySide6", "shiboken6"}}


def test_help_loads_nothing_heavy() -> None:
    loaded = last_line(RUN_HELP)
    assert "argparse" in loaded, "the probe must have reached the command line"
    assert not HEAVY & set(loaded)
