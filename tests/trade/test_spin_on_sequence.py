"""What the spin-on sequence asks, and in which order."""

from __future__ import annotations

import pytest

from benchlog.measure.entry import parse_entry
from benchlog.trade.attribute import Judged, Kind
from benchlog.trade.component import Component
from benchlog.trade.sequence_file import load_sequence


def words(text: str) -> list[str]:
    return text.split()


STATIONS = words(
    """
    paper outside gasket base before_cut cut can valves element unfold media microscope
    close
    """
)

# Every line of the trade's list for spin-on filters, outside and inside; what is worked out
# (areas, basis weight, sheet density, burst ratio) is a figure and not asked.
ASKED = words(
    """
    price pack_quantity box_claims origin_box origin_can origin_inferred lot lot_decoded
    lot_age can_markings install_turns dents paint grip can_diameter can_height whole_mass
    thread_code full_threads thread_length base_thickness base_thickness_hole recess_depth
    gasket_outside gasket_inside gasket_section gasket_material gasket_hardness
    gasket_held gasket_lubed inlet_hole_count inlet_hole_diameter outlet_bore sealed
    can_wall can_seam adbv_present adbv_material adbv_shape adbv_thickness adbv_lip
    adbv_leak spring_kind spring_load element_seal bypass_place bypass_marked bypass_force
    bypass_seat bypass_seat_material bypass_state tube_kind tube_open_area
    tube_closed_louvres tube_wall cap_kind cap_bond media_hidden pleat_count
    pleat_depth_gauge pleat_evenness seam_kind media_tears pinched_pleats media_kind
    wire_backing media_length media_width media_exposed_width media_thickness
    media_thickness_tips media_mass media_state bubble_point burst_dry burst_wet rattle
    loose_debris magnet_fitted label_kind element_outside element_height tube_outside
    tube_inside spring_free_length spring_wire spring_coil spring_active_coils
    gasket_proud media_side_in media_side_out microscope_look thread_pitch
    media_air_flow media_air_pressure bubble_depth whole_bubble_depth fibre_width
    """
)

REMARKS = words(
    """
    whole gasket can base_plate thread adbv bypass spring centre_tube end_caps pleats
    media
    """
)


@pytest.fixture(scope="module")
def sequence():
    return load_sequence("spin_on")


def test_stations_stand_in_the_fixed_order(sequence):
    assert [station.key for station in sequence.stations] == STATIONS


def test_attributes_follow_their_stations(sequence):
    places = [STATIONS.index(a.station) for a in sequence.attributes]
    assert places == sorted(places)


def test_every_station_asks_something(sequence):
    assert all(sequence.at(station.key) for station in sequence.stations)


@pytest.mark.parametrize("key", ASKED)
def test_trade_list_is_asked(sequence, key):
    assert sequence.attribute(key).key == key


@pytest.mark.parametrize("slug", REMARKS)
def test_every_component_takes_a_remark(sequence, slug):
    remark = sequence.attribute(f"remark_{slug}")
    assert remark.kind == Kind.TEXT
    assert remark.component.name == slug.upper()


def test_no_component_is_without_attributes(sequence):
    asked = {a.component for a in sequence.attributes if a.usual}
    assert asked == set(Component) - {Component.O_RINGS}


def test_every_attribute_explains_itself(sequence):
    for attribute in sequence.attributes:
        assert attribute.help
        assert attribute.method
        assert attribute.source
        assert attribute.support


def test_help_is_one_sentence(sequence):
    for attribute in sequence.attributes:
        body = attribute.help
        assert body.endswith("."), attribute.key
        assert ". " not in body, attribute.key
        assert body[0].isupper(), attribute.key


def test_keys_and_labels_are_unique(sequence):
    keys = [a.key for a in sequence.attributes]
    labels = [a.label for a in sequence.attributes]
    assert len(set(keys)) == len(keys)
    assert len(set(labels)) == len(labels)


def test_usual_plan_is_a_days_work(sequence):
    assert 55 <= sum(a.usual for a in sequence.attributes) <= 70


def test_used_filters_are_not_usual(sequence):
    used = [a for a in sequence.attributes if a.key.startswith("used_")]
    assert used
    for attribute in used:
        assert not attribute.usual
        assert attribute.judged in (Judged.DIFFERENT, Judged.IDENTITY)


def test_claims_are_never_scored(sequence):
    claims = [a for a in sequence.attributes if a.kind == Kind.CLAIM]
    assert claims
    assert {a.judged for a in claims} == {Judged.IDENTITY}


def test_measured_numbers_have_both_ranges(sequence):
    for attribute in sequence.attributes:
        if attribute.is_number:
            assert attribute.soft, attribute.key
            assert attribute.hard, attribute.key


