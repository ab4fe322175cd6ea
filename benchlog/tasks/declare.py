"""Declare what a line-up is ranked for, and take that back; both stay on the shelf."""

from __future__ import annotations

from collections.abc import Sequence as Ordered

from benchlog.errors import PlanRefused
from benchlog.judge.declared import Declaration
from benchlog.judge.purposes import Purpose
from benchlog.judge.purposes_json import purpose_as_json
from benchlog.tasks.cut import is_cut
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf
from benchlog.trade.attribute import Sequence


def declare_purpose(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    purpose: Purpose,
    reason: str = "",
    sequence: Sequence | None = None,
) -> Declaration:
    """Declare for what a line-up is ranked, from now on; one declared before stays readable.

    Raises PlanRefused when just this purpose is declared already, and for a weight without end.
    """
    purpose_as_json(purpose)
    standing = standing_declaration(shelf.declarations(lineup_id))
    if standing is not None and standing.purpose == purpose:
        raise PlanRefused(
            f"“{purpose.label}” is declared already.", "Choose another purpose, or take it back."
        )
    return _keep(shelf, clock, lineup_id, purpose, reason, sequence)


def take_back_purpose(
    shelf: Shelf, clock: Clock, lineup_id: str, reason: str = "", sequence: Sequence | None = None
) -> Declaration:
    """Let nothing be declared any more; raises PlanRefused when nothing is."""
    if standing_declaration(shelf.declarations(lineup_id)) is None:
        raise PlanRefused("No purpose is declared for this line-up.", "")
    return _keep(shelf, clock, lineup_id, None, reason, sequence)


def standing_declaration(every: Ordered[Declaration]) -> Declaration | None:
    """Return the declaration that stands, None when none was made or the last was taken back."""
    return every[-1] if every and every[-1].purpose is not None else None


def _keep(
    shelf: Shelf,
    clock: Clock,
    lineup_id: str,
    purpose: Purpose | None,
    reason: str,
    sequence: Sequence | None,
) -> Declaration:
    readings = shelf.readings(lineup_id)
    made = Declaration(
        new_id(),
        lineup_id,
        purpose,
        clock.now(),
        reason.strip(),
        readings[-1].id if readings else "",
        is_cut(shelf, lineup_id, sequence),
    )
    shelf.add_declaration(made)
    return made
