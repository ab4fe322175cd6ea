"""A set of rules as plain JSON and back: the very same rules, the very same digest."""

from __future__ import annotations

import json
import re
from dataclasses import asdict
from typing import Any

import msgspec

from benchlog.errors import PlanRefused
from benchlog.judge.rule_checks import fault_in_set
from benchlog.judge.rules import Rules
from benchlog.judge.rules_file import every_subject, without_defaults
from benchlog.trade.resource_file import PLAIN_KINDS

NOT_READ = "These rules cannot be read: {what}."
TAKE_ANOTHER = "Take another copy of them, or the set that came with the program."


def plain_rules(rules: Rules) -> dict[str, Any]:
    """Return rules as a dict in JSON's own kinds; entries keep their order."""
    return without_defaults(msgspec.to_builtins(asdict(rules)))


def rules_as_json(rules: Rules) -> str:
    """Return rules as canonical JSON: sorted keys, no spaces, each float with all its digits.

    Raises PlanRefused for a number without an end, which JSON has no word for.
    """
    try:
        return json.dumps(
            plain_rules(rules),
            sort_keys=True,
            separators=(",", ":"),
            ensure_ascii=False,
            allow_nan=False,
        )
    except ValueError as fault:
        raise PlanRefused(
            "A number in these rules has no end.", "Type a plain number instead."
        ) from fault


def rules_from(plain: Any) -> Rules:
    """Return the rules of such a dict, whatever they speak of.

    Rules locked years ago may speak of an attribute that is asked no longer; they stay readable.
    Raises PlanRefused, saying what is missing or of another kind, for anything else.
    """
    try:
        return msgspec.convert(plain, Rules)
    except msgspec.ValidationError as fault:
        what = NOT_READ.format(what=_plainly(str(fault)))
        raise PlanRefused(what, TAKE_ANOTHER) from fault


def rules_from_json(text: str) -> Rules:
    """Return the rules of a JSON text; errors as `rules_from`."""
    try:
        plain = json.loads(text)
    except (ValueError, RecursionError) as fault:
        what = NOT_READ.format(what="the text is not sound JSON")
        raise PlanRefused(what, TAKE_ANOTHER) from fault
    return rules_from(plain)


def sound(rules: Rules) -> Rules:
    """Return rules that may be locked or kept; raises PlanRefused naming the first fault."""
    fault = fault_in_set(rules, every_subject())
    if fault:
        raise PlanRefused(fault, "Put that rule right first.", field="rules")
    return rules


def _plainly(message: str) -> str:
    """Turn the converter's message into plain words, with the entry where it names one."""
    place = re.search(r" - at `\$\.?([^`]*)`", message)
    where = place[1] if place else ""
    what = message.replace(place[0], "") if place else message
    if missing := re.match(r"Object missing required field `(\w+)`", what):
        what = f"'{missing[1]}' is missing"
    elif wrong := re.match(r"Expected `([\w |]+)`, got `(\w+)`", what):
        wanted = " or ".join(PLAIN_KINDS.get(k, k) for k in wrong[1].split(" | "))
        what = f"wants {wanted}, not {PLAIN_KINDS.get(wrong[2], wrong[2])}"
    else:
        what = what.replace("Invalid enum value", "not a known word:")
    return f"{where}: {what}" if where else what
