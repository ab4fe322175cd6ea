"""The choices about what goes out, kept on this machine for each line-up."""

from __future__ import annotations

from benchlog.tasks.publish_wishes import PublishWishes, kept_wishes, wishes_back
from benchlog.window.desk import Desk

ANY_LINEUP = ""


def wishes_of(desk: Desk) -> PublishWishes:
    """Return what was chosen for the line-up in hand; at first the usual, by the last licence."""
    kept = desk.settings.publishing
    return wishes_back(kept.get(desk.lineup_id) or kept.get(ANY_LINEUP) or {})


def keep_wishes(desk: Desk, wishes: PublishWishes) -> None:
    """Keep what was chosen for the line-up in hand, and its licence for the next one."""
    kept = dict(desk.settings.publishing)
    kept[desk.lineup_id] = kept_wishes(wishes)
    kept[ANY_LINEUP] = {"licence": wishes.licence}
    if kept != desk.settings.publishing:
        desk.change_settings(publishing=kept)
