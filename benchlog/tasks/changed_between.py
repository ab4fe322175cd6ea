"""Hold one frozen record against a later one and say, in words, everything that changed."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping
from typing import Any

from benchlog.tasks.changed import (
    AwardChange,
    Change,
    FigureChange,
    InstrumentChange,
    LicenceChange,
    PhotoChange,
    PictureChange,
    PlanEdit,
    PurposeChange,
    ReadingChange,
    RemarkChange,
    RuleChange,
)
from benchlog.tasks.wanted import wished_between

Plain = Mapping[str, Any]
SCRATCHED = "scratched"
NONE_DECLARED: Plain = {"story": [], "ranks": []}
"""What stands of purposes in a record that was frozen before any could be declared."""


def changed_between(older: Plain, newer: Plain) -> tuple[Change, ...]:
    """Return every change from one frozen record to a later one of the same line-up.

    Both are as `frozen_record.frozen` gives them; nothing of today's rules or sequence is asked.
    Readings come first, then what follows from them, then the plan and the rest.
    """
    readings = tuple(_readings(older, newer))
    return (
        *readings,
        *_awards(older, newer),
        *_values(older, newer, {(one.subject, one.specimen_id) for one in readings}),
        *_rules(older, newer),
        *_purpose(older, newer),
        *_plan(older, newer),
        *_instruments(older, newer),
        *_remarks(older, newer),
        *_photos(older, newer),
        *_pictures(older, newer),
        *_licence(older, newer),
        *wished_between(older.get("wanted"), newer.get("wanted")),
    )


def _licence(older: Plain, newer: Plain) -> Iterator[LicenceChange]:
    """Compare the data's licences; one that is not known, or is not asked about, says nothing."""
    before, now = older.get("licence"), newer.get("licence")
    if before is not None and now and now != before:
        yield LicenceChange("Licence of the data", before, now)


def _readings(older: Plain, newer: Plain) -> Iterator[ReadingChange]:
    """Follow each reading that stood to what stands in its place, then name the added ones."""
    now = {one["id"]: one for one in newer["readings"]}
    follower = {one["supersedes"]: one for one in newer["readings"] if one["supersedes"]}
    reached: set[str] = set()
    for old in older["readings"]:
        if not old["stands"]:
            continue
        new, reasons = now.get(old["id"]), []
        while new is not None and new["id"] in follower:
            new = follower[new["id"]]
            reasons.append(new["reason"].strip().rstrip("."))
        said = SCRATCHED if new is None or new["withdrawn"] else new["text"]
        reached.add(old["id"] if new is None else new["id"])
        why = "; ".join(dict.fromkeys(filter(None, reasons)))
        if said != old["text"] or why:
            yield _reading_change(old, old["text"], said, why)
    for new in newer["readings"]:
        if new["stands"] and new["id"] not in reached:
            yield _reading_change(new, "", new["text"], new["reason"].strip().rstrip("."))


def _reading_change(one: Plain, old: str, new: str, reason: str) -> ReadingChange:
    repeat = f", reading {one['ordinal']}" if one["ordinal"] > 1 else ""
    what = f"{one['specimen']} · {one['label']}{repeat}"
    return ReadingChange(what, old, new, reason, one["subject"], one["specimen_id"], one["id"])


def _values(older: Plain, newer: Plain, told: set[tuple[str, str]]) -> Iterator[FigureChange]:
    """Compare findings, figures and scores; a single reading's own finding says nothing more."""

    def named(one: Plain) -> tuple[str, str, str]:
        return one["kind"], one["key"], one["specimen_id"]

    for old, new in _pairs(older["values"], newer["values"], named):
        one = new or old or {}
        before, after = _text(old), _text(new)
        place = (one["key"], one["specimen_id"])
        counts = [part["readings"] for part in (old, new) if part]
        alone = one["kind"] == "finding" and place in told and max(counts) < 2
        if before != after and not alone:
            what = f"{one['specimen']} · {one['label']}"
            yield FigureChange(what, before, after, "", *place)


def _awards(older: Plain, newer: Plain) -> Iterator[AwardChange]:
    for old, new in _pairs(older["awards"], newer["awards"], lambda one: one["component"]):
        one = new or old or {}
        if _text(old) != _text(new):
            yield AwardChange(one["label"], _text(old), _text(new), "", one["component"])
        if new and (said := new.get("hand", "")) not in ("", (old or {}).get("hand", "")):
            what = f"{one['label']}, by hand: {said.rstrip('.')}"
            yield AwardChange(what, "", "", "", one["component"])


def _rules(older: Plain, newer: Plain) -> Iterator[RuleChange]:
    before, after = older["rules"], newer["rules"]
    locks = after["locks"][len(before["locks"]) :]
    why = "; ".join(filter(None, (lock["reason"].strip().rstrip(".") for lock in locks)))
    for what, old, new in _fields("Rules", before["fields"], after["fields"]):
        yield RuleChange(what, old, new, why)
    entries = _pairs(before["entries"], after["entries"], lambda one: one["subject"])
    for was, now in entries:
        label = f"Rule for {(now or was or {})['label']}"
        if was is None or now is None:
            came = f"{label} came in" if was is None else f"{label} was taken out"
            yield RuleChange(came, "", "", why)
            continue
        for what, old, new in _fields(label, was["fields"], now["fields"]):
            yield RuleChange(what, old, new, why)
    for lock in locks:
        yield RuleChange(f"Rules locked on {lock['at'][:10]}", "", "", lock["reason"].strip())


