"""What every test stands on: no real shelf in reach, no screen unless asked for, no chance left."""

from __future__ import annotations

import gc
import os
import tempfile
from collections.abc import Generator
from itertools import count
from pathlib import Path

import hypothesis
import pytest

_session_home = tempfile.TemporaryDirectory(prefix="benchlog-tests-", ignore_cleanup_errors=True)
_HOME = Path(_session_home.name)
_nth = count()
TESTS = Path(__file__).parent
DEAR_ROOMS = {"journeys", "judge", "microscope", "sheet", "shelf", "window"}
"""Where a case takes a good part of a second, and its further cases mostly the same lines."""


def pytest_addoption(parser: pytest.Parser) -> None:
    """Let `--real-window` choose the tests that need a screen server."""
    parser.addoption(
        "--real-window",
        action="store_true",
        help="run the tests marked real_window, on the screen that DISPLAY names, and no others",
    )


def pytest_configure(config: pytest.Config) -> None:
    """Settle the process's surroundings before any test module is imported."""
    real = config.getoption("--real-window")
    if real and not os.environ.get("DISPLAY"):
        raise pytest.UsageError("--real-window needs a screen server: DISPLAY is not set.")
    os.environ["QT_QPA_PLATFORM"] = "xcb" if real else "offscreen"
    os.environ["LANG"] = os.environ["LC_ALL"] = "C.UTF-8"
    os.environ.pop("LANGUAGE", None)
    for name in ("CONFIG", "DATA", "STATE", "CACHE"):
        os.environ[f"XDG_{name}_HOME"] = str(_HOME / name.lower())
    runtime = _HOME / "runtime"
    runtime.mkdir(mode=0o700)
    os.environ["XDG_RUNTIME_DIR"] = str(runtime)
    # The processes of a run inherit it from the first, which lives longest and clears it away.
    os.environ.setdefault("BENCHLOG_TESTS_SHARED", str(_HOME / "shared"))
    _choose_hypothesis_profile(config)


def _choose_hypothesis_profile(config: pytest.Config) -> None:
    """No deadline, since machines differ; the same examples each time where CI is set."""
    hypothesis.settings.register_profile("here", deadline=None, max_examples=60)
    hypothesis.settings.register_profile(
        "ci", deadline=None, max_examples=60, derandomize=True, print_blob=True
    )
    if not config.getoption("--hypothesis-profile", default=None):
        hypothesis.settings.load_profile("ci" if os.environ.get("CI") else "here")


@pytest.hookimpl(wrapper=True)
def pytest_collection() -> Generator[None, object, object]:
    """Spare the garbage collector what stays to the end: modules and tests, half a million things.

    Walking them all took it a third of the time of the window's tests.
    """
    gc.disable()
    try:
        return (yield)
    finally:
        gc.collect()
        gc.freeze()
        gc.enable()


def pytest_unconfigure() -> None:
    """Leave nothing behind."""
    _session_home.cleanup()


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    """Run either the tests for a real window or all the others."""
    real = bool(config.getoption("--real-window"))
    kept, left = [], []
    for item in items:
        is_real = item.get_closest_marker("real_window") is not None
        (kept if is_real is real else left).append(item)
    config.hook.pytest_deselected(items=left)
    items[:] = kept
    if config.getoption("cov_source", default=None):
        _measure_once(kept)


def _measure_once(items: list[pytest.Item]) -> None:
    """Measure coverage neither by properties nor by benchmarks, in dear rooms by one case a test.

    To follow every line makes a test take two to three times as long. What is reported is then
    the least that is covered: what only a further case or a drawn example reaches counts as not.
    """
    seen = set()
    for item in items:
        test = getattr(item, "obj", item)
        room = item.path.relative_to(TESTS).parts[0]
        name = item.path, getattr(test, "__qualname__", item.name)
        is_further = name in seen and room in DEAR_ROOMS
        is_property = getattr(test, "is_hypothesis_test", False)
        if is_further or is_property or room == "bench":
            item.add_marker("no_cover")
        seen.add(name)


@pytest.fixture(autouse=True)
def own_user_folders(monkeypatch: pytest.MonkeyPatch) -> None:
    """Give each test settings and data folders of its own, which nothing has written to."""
    place = _HOME / str(next(_nth))
    for name in ("CONFIG", "DATA", "STATE"):
        monkeypatch.setenv(f"XDG_{name}_HOME", str(place / name.lower()))
