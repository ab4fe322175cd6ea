"""The part of some rules that one kind of filter can answer."""

from __future__ import annotations

from dataclasses import replace

from benchlog.judge.evidence import KINDS
from benchlog.judge.rules import Rules
from benchlog.trade.attribute import Sequence


def asked_in(rules: Rules, sequence: Sequence) -> Rules:
    """Return the rules without the entries that the sequence never asks for.

    A cartridge has no can: its absence is no gap in the coverage. Figures stay with their
    component as long as the sequence asks one of their inputs.
    """
    keys = {attribute.key for attribute in sequence.attributes}
    entries = tuple(entry for entry in rules.entries if _is_asked(entry.subject, keys))
    return replace(rules, entries=entries)


def _is_asked(subject: str, keys: set[str]) -> bool:
    if subject in KINDS:
        return not keys.isdisjoint(KINDS[subject].inputs)
    return subject in keys
