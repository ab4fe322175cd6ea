"""Each rule of plausibility with readings that break it, and with readings that do not."""

from __future__ import annotations

import math
import re

import pytest

from benchlog.derive.plausible import RULES, contradictions, rules_of
from benchlog.derive.plausible_rule import Seen
from benchlog.measure.quantities import si_number
from benchlog.measure.units import registry
from benchlog.trade.plausibility import load_thresholds
from tests.derive.as_said import attribute, said
from tests.derive.found import ALPHA
from tests.derive.whole_filter import CARTRIDGE, SPIN_ON, found_in

# What is changed in a sound filter, and the rule that it must break. Geometry, statics and unit
# factors decide; each limit's own source stands in plausibility.toml.
BROKEN = [
    ("hidden_share", {"media_hidden": "30 mm"}),
    ("exposed_share", {"media_exposed_width": "60 mm"}),
    ("widths_together", {"media_hidden": "8 mm"}),
    ("widths_together", {"media_exposed_width": "48 mm"}),
    ("media_of_mass", {"whole_mass": "11.0 g"}),
    ("grammage", {"media_mass": "11.8 oz"}),
    ("grammage", {"media_mass": "1.18 g"}),
    ("strip_density", {"media_thickness": "0.10 mm"}),
    ("strip_density", {"media_thickness": "0.71 in"}),
    ("strip_in_can", {"media_thickness": "4 mm"}),
    ("strip_in_element", {"media_thickness": "2.5 mm"}),
    ("pleats_in_element", {"media_length": "2600 mm"}),
    ("pleats_in_can", {"pleat_count": "12"}),
    ("pleat_depth_read", {"pleat_count": "108"}),
    ("pleat_depth_read", {"pleat_count": "27"}),
    ("pleat_gauge_room", {"pleat_depth_gauge": "21 mm"}),
    ("crowding", {"pleat_count": "120"}),
    ("width_in_element", {"media_width": "70 mm"}),
    ("width_in_can", {"media_width": "90 mm"}),
    ("tips_thickness", {"media_thickness_tips": "0.30 mm"}),
    ("tips_thickness", {"media_thickness_tips": "1.60 mm"}),
    ("burst_wet_dry", {"burst_wet": "55 N"}),
    ("pinched_of_pleats", {"pinched_pleats": "55"}),
    ("element_in_can", {"element_outside": "77 mm"}),
    ("element_height_in_can", {"element_height": "3.5 in"}),
    ("can_inside_outside", {"can_inside": "77 mm"}),
    ("can_wall_share", {"can_wall": "0.38 in"}),
    ("can_wall_twice", {"can_wall": "1.2 mm"}),
    ("can_wall_twice", {"can_wall": "0.12 mm"}),
    ("bulk_density", {"whole_mass": "312.4 oz"}),
    ("bulk_density", {"whole_mass": "31.24 g"}),
    ("bore_of_thread", {"outlet_bore": "19.5 mm"}),
    ("bore_of_thread", {"outlet_bore": "14.0 mm"}),
    ("pitch_of_thread", {"thread_pitch": "2.12 mm"}),
    ("pitch_of_thread", {"thread_pitch": "1.25 mm"}),
    ("threads_in_length", {"full_threads": "9"}),
    ("thread_in_can", {"thread_length": "2.0 in"}),
    ("recess_in_can", {"recess_depth": "2.0 in"}),
    ("gasket_ring", {"gasket_inside": "71.4 mm"}),
    ("gasket_on_can", {"gasket_outside": "85 mm"}),
    ("outlet_in_gasket", {"gasket_inside": "17.0 mm"}),
    ("holes_in_ring", {"inlet_hole_count": "33"}),
    ("spring_installed", {"spring_height": "32.0 mm"}),
    ("spring_second", {"spring_second_length": "32.0 mm"}),
    ("spring_pushes_back", {"spring_second_load": "30 N"}),
    ("spring_in_can", {"spring_free_length": "88 mm"}),
    ("spring_height_in_can", {"spring_height": "90 mm"}),
    ("spring_wire_coil", {"spring_wire": "9.5 mm"}),
    ("spring_coil_in_can", {"spring_coil": "78 mm"}),
    ("spring_solid", {"spring_active_coils": "45"}),
    ("seat_in_element", {"bypass_seat": "68 mm"}),
    ("bypass_force_marked", {"bypass_marked": "12 kPa"}),
    ("bypass_force_marked", {"bypass_force": "1 N"}),
    ("bypass_air_marked", {"bypass_air": "85 psi"}),
    ("bypass_air_marked", {"bypass_air": "12 kPa"}),
    ("tube_inside_outside", {"tube_inside": "33 mm"}),
    ("tube_in_element", {"tube_outside": "67 mm"}),
    ("tube_wall_share", {"tube_wall": "17 mm"}),
    ("tube_wall_twice", {"tube_wall": "1.2 mm"}),
    ("tube_wall_twice", {"tube_wall": "0.12 mm"}),
    ("tube_open_share", {"tube_open_area": "11 in2"}),
    ("tube_holes_share", {"tube_hole_count": "350"}),
    ("bore_top_in_element", {"bore_top": "65 mm"}),
    ("bore_bottom_in_element", {"bore_bottom": "65 mm"}),
    ("cap_in_element", {"cap_thickness": "2.0 in"}),
    ("o_ring_section_inside", {"o_ring_section": "71 mm"}),
]

