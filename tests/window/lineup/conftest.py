"""A desk to sit down at, and someone planning a line-up there."""

from __future__ import annotations

from tests.window.place_fixtures import desk, sample_desk, sit  # noqa: F401
from tests.window.plan_scenes import kept, plan  # noqa: F401
