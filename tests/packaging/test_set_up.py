"""What the two commands do on machines that lack something, played with stand-in programs."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
PLAIN_PROGRAMS = ("bash", "cat", "dirname", "head", "rm", "uname", "env", "basename", "sha256sum")
LIBRARIES = [
    line.split()
    for line in (ROOT / "packaging" / "setup.sh")
    .read_text()
    .split("QT_LIBRARIES='")[1]
    .split("'")[0]
    .split("\n")
    if line
]

pytestmark = pytest.mark.skipif(sys.platform != "linux", reason="stands in for Debian's programs")


class Machine:
    """A folder that is the whole PATH, and a checkout that holds only the set-up script."""

    def __init__(self, place: Path) -> None:
        self.programs = place / "bin"
        self.programs.mkdir()
        self.checkout = place / "checkout"
        (self.checkout / "packaging").mkdir(parents=True)
        shutil.copy(ROOT / "packaging" / "setup.sh", self.checkout / "packaging")
        for name in ("pyproject.toml", "requirements.lock"):
            (self.checkout / name).write_text(f"{name}\n")
        for name in PLAIN_PROGRAMS:
            (self.programs / name).symlink_to(str(shutil.which(name)))
        self.calls = place / "calls"
        self.has("id", "echo 1000")
        self.has("sudo", "exit 1")
        self.has("ldconfig", "\n".join(f"echo '\t{name} (libc6) => x'" for name, _ in LIBRARIES))
        self.has("apt-get", f'echo "$@" >>{self.calls}')

    def has(self, name: str, script: str) -> None:
        """Put a program on the machine."""
        file = self.programs / name
        file.write_text(f"#!{shutil.which('bash')}\n{script}\n")
        file.chmod(0o755)

    def has_python(self, version: str, *, with_venv: bool = True, name: str = "python3") -> None:
        """Put on a Python that answers as one of that version would."""
        major, minor = version.split(".")[:2]
        right = int(not 311 <= int(major) * 100 + int(minor) < 316)
        self.has(
            name,
            f"""case "$*" in
            *version_info*) exit {right} ;;
            *ensurepip*) exit {int(not with_venv)} ;;
            *python_version*) echo {version} ;;
            esac""",
        )

    def run(self, code: str) -> subprocess.CompletedProcess[str]:
        """Source the script on this machine and go on with `code`."""
        return subprocess.run(
            [self.programs / "bash", "-c", f"set -euo pipefail; source packaging/setup.sh; {code}"],
            cwd=self.checkout,
            env={"PATH": str(self.programs)},
            capture_output=True,
            text=True,
            check=False,
        )

    def called(self) -> list[str]:
        return self.calls.read_text().splitlines() if self.calls.exists() else []


@pytest.fixture
def machine(tmp_path: Path) -> Machine:
    return Machine(tmp_path)


def test_old_python_named_plainly(machine: Machine) -> None:
    machine.has_python("3.10.12")
    ran = machine.run("want_python")
    assert ran.returncode == 1
    assert "3.11 to 3.15" in ran.stderr
    assert "3.10.12" in ran.stderr


def test_newer_python_beside_old_one_taken(machine: Machine) -> None:
    machine.has_python("3.10.12")
    machine.has_python("3.12.1", name="python3.12")
    assert machine.run("find_python").stdout.strip() == str(machine.programs / "python3.12")


@pytest.mark.parametrize("missing", range(0, len(LIBRARIES), 5))
def test_missing_library_wanted_by_package(machine: Machine, missing: int) -> None:
    present = [name for nth, (name, _) in enumerate(LIBRARIES) if nth != missing]
    machine.has("ldconfig", "\n".join(f"echo '\t{name} (libc6) => x'" for name in present))
    ran = machine.run('want_qt_libraries; echo "${APT_WANTED[*]}"')
    assert ran.stdout.strip() == LIBRARIES[missing][1]


def test_complete_machine_wants_nothing(machine: Machine) -> None:
    machine.has_python("3.11.2")
    ran = machine.run('want_qt_libraries; want_python; install_wanted; echo "${#APT_WANTED[@]}"')
    assert (ran.returncode, ran.stdout.strip()) == (0, "0")
    assert machine.called() == []


def test_without_rights_one_line_is_printed(machine: Machine) -> None:
    machine.has_python("3.11.2", with_venv=False)
    machine.has("ldconfig", ":")
    ran = machine.run("want_qt_libraries; want_python; install_wanted; echo went on")
    assert ran.returncode == 1
    assert "went on" not in ran.stdout
    (line,) = [line for line in ran.stderr.splitlines() if "apt-get" in line]
    assert line.strip().startswith("sudo apt-get install -y --no-install-recommends ")
    assert {package for _, package in LIBRARIES} | {"python3-venv"} <= set(line.split())
    assert machine.called() == []


@pytest.mark.parametrize("rights", ["root", "sudo without a password"])
def test_with_rights_apt_installs(machine: Machine, rights: str) -> None:
    if rights == "root":
        machine.has("id", "echo 0")
    else:
        machine.has("sudo", '[ "$1" = -n ] && shift && exec "$@"')
        machine.has("true", "exit 0")
    ran = machine.run("APT_WANTED=(libegl1 xvfb); install_wanted")
    assert ran.returncode == 0, ran.stderr
    assert machine.called() == ["install -y --no-install-recommends libegl1 xvfb -q"]


def test_stale_package_lists_are_renewed(machine: Machine) -> None:
    machine.has("id", "echo 0")
    machine.has(
        "apt-get",
        f'echo "$1" >>{machine.calls}; [ "$1" = update ] || [ -e {machine.calls}.2 ] || '
        f"{{ : >{machine.calls}.2; exit 100; }}",
    )
    assert machine.run("APT_WANTED=(libegl1); install_wanted").returncode == 0
    assert machine.called() == ["install", "update", "install"]


def test_failing_apt_is_quoted(machine: Machine) -> None:
    machine.has("id", "echo 0")
    machine.has("apt-get", "echo E: no room on the disk; exit 100")
    ran = machine.run("APT_WANTED=(libegl1); install_wanted")
    assert ran.returncode == 1
    assert "E: no room on the disk" in ran.stderr


def test_system_without_apt_is_told_names(machine: Machine) -> None:
    (machine.programs / "apt-get").unlink()
    ran = machine.run("APT_WANTED=(libegl1); install_wanted")
    assert ran.returncode == 1
    assert "libegl1" in ran.stderr


def test_stamp_follows_lock_and_place(machine: Machine) -> None:
    first = machine.run("expected_stamp").stdout
    assert first.splitlines()[0] == str(machine.checkout)
    (machine.checkout / "requirements.lock").write_text("something newer\n")
    assert machine.run("expected_stamp").stdout.splitlines()[1] != first.splitlines()[1]


def test_fresh_stamp_leaves_environment_alone(machine: Machine) -> None:
    stamp = machine.run("expected_stamp").stdout
    (machine.checkout / ".venv" / "bin").mkdir(parents=True)
    (machine.checkout / ".venv" / "bin" / "python").symlink_to(sys.executable)
    (machine.checkout / ".venv" / "benchlog-stamp").write_text(f"{stamp}\n")
    ran = machine.run("make_environment() { echo made; }; set_up; echo ready")
    assert ran.stdout == "ready\n", ran.stderr
    (machine.checkout / "pyproject.toml").write_text("changed\n")
    ran = machine.run("make_environment() { echo made; }; set_up; echo ready")
    assert ran.stdout == "made\nready\n"


def test_run_reaches_program_from_anywhere(tmp_path: Path) -> None:
    link = tmp_path / "benchlog"
    link.symlink_to(ROOT / "packaging" / "run")
    (tmp_path / "argparse.py").write_text("raise SystemExit('the wrong argparse')\n")
    stamp = ROOT / ".venv" / "benchlog-stamp"
    if not stamp.exists():
        pytest.skip("this environment was not made by packaging/run")
    ran = subprocess.run(
        [link, "--help"], cwd=tmp_path, env=os.environ, capture_output=True, text=True, check=False
    )
    assert ran.returncode == 0, ran.stderr
    assert "rehearse" in ran.stdout
