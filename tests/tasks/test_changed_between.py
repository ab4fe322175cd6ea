"""What changed from one frozen record to the next is told, all of it, and nothing else."""

from __future__ import annotations

import copy
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import ShelfDamaged
from benchlog.tasks.changed import (
    TOUCHED,
    AwardChange,
    Change,
    FigureChange,
    InstrumentChange,
    LicenceChange,
    PhotoChange,
    PlanEdit,
    ReadingChange,
    RemarkChange,
    RuleChange,
    WishChange,
    outputs_touched,
)
from benchlog.tasks.changed_between import changed_between
from benchlog.tasks.frozen_record import frozen, frozen_text, thawed
from tests.tasks.sample_records import sample_record

Plain = dict[str, Any]
EMPTY: Plain = {
    "readings": [], "values": [], "awards": [], "specimens": [], "instruments": [], "checks": [],
    "remarks": [], "polls": [], "photos": [], "lineup": {"fields": {}, "asked": []},
    "rules": {"fields": {}, "entries": [], "locks": []},
}  # fmt: skip


@dataclass(frozen=True)
class Move:
    """What happens to one reading: corrected once or more, scratched, or left."""

    texts: tuple[str, ...]
    scratched: bool
    reason: str


texts = st.text("0123456789. mg", min_size=1, max_size=8)
moves = st.builds(
    Move, st.lists(texts, max_size=3).map(tuple), st.booleans(), st.sampled_from(["", "misread"])
)


def reading(name: str, text: str, supersedes: str | None = None, **more: object) -> Plain:
    return {
        "id": name, "subject": "mass", "label": "Weight", "specimen_id": "s-a",
        "specimen": "Amber", "ordinal": 1, "text": text, "reason": "", "supersedes": supersedes,
        "withdrawn": False, "stands": True, **more,
    }  # fmt: skip


def moved(old: Plain, move: Move) -> list[Plain]:
    """Return the entries that a move adds, and let the last of them stand alone."""
    chain = [old]
    for text in move.texts:
        name = f"{old['id']}+{len(chain)}"
        chain.append(reading(name, text, chain[-1]["id"], reason=move.reason))
    if move.scratched:
        name = f"{old['id']}+{len(chain)}"
        chain.append(reading(name, "", chain[-1]["id"], withdrawn=True))
    for one in chain[:-1]:
        one["stands"] = False
    chain[-1]["stands"] = not chain[-1]["withdrawn"]
    return chain


@given(st.lists(st.tuples(texts, moves), max_size=6), st.lists(texts, max_size=3))
def test_every_changed_reading_is_listed(before: list[tuple[str, Move]], added: list[str]) -> None:
    older = EMPTY | {"readings": [reading(f"r{n}", t) for n, (t, _) in enumerate(before)]}
    entries: list[Plain] = []
    expected: dict[str, tuple[str, str]] = {}
    for n, (text, move) in enumerate(before):
        chain = moved(reading(f"r{n}", text), move)
        entries += chain
        last = "scratched" if move.scratched else chain[-1]["text"]
        if last != text or (move.texts and move.reason):
            expected[f"r{n}"] = (text, last)
    for n, text in enumerate(added):
        entries.append(reading(f"new{n}", text))
        expected[f"new{n}"] = ("", text)
    found = changed_between(older, EMPTY | {"readings": entries})
    assert all(isinstance(one, ReadingChange) for one in found)
    told = {one.reading_id: (one.old, one.new) for one in found if isinstance(one, ReadingChange)}
    assert told == expected
    assert len(found) == len(expected)
    for one in found:
        assert one.new in one.sentence
        assert one.reason in one.sentence


@given(st.lists(st.tuples(texts, moves), max_size=6))
def test_nothing_changed_from_a_record_to_itself(before: list[tuple[str, Move]]) -> None:
    chains = [moved(reading(f"r{n}", t), move) for n, (t, move) in enumerate(before)]
    record = EMPTY | {"readings": [one for chain in chains for one in chain]}
    assert changed_between(record, copy.deepcopy(record)) == ()


def test_frozen_record_is_the_same_when_thawed() -> None:
    record = sample_record()
    again = thawed(frozen_text(record, ["a change"]))
    assert changed_between(frozen(record), again) == ()
    assert changed_between(again, frozen(record)) == ()
    assert again["changes"] == ["a change"]
    assert len(again["readings"]) == len(record.readings)


def test_put_back_reading_is_no_change() -> None:
    old = reading("r", "1 g")
    scratch = reading("w", "", "r", withdrawn=True, stands=False)
    back = reading("b", "1 g", "w")
    newer = EMPTY | {"readings": [old | {"stands": False}, scratch, back]}
    assert changed_between(EMPTY | {"readings": [old]}, newer) == ()


def test_doubt_and_repeats_are_named() -> None:
    older = EMPTY | {"readings": [reading("r", "1 g", ordinal=2)]}
    newer = EMPTY | {"readings": [reading("r", "1 g (in doubt)", ordinal=2)]}
    (change,) = changed_between(older, newer)
    assert change.sentence == "Amber · Weight, reading 2: 1 g → 1 g (in doubt)"


def altered(change: Callable[[Plain], object]) -> tuple[Change, ...]:
    """What is told when the sample's frozen record is altered."""
    older = thawed(frozen_text(sample_record()))
    newer = copy.deepcopy(older)
    change(newer)
    return changed_between(older, newer)


def award(record: Plain, component: str, text: str) -> None:
    next(a for a in record["awards"] if a["component"] == component)["text"] = text


