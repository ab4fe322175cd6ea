"""A desk to sit down at."""

from __future__ import annotations

from tests.window.place_fixtures import desk, sample_desk, sit  # noqa: F401
