"""What every test of the window stands on."""

from __future__ import annotations

import gc
from collections.abc import Iterator

import pytest


@pytest.fixture(autouse=True)
def collected_here() -> Iterator[None]:
    """Collect garbage between tests, on this thread, as the program does (see window/tidy.py)."""
    gc.disable()
    yield
    gc.collect()
