"""The rules as files."""

import hashlib
import json
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.derive.all_figures import FIGURE_KINDS
from benchlog.errors import ResourceFault
from benchlog.judge.rules import Anchor, ValueKind
from benchlog.judge.rules_file import digest, load_rules
from benchlog.judge.rules_within import asked_in
from benchlog.trade.attribute import Judged
from benchlog.trade.component import Component
from benchlog.trade.sequence_file import load_sequence
from tests.judge.bench_of import SHIPPED, SPIN_ON

HEADING = """
[rules]
label = "Own"
version = "3"
sequences = ["spin_on"]
parts = ["own/all.toml"]
smallest_coverage = 0.5
meaningful_score = 1
"""
WALL = """
[rule.can_wall]
kind = "piecewise"
weight = 2
anchors = [[0.2, 2], [0.7, 10]]
meaningful = 0.05
support = "opinion"
source = "invented"
reason = "invented"
"""
DENTS = """
[rule.dents]
kind = "rank"
weight = 1
ranks = { none = 10, deep = 0 }
support = "engineering"
source = "invented"
reason = "invented"
"""
SEALED = """
[rule.sealed]
kind = "presence"
weight = 1
ranks = { yes = 10, no = 6 }
support = "engineering"
source = "invented"
reason = "invented"
"""


def rest():
    """A rule that only compares for every other component, so that none is forgotten."""
    found = {}
    for attribute in SPIN_ON.attributes:
        if attribute.component not in (Component.CAN, Component.WHOLE):
            found.setdefault(attribute.component, attribute.key)
    text = '[rule.{}]\nkind = "none"\nweight = 0\nsupport = "opinion"\nsource = "s"\nreason = "r"\n'
    return "\n".join(text.format(key) for key in found.values())


def written(tmp_path, *parts, heading=HEADING):
    folder = tmp_path / "judging" / "own"
    folder.mkdir(parents=True)
    (tmp_path / "judging" / "own_rules.toml").write_text(heading, encoding="utf-8")
    (folder / "all.toml").write_text("\n".join(parts), encoding="utf-8")
    return load_rules("own_rules", tmp_path)


def test_own_rules_load(tmp_path):
    found = written(tmp_path, WALL, DENTS, SEALED, rest())
    wall, dents, *_ = found.entries
    assert (found.key, found.version, found.meaningful_score) == ("own_rules", "3", 1.0)
    assert (wall.component, wall.unit) == (Component.CAN, "millimeter")
    assert wall.anchors == (Anchor(0.2, 2.0), Anchor(0.7, 10.0))
    assert [(rank.key, rank.value) for rank in dents.ranks] == [("none", 10.0), ("deep", 0.0)]


FAULTS = [
    (WALL.replace("can_wall", "can_wal"), "can_wal", "", "neither an attribute nor a figure"),
    (WALL.replace("[0.2, 2], [0.7, 10]", "[0.7, 2], [0.2, 10]"), "can_wall", "anchors", "ascend"),
    (WALL.replace("[0.2, 2], [0.7, 10]", "[0.2, 2]"), "can_wall", "anchors", "two or more"),
    (WALL.replace("[0.7, 10]", "[0.7, 11]"), "can_wall", "anchors", "from 0 to 10"),
    (WALL.replace("[[0.2, 2], [0.7, 10]]", "[0.2, 2]"), "can_wall", "anchors", "pairs"),
    (WALL.replace("weight = 2", "weight = -1"), "can_wall", "weight", "more than 0"),
    (WALL.replace("weight = 2", "weight = 0"), "can_wall", "weight", "more than 0"),
    (WALL.replace("meaningful = 0.05", "meaningful = -1"), "can_wall", "meaningful", "0 or more"),
    (WALL.replace('"opinion"', '"standard"'), "can_wall", "support", "claims more than"),
    (WALL.replace('reason = "invented"', 'reason = " "'), "can_wall", "reason", "wants words"),
    (WALL + 'unit = "gram"\n', "can_wall", "unit", "does not measure"),
    (WALL + 'unit = "furlongs of tin"\n', "can_wall", "unit", "does not measure"),
    (WALL + 'component = "media"\n', "can_wall", "component", "belongs to the can"),
    (WALL.replace('"piecewise"', '"curve"'), "can_wall", "kind", "is not one of"),
    (
        WALL.replace('"piecewise"', '"none"').replace("= 2\n", "= 0\n"),
        "can_wall",
        "anchors",
        "none",
    ),
    (WALL.replace("can_wall", "can_dome_wall"), "can_dome_wall", "kind", "never scored"),
    (WALL.replace("can_wall", "can_seam"), "can_seam", "kind", "never scored"),
    (WALL.replace("can_wall", "dents"), "dents", "kind", "is not a number"),
    (WALL + "colour = 3\n", "can_wall", "colour", "not a known field"),
    (DENTS.replace("deep", "huge"), "dents", "ranks", "'huge' is not one of: none, light, deep"),
    (DENTS.replace(", deep = 0", ""), "dents", "ranks", "two or more"),
    (DENTS.replace("deep = 0", "deep = -1"), "dents", "ranks", "from 0 to 10"),
    (DENTS.replace("{ none = 10, deep = 0 }", "7"), "dents", "ranks", "wants words"),
    (DENTS.replace("rule.dents", "rule.can_wall"), "can_wall", "kind", "no such words"),
    (SEALED.replace("no = 6", "maybe = 6"), "sealed", "ranks", "not one of: yes, no"),
]


