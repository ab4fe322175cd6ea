"""The linter that guards the arrows is itself guarded: a planted breach must break its contract."""

from __future__ import annotations

import shutil
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]

# Each room, and one that stands above it or beside it and which it therefore may not know.
UPWARD = [
    ("window", "__main__"),
    ("window", "cli"),
    ("cli", "window"),
    ("wiring", "window"),
    ("wiring", "cli"),
    ("shelf", "wiring"),
    ("shelf", "instruments"),
    ("instruments", "microscope"),
    ("microscope", "sheet"),
    ("sheet", "shelf"),
    ("tasks", "shelf"),
    ("tasks", "instruments"),
    ("judge", "tasks"),
    ("derive", "judge"),
    ("trade", "derive"),
    ("measure", "trade"),
    ("settings", "measure"),
    ("errors", "settings"),
]

# Each contract about an outside library, its libraries, and the room that may use them.
OUTSIDE = [
    ("qt", ["PySide6", "shiboken6"], "window"),
    ("database", ["sqlalchemy", "alembic"], "shelf"),
    ("print", ["reportlab"], "sheet"),
    ("pictures", ["skimage"], "microscope"),
    ("ports", ["serial"], "instruments"),
]
ROOMS = sorted({room for pair in UPWARD for room in pair})


@pytest.fixture
def copy(tmp_path: Path) -> Path:
    """Copy the package and its contracts, with a file for every room to plant in."""
    shutil.copy(ROOT / "pyproject.toml", tmp_path)
    shutil.copytree(
        ROOT / "benchlog", tmp_path / "benchlog", ignore=shutil.ignore_patterns("__pycache__")
    )
    return tmp_path


def plant(copy: Path, room: str, line: str) -> str:
    """Write an import into a room; return the name of the module that now holds it."""
    folder = copy / "benchlog" / room
    file = folder / "planted.py" if folder.is_dir() else folder.with_suffix(".py")
    with file.open("a", encoding="utf-8") as stream:
        stream.write(f"\n{line}\n")
    return f"benchlog.{room}.planted" if folder.is_dir() else f"benchlog.{room}"


def lint(copy: Path, contract: str) -> subprocess.CompletedProcess[str]:
    """Run one contract over the copy."""
    program = Path(sys.executable).with_name("lint-imports")
    return subprocess.run(
        [program, "--no-cache", "--no-logo", "--contract", contract],
        cwd=copy,
        capture_output=True,
        text=True,
        check=False,
    )


def assert_broken_by(found: subprocess.CompletedProcess[str], edges: list[str]) -> None:
    assert found.returncode == 1, found.stdout + found.stderr
    missed = [edge for edge in edges if edge not in found.stdout]
    assert not missed, found.stdout


@pytest.mark.parametrize("contract", ["arrows", *(contract for contract, _, _ in OUTSIDE)])
def test_untouched_copy_keeps_contract(copy: Path, contract: str) -> None:
    found = lint(copy, contract)
    assert found.returncode == 0, found.stdout + found.stderr
    assert "1 kept, 0 broken" in found.stdout


@pytest.mark.parametrize(("room", "above"), UPWARD)
def test_import_against_arrow_found(copy: Path, room: str, above: str) -> None:
    module = plant(copy, room, f"import benchlog.{above}")
    found = lint(copy, "arrows")
    assert_broken_by(found, [f"{module} -> benchlog.{above}"])


def test_room_without_layer_found(copy: Path) -> None:
    attic = copy / "benchlog" / "attic"
    attic.mkdir()
    (attic / "__init__.py").touch()
    found = lint(copy, "arrows")
    assert found.returncode == 1
    assert "attic" in found.stdout


@pytest.mark.parametrize(("contract", "libraries", "owner"), OUTSIDE)
def test_library_in_wrong_room_found(
    copy: Path, contract: str, libraries: list[str], owner: str
) -> None:
    edges = []
    for room in ROOMS:
        if room == owner:
            continue
        for library in libraries:
            edges.append(f"{plant(copy, room, f'import {library}')} -> {library}")
    assert_broken_by(lint(copy, contract), edges)


@pytest.mark.parametrize(("contract", "libraries", "owner"), OUTSIDE)
def test_library_in_own_room_allowed(
    copy: Path, contract: str, libraries: list[str], owner: str
) -> None:
    for library in libraries:
        plant(copy, owner, f"import {library}")
    found = lint(copy, contract)
    assert found.returncode == 0, found.stdout


def test_every_contract_is_tried_here() -> None:
    contracts = tomllib.loads((ROOT / "pyproject.toml").read_text())["tool"]["importlinter"][
        "contracts"
    ]
    assert {contract["id"] for contract in contracts} == {"arrows", *(id_ for id_, _, _ in OUTSIDE)}
