"""A program killed at any moment: whatever it acknowledged is on the disk."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

import benchlog
from benchlog.shelf import check_shelf, open_shelf
from tests.shelf import scenes

ADDING = """
import os, sys
from pathlib import Path
from benchlog.shelf import open_shelf
from tests.shelf import scenes
def tell(what):
    os.write(1, f"{what}\\n".encode())
def add():
    shelf = open_shelf(Path(sys.argv[1]))
    number = len(shelf.readings("spring"))
    while True:
        shelf.add_reading(scenes.reading(f"reading {number}"))
        tell(number)
        shelf.save_place(scenes.place(f"station {number}"))
        number += 1
for _ in sys.stdin:
    child = os.fork()
    if child == 0:
        add()
    tell(f"child {child}")
    os.waitpid(child, 0)
    tell("dead")
"""
"""Starts a program that adds readings each time it is told to; starting afresh takes long."""


@pytest.fixture
def nursery(folder: Path) -> Iterator[subprocess.Popen[str]]:
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
    with subprocess.Popen(
        [sys.executable, "-c", ADDING, str(folder)],
        stdin=subprocess.PIPE,
        stdout=subprocess.PIPE,
        text=True,
        cwd=Path(benchlog.__file__).parents[1],
    ) as running:
        yield running


def killed_while_adding(nursery: subprocess.Popen[str], after: int) -> list[int]:
    """Kill a program that told of `after` readings, wherever it is; return all it told of."""
    assert nursery.stdin is not None
    assert nursery.stdout is not None
    nursery.stdin.write("go\n")
    nursery.stdin.flush()
    lines = (line.strip() for line in nursery.stdout)
    child, told = 0, []
    while not child or len(told) < after:  # who it is may come after its first words
        line = next(lines)
        if line.startswith("child "):
            child = int(line.removeprefix("child "))
        else:
            told.append(int(line))
    os.kill(child, signal.SIGKILL)
    return told + [int(line) for line in iter(lambda: next(lines), "dead")]


def test_killed_program_loses_nothing(folder: Path, nursery: subprocess.Popen[str]) -> None:
    chance = random.Random(7)
    acknowledged: list[int] = []
    for _ in range(20):
        acknowledged += killed_while_adding(nursery, chance.randint(1, 25))
        with open_shelf(folder, read_only=True) as view:
            kept = [int(one.id.split()[1]) for one in view.readings("spring")]
            place = view.place("spring")
        assert kept == list(range(len(kept)))
        assert set(acknowledged) <= set(kept)
        assert len(kept) - len(acknowledged) <= 20
        if place is not None:
            assert int(place.station.split()[1]) in kept[-2:]
            assert place.half_typed == "28"
    assert len(acknowledged) >= 100
    assert check_shelf(folder) == []
    with open_shelf(folder) as shelf:
        assert len(shelf.readings("spring")) == len(kept)


MAKING = """
import os, sys
from pathlib import Path
from benchlog.shelf import migrate, open_shelf
if sys.argv[2] == "before":
    migrate.upgrade = lambda raw, *rest: os.kill(os.getpid(), 9)
else:
    migrate.sync_folder = lambda folder: os.kill(os.getpid(), 9)
open_shelf(Path(sys.argv[1]))
"""


@pytest.mark.parametrize("moment", ["before", "after"])
def test_killed_while_making_a_shelf(tmp_path: Path, moment: str) -> None:
    folder = tmp_path / "shelf"
    ran = subprocess.run(
        [sys.executable, "-c", MAKING, str(folder), moment],
        check=False,
        cwd=Path(benchlog.__file__).parents[1],
    )
    assert ran.returncode == -9
    with open_shelf(folder) as shelf:
        scenes.set_up(shelf)
        assert shelf.lineup("spring") == scenes.LINEUP
    assert check_shelf(folder) == []
