"""The part of some rules that one kind of filter can answer."""

from __future__ import annotations

from dataclasses import replace

from benchlog.judge.evidence import KINDS
from benchlog.judge.rules import AttributeRule, Rules
from benchlog.trade.attribute import Sequence
from benchlog.trade.component import Component


def asked_in(rules: Rules, sequence: Sequence) -> Rules:
    """Return the rules without the entries that the sequence never asks for.

    A cartridge has no can: its absence is no gap in the coverage. Figures stay with their
    component as long as the sequence asks one of their inputs.
    """
    components = {attribute.key: attribute.component for attribute in sequence.attributes}
    entries = tuple(entry for entry in rules.entries if _is_asked(entry, components))
    return replace(rules, entries=entries)


def _is_asked(entry: AttributeRule, components: dict[str, Component]) -> bool:
    """Whether the sequence answers an entry; what it asks of another component is another thing."""
    if entry.subject in KINDS:
        return not components.keys().isdisjoint(KINDS[entry.subject].inputs)
    return components.get(entry.subject) is entry.component