def _purpose(older: Plain, newer: Plain) -> Iterator[PurposeChange]:
    before, after = (one.get("purpose", NONE_DECLARED) for one in (older, newer))
    for sentence in after["story"][len(before["story"]) :]:
        yield PurposeChange(sentence.rstrip("."), "", "")
    for was, now in _pairs(before["ranks"], after["ranks"], lambda one: one["specimen_id"]):
        if _text(was) != _text(now):
            what = f"{(now or was or {})['specimen']} · ranks"
            yield PurposeChange(what, _text(was), _text(now))


def _plan(older: Plain, newer: Plain) -> Iterator[PlanEdit]:
    before, after = older["lineup"], newer["lineup"]
    for what, old, new in _fields("", before["fields"], after["fields"]):
        yield PlanEdit(what, old, new)
    for words, more, less in (
        ("Asked as well", after["asked"], before["asked"]),
        ("No longer asked", before["asked"], after["asked"]),
    ):
        if there := [label for label in more if label not in less]:
            yield PlanEdit(f"{words}: {', '.join(there)}", "", "")
    for was, now in _pairs(older["specimens"], newer["specimens"], lambda one: one["id"]):
        if was is None or now is None:
            name, how = (now or was or {})["name"], "came in" if was is None else "was taken out"
            yield PlanEdit(f"{name} {how}", "", "")
            continue
        if was["name"] != now["name"]:
            yield PlanEdit("Nickname", was["name"], now["name"])
        for what, old, new in _fields(now["name"], was["fields"], now["fields"]):
            yield PlanEdit(what, old, new)


def _instruments(older: Plain, newer: Plain) -> Iterator[InstrumentChange]:
    for was, now in _pairs(older["instruments"], newer["instruments"], lambda one: one["id"]):
        name = (now or was or {})["name"]
        if was is None or now is None:
            how = "came into use" if was is None else "is no longer used"
            yield InstrumentChange(f"{name} {how}", "", "")
            continue
        if was["name"] != now["name"]:
            yield InstrumentChange("Instrument", was["name"], now["name"])
        for what, old, new in _fields(name, was["fields"], now["fields"]):
            yield InstrumentChange(what, old, new)
    for was, now in _pairs(older["checks"], newer["checks"], lambda one: one["id"]):
        if _text(was) != _text(now):
            what = f"Check of {(now or was or {})['name']}"
            yield InstrumentChange(what, _text(was), _text(now))


def _remarks(older: Plain, newer: Plain) -> Iterator[RemarkChange]:
    for was, now in _pairs(older["remarks"], newer["remarks"], lambda one: one["name"]):
        if _text(was) != _text(now):
            what = f"Remark on {(now or was or {})['name']}"
            yield RemarkChange(what, _text(was), _text(now))
    for poll in newer["polls"][len(older["polls"]) :]:
        yield RemarkChange(f"Poll of viewers: {poll['name']}", "", "")


def _photos(older: Plain, newer: Plain) -> Iterator[PhotoChange]:
    def named(one: Plain) -> tuple[str, str]:
        return one["id"], one["name"]

    for was, now in _pairs(older["photos"], newer["photos"], named):
        what = f"Photo of {(now or was or {})['name']}"
        if was is None or now is None:
            yield PhotoChange(f"{what} {'added' if was is None else 'taken out'}", "", "")
        elif was["caption"] != now["caption"]:
            yield PhotoChange(f"{what}, caption", was["caption"], now["caption"])


def _pictures(older: Plain, newer: Plain) -> Iterator[PictureChange]:
    def place(one: Plain) -> tuple[str, str, int]:
        return one["specimen_id"], one["side"], one["field"]

    before, after = (one.get("pictures", []) for one in (older, newer))
    for was, now in _pairs(before, after, place):
        what = f"Picture of {(now or was or {})['name']}"
        if was is None or now is None:
            yield PictureChange(f"{what} {'taken' if was is None else 'taken back'}", "", "")
            continue
        if was["photo"] != now["photo"]:
            yield PictureChange(f"{what} taken again", "", "")
        for label, key in ((what, "text"), (f"{what}, set-up", "set_up")):
            if was[key] != now[key]:
                yield PictureChange(label, was[key], now[key])
    kept = _pairs(older.get("set_ups", []), newer.get("set_ups", []), lambda one: one["id"])
    for was, now in kept:
        name = f"Set-up {(now or was or {})['name']}"
        if was is None or now is None:
            how = "came into use" if was is None else "is no longer used"
            yield PictureChange(f"{name} {how}", "", "")


def _pairs(
    older: Iterable[Plain], newer: Iterable[Plain], key: Callable[[Plain], Any]
) -> Iterator[tuple[Plain | None, Plain | None]]:
    """Pair what has the same key, the older list's order first; None where a side lacks it."""
    before, after = {key(one): one for one in older}, {key(one): one for one in newer}
    for name in dict.fromkeys((*before, *after)):
        yield before.get(name), after.get(name)


def _fields(owner: str, older: Plain, newer: Plain) -> Iterator[tuple[str, str, str]]:
    for label in dict.fromkeys((*older, *newer)):
        old, new = _words(older.get(label)), _words(newer.get(label))
        if old != new:
            yield f"{owner}, {label}" if owner else label, old, new


def _text(one: Plain | None) -> str:
    return "" if one is None else str(one["text"])


def _words(value: Any) -> str:
    """Return a plain value as a reader would write it."""
    if value is None:
        return ""
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:g}" if float(f"{value:g}") == value else repr(value)
    if isinstance(value, list):
        return ", ".join(_words(part) for part in value)
    if isinstance(value, dict):
        return " at ".join(_words(part) for part in reversed(value.values()))
    return str(value)
