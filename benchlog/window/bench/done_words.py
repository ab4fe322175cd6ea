"""What is said once the last answer of a station is in."""

from __future__ import annotations

from benchlog.tasks.bench_view import BenchView


def done_words(view: BenchView, next_key: str) -> str:
    """Return that the view's station is done and where `next_key` leads; "" while it is not.

    A station is done when its last wanted answer is in and nothing open is asked now; remarks
    that may stay empty hold nobody up.
    """
    keys = [row.key for row in view.stations]
    position = keys.index(view.station.key)
    here = view.stations[position]
    open_remark = view.asked is not None and not view.asked.taken
    if here.missing or not here.asked or open_remark:
        return ""
    if position + 1 < len(keys):
        return f"{here.label} is done: {next_key} goes on to {view.stations[position + 1].label}."
    if view.missing:
        return f"{here.label} is done; {view.missing} answers are missing at other stations."
    return f"{here.label} is done, and with it every station."
