"""What no file of the project may hold: places of one machine, hosts, loose ends, promises."""

from __future__ import annotations

import re
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
LARGEST_BYTES = 1_000_000

MACHINE_PATH = re.compile(r"(?<![\w.])/(?:work|root|home|Users)/\w|\b[A-Z]:\\Users\\")
PACKAGE_HOST = re.compile(r"pypi\.org|pythonhosted\.org|(?:deb|security)\.debian\.org|crates\.io")
LOOSE_END = re.compile(r"\b(?:TO[D]O|FIX[M]E|X{3}|HAC[K])\b|^[<>]{7} ")
# A bench cannot show any of these, so no text that a reviewer or a viewer reads may say them.
PROMISE = re.compile(
    r"filters? better|holds? more dirt|lasts? longer|protects? (?:your|the) engine", re.I
)


def tracked() -> list[Path]:
    if not (ROOT / ".git").exists() or shutil.which("git") is None:
        pytest.skip("without a checkout and git nothing says which files are the project's")
    listed = subprocess.run(
        # A checkout may belong to someone else than whoever runs its checks.
        ["git", "-c", f"safe.directory={ROOT}", "ls-files", "-z"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=True,
    )
    return [ROOT / name for name in listed.stdout.split("\0") if name and (ROOT / name).is_file()]


def texts() -> dict[Path, str]:
    found = {}
    for file in tracked():
        data = file.read_bytes()
        if b"\0" not in data:
            found[file.relative_to(ROOT)] = data.decode("utf-8")
    return found


def places(pattern: re.Pattern[str], found: dict[Path, str]) -> list[str]:
    return [
        f"{file}:{number}: {line.strip()[:100]}"
        for file, text in found.items()
        for number, line in enumerate(text.splitlines(), 1)
        if pattern.search(line)
    ]


@pytest.mark.parametrize("pattern", [MACHINE_PATH, PACKAGE_HOST, LOOSE_END])
def test_no_file_says(pattern: re.Pattern[str]) -> None:
    found = places(pattern, texts())
    assert not found


def test_resources_promise_nothing() -> None:
    read = {file: text for file, text in texts().items() if file.parts[0] == "resources"}
    found = places(PROMISE, read)
    assert not found


def test_files_are_small_and_plainly_named() -> None:
    files = tracked()
    assert not [file.name for file in files if file.stat().st_size > LARGEST_BYTES]
    assert not [file.name for file in files if not re.fullmatch(r"[\w.-]+", file.name, re.ASCII)]


@pytest.mark.parametrize(
    ("pattern", "text"),
    [
        (MACHINE_PATH, "see /" + "home/reviewer/shelf"),
        (MACHINE_PATH, "C:" + "\\Users\\reviewer"),
        (PACKAGE_HOST, "from files.python" + "hosted.org"),
        (LOOSE_END, "# TO" + "DO later"),
        (PROMISE, "Amber filters bet" + "ter"),
    ],
)
def test_pattern_finds_its_breach(pattern: re.Pattern[str], text: str) -> None:
    assert pattern.search(text)
