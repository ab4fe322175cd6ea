"""The reviewer's own sentences beside the verdict."""

from __future__ import annotations

from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Remark, Shelf


def say(
    shelf: Shelf, clock: Clock, lineup_id: str, component: str, text: str, specimen_id: str = ""
) -> Remark:
    """Keep a sentence on a component (of one specimen, or of the comparison); latest counts."""
    remark = Remark(new_id(), lineup_id, component, specimen_id, text.strip(), clock.now())
    shelf.add_remark(remark)
    return remark
