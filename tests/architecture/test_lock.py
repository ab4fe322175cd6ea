"""The lock holds everything the project asks for, by hash, and names no host."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name
from packaging.version import Version

ROOT = Path(__file__).parents[2]
LOCK = (ROOT / "requirements.lock").read_text(encoding="utf-8")
ENTRY = re.compile(r"^(?P<name>[\w.-]+)==(?P<version>[^\s;\\]+)(?P<rest>(?:.*\\\n)*.*)", re.M)


def pinned() -> dict[str, list[Version]]:
    found: dict[str, list[Version]] = {}
    for entry in ENTRY.finditer(LOCK):
        found.setdefault(canonicalize_name(entry["name"]), []).append(Version(entry["version"]))
    return found


def asked() -> list[Requirement]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return [
        Requirement(line)
        for line in [*project["project"]["dependencies"], *project["dependency-groups"]["dev"]]
    ]


def test_lock_answers_every_requirement() -> None:
    pins = pinned()
    unanswered = [
        str(wanted)
        for wanted in asked()
        if not any(
            wanted.specifier.contains(version)
            for version in pins.get(canonicalize_name(wanted.name), [])
        )
    ]
    assert not unanswered


def test_every_entry_has_hashes() -> None:
    entries = list(ENTRY.finditer(LOCK))
    assert len(entries) > len(asked())
    assert not [entry["name"] for entry in entries if "--hash=sha256:" not in entry["rest"]]


def test_lock_names_no_host() -> None:
    assert not re.findall(
        r"https?://\S+|--(?:extra-)?index-url|--find-links", LOCK.split("\n", 2)[2]
    )
