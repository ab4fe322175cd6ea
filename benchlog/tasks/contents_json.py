"""A record's contents as plain JSON and back: the very same contents."""

from __future__ import annotations

import json
import re
from typing import Any

import msgspec

from benchlog.errors import PlanRefused
from benchlog.tasks.contents import Contents
from benchlog.tasks.digest import plain
from benchlog.trade.resource_file import PLAIN_KINDS

FORMAT = "benchlog record"
FORMAT_VERSION = 1
TAKE_ANOTHER = "Take another copy of the file."


def plain_contents(contents: Contents) -> dict[str, Any]:
    """Return contents in JSON's own kinds: decimals as text, times in UTC, bytes hexadecimal."""
    return {"format": FORMAT, "format_version": FORMAT_VERSION, "contents": plain(contents)}


def contents_from(given: Any) -> Contents:
    """Return the contents of such a dict; raises PlanRefused, saying what is wrong with it."""
    if not isinstance(given, dict) or given.get("format") != FORMAT:
        raise PlanRefused("This is no record of a line-up.", TAKE_ANOTHER)
    version = given.get("format_version")
    if version != FORMAT_VERSION:
        raise PlanRefused(
            f"This record has format version {version}; this program reads {FORMAT_VERSION}.",
            "Take a newer version of the program.",
        )
    try:
        return msgspec.convert(_with_bytes(given.get("contents")), Contents)
    except (msgspec.ValidationError, ValueError, TypeError, AttributeError) as fault:
        what = _plainly(str(fault))
        raise PlanRefused(f"This record cannot be read: {what}.", TAKE_ANOTHER) from fault


def contents_from_json(text: str) -> Contents:
    """Return the contents of a JSON text; errors as `contents_from`."""
    try:
        given = json.loads(text)
    except (ValueError, RecursionError) as fault:  # nested without end
        what = "This record cannot be read: the text is not sound JSON."
        raise PlanRefused(what, TAKE_ANOTHER) from fault
    return contents_from(given)


def _with_bytes(contents: Any) -> Any:
    """Return the dict with what devices sent as bytes again."""
    readings = contents["readings"] if isinstance(contents, dict) and "readings" in contents else []
    raised = [
        {**one, "raw": bytes.fromhex(one["raw"])} if one.get("raw") is not None else one
        for one in readings
    ]
    return {**contents, "readings": raised} if raised else contents


def _plainly(message: str) -> str:
    """Turn the converter's message into plain words, with the place where it names one."""
    place = re.search(r" - at `\$\.?([^`]*)`", message)
    where = place[1] if place else ""
    what = message.replace(place[0], "") if place else message
    if missing := re.match(r"Object missing required field `(\w+)`", what):
        what = f"'{missing[1]}' is missing"
    elif wrong := re.match(r"Expected `([\w |]+)`, got `(\w+)`", what):
        wanted = " or ".join(PLAIN_KINDS.get(k, k) for k in wrong[1].split(" | "))
        what = f"wants {wanted}, not {PLAIN_KINDS.get(wrong[2], wrong[2])}"
    return f"{where}: {what}" if where else what