FIELD = re.compile(r"\{(\w+)\}")


def changed(change):
    """The sound filter that is asked for what is changed, with the change made."""
    base = SPIN_ON if set(change) <= set(SPIN_ON) else CARTRIDGE
    return {**base, **change}


@pytest.mark.parametrize("typed", [SPIN_ON, CARTRIDGE], ids=["spin-on", "cartridge"])
def test_sound_filters_contradict_nothing(typed):
    assert found_in(typed) == ()


@pytest.mark.parametrize(("rule", "change"), BROKEN)
def test_broken_rule_speaks(rule, change):
    found = {c.key: c for c in found_in(changed(change))}
    assert rule in found
    ((key, text),) = change.items()
    assert key in found[rule].attributes
    # The message names the reading as it was said, with its unit.
    assert text in found[rule].what
    assert found[rule].do
    assert found[rule].source


def test_every_rule_is_broken_once():
    assert {rule for rule, _ in BROKEN} == {rule.key for rule in RULES}
    two_sided = {k for k, t in load_thresholds().items() if t.least is not None and t.most}
    for key in two_sided:
        assert sum(rule == key for rule, _ in BROKEN) == 2, key


def test_rules_and_limits_belong_together():
    assert {rule.key for rule in RULES} | {"repeats_apart"} == set(load_thresholds())
    assert len({rule.key for rule in RULES}) == len(RULES)


def test_every_limit_has_its_words():
    for rule in RULES:
        limit = load_thresholds()[rule.key]
        assert bool(rule.over) == (limit.most is not None), rule.key
        assert bool(rule.under) == (limit.least is not None), rule.key


def test_words_name_every_reading():
    for rule in RULES:
        for words in filter(None, (rule.over, rule.under)):
            assert set(FIELD.findall(words)) == {*rule.inputs, *rule.words}, rule.key


def test_rules_ask_for_what_a_bench_records():
    for rule in RULES:
        for key in rule.asks:
            asked = attribute(key)
            assert asked.is_number == (key in rule.inputs), (rule.key, key)


@pytest.mark.parametrize("rule", [r for r in RULES if not r.words], ids=lambda rule: rule.key)
def test_limits_have_the_dimension_of_the_sum(rule):
    """In units of another size a rule's number changes as its limit does, and no otherwise."""
    texts = {**CARTRIDGE, **SPIN_ON}
    plain, scaled = {}, {}
    for key in rule.inputs:
        quantity = said(key, texts[key]).quantity
        plain[key] = si_number(quantity).nominal_value
        scaled[key] = plain[key] * scale_of(quantity.dimensionality)
    limit = registry().Quantity(1.0, load_thresholds()[rule.key].unit)
    before, after = rule.works(Seen(plain, {})), rule.works(Seen(scaled, {}))
    assert after == pytest.approx(before * scale_of(limit.dimensionality))


def scale_of(dimensions):
    """How a quantity of these dimensions changes in units of another size."""
    sizes = {"[length]": 3.0, "[mass]": 7.0, "[time]": 11.0}
    return math.prod(sizes[name] ** power for name, power in dimensions.items())


def test_wet_media_is_not_weighed_against_the_filter():
    heavy = {**CARTRIDGE, "media_mass": "70 g"}
    assert [c.key for c in found_in(heavy)] == ["media_of_mass"]
    assert found_in({**heavy, "media_state": "drained"}) == ()


def test_limit_passed_by_less_than_the_doubt_is_kept():
    # 31.3 mm read to 0.1 mm is not surely above 31.2 mm; 32 mm is.
    assert found_in({"spring_height": "31.25 mm", "spring_free_length": "31.2 mm"}) == ()
    assert found_in({"spring_height": "~32 mm", "spring_free_length": "~31.5 mm"}) == ()
    assert len(found_in({"spring_height": "32.0 mm", "spring_free_length": "31.2 mm"})) == 1


def test_unknown_thread_says_nothing():
    loose = {"outlet_bore": "17.42 mm", "thread_pitch": "1.59 mm"}
    assert found_in({**loose, "thread_code": "could not tell"}) == ()
    assert found_in(loose) == ()


def test_nothing_measured_contradicts_nothing():
    assert found_in({}) == ()
    assert found_in({"media_hidden": "30 mm", "media_width": "spoiled"}) == ()


def test_a_width_of_nothing_is_left_to_its_range():
    assert found_in({"media_hidden": "2 mm", "media_width": "0 mm"}) == ()


def test_repeats_are_shown_as_their_mean():
    findings = {
        "element_outside": said("element_outside", "3.1 in", "3.2 in"),
        "can_diameter": said("can_diameter", "76.1"),
    }
    (found,) = contradictions(findings, ALPHA)
    assert found.what == "The element is 3.15 in across and the can that held it 76.1 mm."


def test_most_attributes_have_no_rules():
    assert rules_of("box_claims") == ()
    assert {r.key for r in rules_of("pleat_depth_gauge")} == {
        "pleat_depth_read",
        "pleat_gauge_room",
    }
