"""The front page's one line on the rules: locked when, before or after the cut, and changed since.

The Method tells the whole story; a line here that something changed points to it.
"""

from __future__ import annotations

from benchlog.judge.rules_file import digest
from benchlog.tasks.lock import DIGEST_SHOWN, moment_text
from benchlog.tasks.record import Record

SEE = "see Method"


def lock_line(record: Record) -> str:
    """Return when the rules were locked, seen from the cut, with the digest they are known by."""
    mark = f"digest {digest(record.rules)[:DIGEST_SHOWN]}"
    locks = record.locks
    if not locks:
        so_far = "before the cut" if record.cut_made else "so far"
        return f"Rules not locked {so_far}, {mark}."
    first, later = locks[0], locks[1:]
    words = f"Rules locked {moment_text(first.at)}, before the cut"
    if first.after_cut:
        words = f"Rules not locked before the cut, put down {moment_text(first.at)}"
    changed = [side for side, late in (("before", False), ("after", True))
               if any(lock.after_cut is late for lock in later)]  # fmt: skip
    if changed:
        words += f"; changed {' and '.join(changed)} the cut: {SEE}"
    if digest(record.rules) != locks[-1].digest:
        words += f"; scored here under other rules than those in force: {SEE}"
    return f"{words}; {mark}." if ";" in words else f"{words}, {mark}."
