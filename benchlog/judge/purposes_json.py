"""A purpose as plain JSON and back: the very same purpose."""

from __future__ import annotations

import hashlib
import json
from dataclasses import asdict

import msgspec

from benchlog.errors import PlanRefused
from benchlog.judge.purposes import Purpose

TAKE_ANOTHER = "Take another copy of it, or declare the purpose again."


def purpose_as_json(purpose: Purpose) -> str:
    """Return a purpose as canonical JSON: sorted keys, no spaces, each float with all its digits.

    Raises PlanRefused for a number without an end, which JSON has no word for.
    """
    plain = msgspec.to_builtins(asdict(purpose))
    try:
        return json.dumps(
            plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False, allow_nan=False
        )
    except ValueError as fault:
        raise PlanRefused(
            "A weight of this purpose has no end.", "Type a plain number instead."
        ) from fault


def purpose_from_json(text: str) -> Purpose:
    """Return the purpose of a JSON text; raises PlanRefused, saying what is wrong with it."""
    try:
        return msgspec.convert(json.loads(text), Purpose)
    except (ValueError, RecursionError, msgspec.ValidationError) as fault:
        raise PlanRefused(f"This purpose cannot be read: {fault}.", TAKE_ANOTHER) from fault


def purpose_digest(purpose: Purpose) -> str:
    """Return the SHA-256 of a purpose's canonical JSON, in hexadecimal."""
    return hashlib.sha256(purpose_as_json(purpose).encode()).hexdigest()
