"""The one unit registry, and quantities over it."""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

import pint

Quantity: TypeAlias = "pint.Quantity[Any]"


@cache
def registry() -> pint.UnitRegistry[Any]:
    """Return the program's only unit registry; made on first use because it is slow to make."""
    return pint.UnitRegistry(cache_folder=":auto:")