@pytest.mark.parametrize(("text", "entry", "field", "what"), FAULTS)
def test_fault_names_file_entry_and_field(tmp_path, text, entry, field, what):
    with pytest.raises(ResourceFault) as caught:
        written(tmp_path, text)
    fault = caught.value
    assert fault.file.endswith("all.toml")
    assert (fault.entry, fault.field) == (entry, field)
    assert what in str(fault)
    assert fault.line


@pytest.mark.parametrize(
    ("said", "instead", "field"),
    [
        ("smallest_coverage = 0.5", "smallest_coverage = 0", "smallest_coverage"),
        ("smallest_coverage = 0.5", "smallest_coverage = 1.2", "smallest_coverage"),
        ("meaningful_score = 1", "meaningful_score = 0", "meaningful_score"),
        ("meaningful_score = 1", 'meaningful_score = "much"', "meaningful_score"),
        ('label = "Own"', "", "label"),
    ],
)
def test_faulty_heading_is_named(tmp_path, said, instead, field):
    with pytest.raises(ResourceFault) as caught:
        written(tmp_path, WALL, heading=HEADING.replace(said, instead))
    assert (caught.value.entry, caught.value.field) == ("rules", field)


def test_forgotten_component_is_named(tmp_path):
    with pytest.raises(ResourceFault, match="no rule speaks of the whole filter"):
        written(tmp_path, WALL, rest())


def test_second_rule_for_a_subject_is_refused(tmp_path):
    folder = tmp_path / "judging" / "own"
    folder.mkdir(parents=True)
    (folder / "more.toml").write_text(WALL, encoding="utf-8")
    heading = HEADING.replace('["own/all.toml"]', '["own/more.toml", "own/all.toml"]')
    (tmp_path / "judging" / "own_rules.toml").write_text(heading, encoding="utf-8")
    (folder / "all.toml").write_text(WALL, encoding="utf-8")
    with pytest.raises(ResourceFault, match="in another file already"):
        load_rules("own_rules", tmp_path)


def test_missing_rules_are_a_fault(tmp_path):
    with pytest.raises(ResourceFault, match="cannot be read"):
        load_rules("nowhere", tmp_path)


def test_shipped_rules_rank_nothing_that_is_only_different():
    kinds = {kind.key: kind for kind in FIGURE_KINDS}
    asked = {a.key: a for s in ("spin_on", "cartridge") for a in load_sequence(s).attributes}
    scored = [e for e in SHIPPED.entries if e.kind is not ValueKind.NONE]
    assert scored
    for entry in scored:
        subject = asked.get(entry.subject) or kinds[entry.subject]
        assert subject.judged not in (Judged.DIFFERENT, Judged.IDENTITY, Judged.INPUT)
    never = {"pleat_count", "cap_kind", "tube_kind", "media_thickness", "whole_mass", "seam_kind"}
    assert never <= {e.subject for e in SHIPPED.entries if e.kind is ValueKind.NONE}


def test_shipped_bands_wait_for_the_engine_makers_figure():
    """A setting or size that must suit the engine has no better or worse of its own."""
    bands = {subject.key for subject in every_subject() if subject.judged is Judged.BAND}
    held = [e for e in SHIPPED.entries if e.subject in bands - {"gasket_hardness"}]
    assert {"thread_code", "bypass_opening", "hold_down_load"} <= {e.subject for e in held}
    for entry in held:
        assert entry.kind is ValueKind.NONE
        assert "maker's figure" in entry.reason


def every_subject():
    """Every attribute of every sequence, and every figure."""
    attributes = [a for s in ("spin_on", "cartridge") for a in load_sequence(s).attributes]
    return [*attributes, *FIGURE_KINDS]


NEVER_JUDGED = (Judged.IDENTITY, Judged.INPUT, Judged.DIFFERENT)