def test_numbers_can_be_typed_bare(sequence):
    """The unit and dimension of every number are those that the entry field takes."""
    for attribute in sequence.attributes:
        if attribute.is_number and not attribute.specimen_field:
            for unit in (attribute.unit, attribute.inch_unit):
                assert parse_entry("5", unit, attribute.dimension).unit == unit


def test_cut_and_unfold_cannot_be_undone(sequence):
    one_way = [s for s in sequence.stations if s.one_way]
    assert [s.key for s in one_way] == ["cut", "unfold"]
    assert all(s.lost_after and s.cautions for s in one_way)


def test_what_the_cut_spoils_is_asked_before(sequence):
    cut = STATIONS.index("cut")
    for key in ("rattle", "adbv_leak", "whole_bubble_point", "spring_height", "whole_mass"):
        assert STATIONS.index(sequence.attribute(key).station) < cut


def test_what_unfolding_spoils_is_asked_before(sequence):
    unfold = STATIONS.index("unfold")
    for key in ("cap_bond", "seam_leak", "pleat_count", "pleat_depth_gauge", "media_tears"):
        assert STATIONS.index(sequence.attribute(key).station) < unfold


def test_strip_is_weighed_before_discs_leave_it(sequence):
    order = [a.key for a in sequence.at("media")]
    for disc in ("bubble_point", "burst_dry", "burst_wet"):
        assert order.index("media_mass") < order.index(disc)


def test_liquid_is_asked_for_and_not_taken_off_by_hand(sequence):
    """The figure takes the liquid off; a reading that had it off already would count it twice."""
    for point, depth in (
        ("whole_bubble_point", "whole_bubble_depth"),
        ("bubble_point", "bubble_depth"),
    ):
        assert "as it stands" in sequence.attribute(point).method
        assert sequence.attribute(depth).station == sequence.attribute(point).station


def test_cut_warns_of_edges_springs_and_oil(sequence):
    words = " ".join(sequence.station("cut").cautions).lower()
    for word in ("edges", "springs", "oil", "eye protection", "local rules"):
        assert word in words


def test_alcohol_tests_warn_of_fire(sequence):
    for key in ("whole_bubble_point", "bubble_point", "seam_leak"):
        assert "alcohol vapour burns" in sequence.attribute(key).warning


def test_hidden_width_says_both_ends(sequence):
    hidden = sequence.attribute("media_hidden")
    assert "both" in hidden.label
    assert "both" in hidden.help


def test_soft_media_wants_equal_terms(sequence):
    thickness = sequence.attribute("media_thickness")
    assert thickness.comparable_when == ("contact_pressure", "media_state")
    assert sequence.attribute("media_mass").comparable_when == ("media_state",)


def test_purchase_is_kept_by_the_specimen(sequence):
    kept = {a.key: a.specimen_field for a in sequence.attributes if a.specimen_field}
    assert kept == {k: k for k in ("price", "lot", "origin_box", "origin_can", "origin_inferred")}


@pytest.mark.parametrize(
    ("key", "low", "high"),
    [
        # The worked values of the trade (common practice, no source) pass without a question.
        ("media_length", 53.0 * 25.4, 56.0 * 25.4),
        ("media_width", 3.68 * 25.4, 3.89 * 25.4),
        ("media_hidden", 0.1 * 25.4, 0.1 * 25.4),
        ("media_mass", 18.1, 29.4),
        ("media_thickness", 0.71, 1.18),
        ("pleat_count", 45, 60),
        ("pleat_depth_gauge", 11.9, 15.0),
        # 8 to 30 psi is the usual band of marked settings (common practice, no source).
        ("bypass_marked", 8 * 6.894757, 30 * 6.894757),
    ],
)
def test_worked_values_raise_no_question(sequence, key, low, high):
    soft = sequence.attribute(key).soft
    assert soft is not None
    assert soft.holds(low)
    assert soft.holds(high)


def test_leak_limit_of_the_specification_is_usual(sequence):
    # Published A: a federal filter specification allows 10 mL in one hour.
    soft = sequence.attribute("adbv_leak").soft
    assert soft.holds(10)


def test_hold_down_specification_is_usual(sequence):
    # Published A: 15 to 35 lbf for one large element; 1 lbf = 4.4482216 N.
    soft = sequence.attribute("spring_load").soft
    assert soft.holds(15 * 4.4482216)
    assert soft.holds(35 * 4.4482216)


def test_thread_choices_are_the_threads(sequence):
    keys = [c.key for c in sequence.attribute("thread_code").choices]
    assert "3/4-16 UNF" in keys
    assert "M20x1.5" in keys
    assert keys[-1] == "other"


def test_untested_rubber_can_be_said(sequence):
    for key in ("gasket_material", "adbv_material"):
        keys = [c.key for c in sequence.attribute(key).choices]
        assert {"nbr", "vmq", "dark_rubber", "coloured_rubber"} <= set(keys)


def test_same_sequence_is_read_once():
    assert load_sequence("spin_on") is load_sequence("spin_on")