@pytest.mark.parametrize(
    ("change", "kind", "sentence"),
    [
        (lambda r: award(r, "gasket", "Cobalt"), AwardChange,
         "Gasket award: cannot separate → Cobalt"),
        (lambda r: r["lineup"]["fields"].update(Reviewer="H. Vale"), PlanEdit,
         "Reviewer: R. Hallam (invented) → H. Vale"),
        (lambda r: r["lineup"]["asked"].remove("Dents"), PlanEdit, "No longer asked: Dents"),
        (lambda r: r["lineup"]["asked"].append("Burr"), PlanEdit, "Asked as well: Burr"),
        (lambda r: r["specimens"][0]["fields"].update(price="7.50"), PlanEdit,
         "Amber, price: 8.90 → 7.50"),
        (lambda r: r["specimens"][0].update(name="Ember"), PlanEdit, "Nickname: Amber → Ember"),
        (lambda r: r["specimens"].pop(2), PlanEdit, "Moss was taken out"),
        (lambda r: r["instruments"][0]["fields"].update({"permissible error": "0.5"}),
         InstrumentChange, "Bench scale, 0.1 g, permissible error: 0.2 → 0.5"),
        (lambda r: r["instruments"][0].update(name="Scale"), InstrumentChange,
         "Instrument: Bench scale, 0.1 g → Scale"),
        (lambda r: r["instruments"].pop(0), InstrumentChange,
         "Bench scale, 0.1 g is no longer used"),
        (lambda r: r["checks"].append({"id": "c", "name": "Tape, closing", "text": "1 for 1"}),
         InstrumentChange, "Check of Tape, closing: nothing → 1 for 1"),
        (lambda r: r["rules"]["fields"].update(version="4"), RuleChange, "Rules, version: 3 → 4"),
        (lambda r: r["rules"]["entries"][0]["fields"].update(weight=4.0), RuleChange,
         "Rule for Loose debris, weight: 3 → 4"),
        (lambda r: r["rules"]["entries"].pop(0), RuleChange,
         "Rule for Loose debris was taken out"),
        (lambda r: r["rules"]["locks"].append({"at": "2026-05-04T", "reason": "mistyped"}),
         RuleChange, "Rules locked on 2026-05-04, because mistyped"),
        (lambda r: r["remarks"].append({"name": "can, Amber", "text": "a dent"}), RemarkChange,
         "Remark on can, Amber: nothing → a dent"),
        (lambda r: r["polls"].append({"name": "Which one?", "votes": []}), RemarkChange,
         "Poll of viewers: Which one?"),
        (lambda r: r["photos"][0].update(caption="dented"), PhotoChange,
         "Photo of outside, Amber, caption: as received → dented"),
        (lambda r: r["photos"].pop(0), PhotoChange, "Photo of outside, Amber taken out"),
    ],
)  # fmt: skip
def test_each_change_is_told_alone(
    change: Callable[[Plain], object], kind: type[Change], sentence: str
) -> None:
    (told,) = altered(change)
    assert type(told) is kind
    assert told.sentence == sentence
    assert set(outputs_touched(told)) <= {"sheet", "cards", "data", "chapters", "description"}


def test_corrected_record_tells_its_figures() -> None:
    def longer(record: Plain) -> None:
        for one in record["values"]:
            if (one["key"], one["specimen"]) == ("exposed_area", "Amber"):
                one["text"] = "763 cm²"

    (change,) = altered(longer)
    assert isinstance(change, FigureChange)
    assert change.sentence.startswith("Amber · Exposed media area: ")
    assert change.sentence.endswith(" → 763 cm²")


def test_single_reading_is_not_told_twice() -> None:
    value = {
        "key": "mass", "kind": "finding", "label": "Weight", "specimen_id": "s-a",
        "specimen": "Amber", "text": "1.0 ± 0.2 g", "readings": 1,
    }  # fmt: skip
    older = EMPTY | {"readings": [reading("r", "1 g")], "values": [value]}
    chain = moved(reading("r", "1 g"), Move(("2 g",), scratched=False, reason="misread"))
    newer = EMPTY | {"readings": chain, "values": [value | {"text": "2.0 ± 0.2 g"}]}
    assert [type(one) for one in changed_between(older, newer)] == [ReadingChange]
    several = {"values": [value | {"text": "2.0 ± 0.2 g", "readings": 3}]}
    kinds = [type(one) for one in changed_between(older, newer | several)]
    assert kinds == [ReadingChange, FigureChange]


def test_every_kind_of_change_touches_the_data_and_the_sheet() -> None:
    """But for the licence, which is the data's own, and for wishes, each of which names its own."""
    assert set(TOUCHED) | {WishChange} == set(Change.__subclasses__())
    assert all("data" in kinds for kinds in TOUCHED.values())
    assert {kind for kind, at in TOUCHED.items() if "sheet" not in at} == {LicenceChange}


@pytest.mark.parametrize("text", ["half a rec", "[]", "{}", '{"format": "another"}'])
def test_what_is_no_frozen_record_is_refused(text: str) -> None:
    with pytest.raises(ShelfDamaged):
        thawed(text)


def test_reasons_of_a_chain_are_told_once() -> None:
    older = EMPTY | {"readings": [reading("r", "1 g")]}
    chain = moved(reading("r", "1 g"), Move(("2 g", "3 g"), scratched=False, reason="misread."))
    (change,) = changed_between(older, EMPTY | {"readings": chain})
    assert change == replace(change, old="1 g", new="3 g", reason="misread")
