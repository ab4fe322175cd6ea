"""One failed check fails them all, and the summary names it; played with stand-in checks."""

from __future__ import annotations

import hashlib
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
CHECKS = ("ruff", "mypy", "lint-imports", "python")

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="stands in for Debian's programs")


@pytest.fixture
def checkout(tmp_path: Path) -> Path:
    """Make a checkout that is set up, where every check passes and writes down its arguments."""
    (tmp_path / "packaging").mkdir()
    for name in ("test", "setup.sh"):
        shutil.copy(ROOT / "packaging" / name, tmp_path / "packaging")
    for name in ("requirements.lock", "pyproject.toml"):
        (tmp_path / name).touch()
    programs = tmp_path / ".venv" / "bin"
    programs.mkdir(parents=True)
    stamp = f"{tmp_path}\n{hashlib.sha256(b'').hexdigest()}\n"
    (tmp_path / ".venv" / "benchlog-stamp").write_text(stamp)
    for name in CHECKS:
        stand_in(programs / name, "exit 0")
    machine = tmp_path / "machine"
    machine.mkdir()
    for name in ("Xvfb", "xauth", "openbox", "ldconfig"):
        stand_in(machine / name, "exit 1")
    stand_in(machine / "xvfb-run", 'echo "on a screen" >>calls; shift 3; exec "$@"')
    return tmp_path


def stand_in(file: Path, script: str) -> None:
    file.write_text(f'#!/bin/sh\necho "{file.name} $*" >>calls\n{script}\n')
    file.chmod(0o755)


def run(checkout: Path, *arguments: str) -> tuple[int, str, list[str]]:
    """Run the checks; return the exit status, what was printed and what was called."""
    ran = subprocess.run(
        [checkout / "packaging" / "test", *arguments],
        env={"PATH": f"{checkout / 'machine'}:{os.environ['PATH']}"},
        cwd=checkout,
        capture_output=True,
        text=True,
        check=False,
    )
    assert not ran.stderr
    return ran.returncode, ran.stdout, (checkout / "calls").read_text().splitlines()


def test_all_passing_passes(checkout: Path) -> None:
    status, said, calls = run(checkout)
    assert status == 0
    summary = said.partition("== Summary")[2].splitlines()[1:]
    assert len(summary) == 7
    assert all(line.startswith("passed") for line in summary)
    screen = calls.index("on a screen")
    assert not [call for call in calls[:screen] if call.startswith("python") and "--real" in call]
    assert [call for call in calls[screen:] if call.startswith("python") and "--real" in call]


@pytest.mark.parametrize("failing", CHECKS)
def test_failing_check_fails_all(checkout: Path, failing: str) -> None:
    stand_in(checkout / ".venv" / "bin" / failing, "exit 3")
    status, said, calls = run(checkout)
    assert status == 1
    failed = [line for line in said.splitlines() if line.startswith("FAILED")]
    assert len(failed) == {"ruff": 2, "python": 3}.get(failing, 1)
    # The checks that come after are run all the same.
    assert {call.split()[0] for call in calls} >= set(CHECKS)


def test_arguments_go_to_pytest_alone(checkout: Path) -> None:
    status, _, calls = run(checkout, "tests/measure", "-k", "inches")
    assert status == 0
    assert [call for call in calls if not call.startswith("ldconfig")] == [
        "python -m pytest tests/measure -k inches"
    ]


def test_failing_tests_fail_with_arguments(checkout: Path) -> None:
    stand_in(checkout / ".venv" / "bin" / "python", "exit 1")
    assert run(checkout, "tests/measure")[0] == 1
    assert run(checkout, "--real-window")[0] == 1