@pytest.mark.parametrize("judged", [j for j in Judged if j not in NEVER_JUDGED])
def test_whatever_is_judged_has_a_rule_or_a_reason_for_none(judged):
    """An entry scores, or its reason says why nothing is scored."""
    entries = {entry.subject: entry for entry in SHIPPED.entries}
    subjects = {subject.key for subject in every_subject() if subject.judged is judged}
    assert subjects
    assert subjects - entries.keys() == set()
    assert all(entries[key].reason for key in subjects)


def test_no_shipped_rule_scores_an_estimate_between_bounds():
    bounded = {kind.key for kind in FIGURE_KINDS if kind.bounded}
    assert bounded
    for entry in SHIPPED.entries:
        assert entry.subject not in bounded or entry.kind is ValueKind.NONE


def test_size_that_is_an_input_elsewhere_is_not_asked_there():
    """An element's height must suit a cartridge's housing; in a can it only enters figures."""
    cartridge = load_sequence("cartridge")
    assert "element_height" in {e.subject for e in asked_in(SHIPPED, cartridge).entries}
    assert "element_height" not in {e.subject for e in asked_in(SHIPPED, SPIN_ON).entries}


# Starting values of the trade (opinion): area 5 %, thickness and can wall 0.05 mm, basis weight
# 5 %, gasket hardness 5 points, leak 5 mL/h, bypass 3 psi, one full thread, price 10 %.
@pytest.mark.parametrize(
    ("subject", "meaningful", "share", "unit"),
    [
        ("exposed_area", 0.05, True, "centimeter**2"),
        ("media_thickness", 0.05, False, "millimeter"),
        ("can_wall", 0.05, False, "millimeter"),
        ("basis_weight", 0.05, True, "gram/meter**2"),
        ("gasket_hardness", 5, False, "dimensionless"),
        ("adbv_leak", 5, False, "milliliter / hour"),
        ("bypass_marked", 3, False, "psi"),
        ("full_threads", 1, False, "count"),
        ("price", 0.1, True, "money"),
    ],
)
def test_shipped_meaningful_differences(subject, meaningful, share, unit):
    (entry,) = [e for e in SHIPPED.entries if e.subject == subject]
    assert (entry.meaningful, entry.meaningful_is_share, entry.unit) == (meaningful, share, unit)


def test_cartridge_is_not_asked_for_a_can():
    held = {entry.component for entry in asked_in(SHIPPED, load_sequence("cartridge")).entries}
    assert Component.O_RINGS in held
    assert not held & {Component.CAN, Component.GASKET, Component.BASE_PLATE, Component.THREAD}
    assert {e.component for e in asked_in(SHIPPED, SPIN_ON).entries} == set(Component) - {
        Component.O_RINGS
    }


def test_digest_is_of_the_canonical_form():
    by = replace(SHIPPED, entries=())
    canonical = {
        "entries": [],
        "key": by.key,
        "label": by.label,
        "meaningful_score": "0.5",
        "smallest_coverage": "0.5",
        "version": by.version,
    }
    text = json.dumps(canonical, sort_keys=True, separators=(",", ":"))
    assert digest(by) == hashlib.sha256(text.encode()).hexdigest()


def test_digest_does_not_see_how_a_number_is_written(tmp_path):
    one = written(tmp_path / "one", WALL, DENTS, SEALED, rest())
    other = WALL.replace("weight = 2", "weight = 2.00").replace("[0.7, 10]", "[7e-1, 10.0]")
    assert digest(written(tmp_path / "two", other, DENTS, SEALED, rest())) == digest(one)


@pytest.mark.parametrize(("one", "other"), [(2, 2.0), (0, 0.0), (0, -0.0), (100, 1e2)])
def test_digest_takes_a_whole_number_as_a_decimal(one, other):
    first, *rest_of = SHIPPED.entries
    written_so = (
        replace(SHIPPED, entries=(replace(first, meaningful=value), *rest_of))
        for value in (one, other)
    )
    assert digest(next(written_so)) == digest(next(written_so))


@given(st.integers(0, len(SHIPPED.entries) - 1), st.data())
def test_digest_sees_every_change(which, data):
    entry = SHIPPED.entries[which]
    change = data.draw(
        st.sampled_from(
            [
                {"weight": entry.weight + 0.001},
                {"meaningful": entry.meaningful + 1e-9},
                {"meaningful_is_share": not entry.meaningful_is_share},
                {"reason": entry.reason + " "},
                {"unit": entry.unit + "s"},
                {"anchors": (*entry.anchors, Anchor(1e6, 0))},
            ]
        )
    )
    entries = list(SHIPPED.entries)
    entries[which] = replace(entry, **change)
    changed = digest(replace(SHIPPED, entries=tuple(entries)))
    assert changed != digest(SHIPPED)
    assert digest(replace(SHIPPED, entries=tuple(SHIPPED.entries))) == digest(SHIPPED)
