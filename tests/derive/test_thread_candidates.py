"""Which threads a bore and a pitch leave open."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from uncertainties import ufloat

from benchlog.derive.thread_candidates import JAWS_READ_SMALL_MM, Sight, candidates
from benchlog.trade.thread import load_threads, thread_of
from tests.derive.found import figures, number, word

THREADS = pytest.mark.parametrize("thread", load_threads(), ids=lambda thread: thread.code)
FINE = 0.005
"""Standard uncertainty of a plug or of a good pitch reading, in mm."""


def codes(bore, pitch=None, u_bore=FINE, u_pitch=FINE, short=0.0):
    read = None if pitch is None else ufloat(pitch, u_pitch)
    return [t.code for t in candidates(Sight(ufloat(bore, u_bore), read, short))]


def said(bore, pitch=None, chosen=None, kinds=("other",), u_bore=0.01, u_pitch=0.02):
    findings = [number("outlet_bore", bore, "millimeter", u_bore, taken_with=kinds)]
    if pitch:
        findings.append(number("thread_pitch", pitch, "millimeter", u_pitch))
    if chosen:
        findings.append(word("thread_code", chosen))
    return figures(*findings)["thread_candidates"]


@THREADS
def test_every_thread_is_its_own_candidate(thread):
    assert codes(thread.minor_mm, thread.pitch_mm) == [thread.code]


@THREADS
@pytest.mark.parametrize("end", ["minor_low_mm", "minor_high_mm"])
def test_both_limits_of_the_class_are_in_it(thread, end):
    assert thread.code in codes(getattr(thread, end), thread.pitch_mm)


# Overlaps and gap of the bores, calculated from ASME B1.1 class 2B and ISO 965 class 6H limits:
# M22x1.5 20.376-20.676 with 7/8-16 20.506-20.864; M24x1.5 22.376-22.676 with 15/16-16
# 22.094-22.451; 1-12 23.109-23.567 with 1-14 23.436-23.838; 1-14 with 1-16 23.681-24.039.
@pytest.mark.parametrize(
    ("bore", "pair"),
    [
        (20.60, {"M22x1.5", "7/8-16 UN"}),
        (22.41, {"M24x1.5", "15/16-16 UN"}),
        (23.50, {"1-12 UNF", "1-14 UNS"}),
        (23.75, {"1-14 UNS", "1-16 UN"}),
    ],
)
def test_bore_alone_leaves_both(bore, pair):
    assert set(codes(bore)) == pair
    for code in pair:
        assert codes(bore, thread_of(code).pitch_mm) == [code]


# The clear gap: M20x1.5 ends at 18.676 mm, 13/16-16 begins at 18.919 mm (calculated).
def test_bore_alone_tells_m20_from_thirteen_sixteenths():
    assert codes(18.60) == ["M20x1.5"]
    assert codes(19.00) == ["13/16-16 UN"]
    assert codes(18.80) == []


def test_jaws_that_read_small_close_the_gap():
    assert set(codes(18.65, short=JAWS_READ_SMALL_MM)) == {"M20x1.5", "13/16-16 UN"}


# 16 to the inch is 1.5875 mm, 0.0875 mm above 1.5 mm: calculated. Over five threads that is
# 0.4375 mm, which a rule to half a millimetre cannot see and a calliper can.
@pytest.mark.parametrize(("u_five", "left"), [(0.5 / 3**0.5, 2), (0.05, 1)])
def test_five_threads_want_a_calliper(u_five, left):
    found = codes(20.60, 5 * 1.5875 / 5, u_pitch=u_five / 5)
    assert found[0] == "7/8-16 UN"
    assert len(found) == left


def test_likeliest_comes_first():
    assert codes(20.60, 1.51, u_pitch=0.05)[0] == "M22x1.5"
    assert codes(20.60, 1.58, u_pitch=0.05)[0] == "7/8-16 UN"
    assert codes(20.40, 1.54, u_bore=0.1, u_pitch=0.05)[0] == "M22x1.5"
    assert codes(20.85, 1.54, u_bore=0.1, u_pitch=0.05)[0] == "7/8-16 UN"


@given(
    st.sampled_from(load_threads()),
    st.floats(0, 1),
    st.floats(0.001, 0.2),
    st.floats(0.001, 0.1),
    st.floats(1, 5),
)
def test_less_certain_readings_exclude_no_more(thread, place, u_bore, u_pitch, factor):
    bore = thread.minor_low_mm + place * (thread.minor_high_mm - thread.minor_low_mm)
    sure = codes(bore, thread.pitch_mm, u_bore, u_pitch)
    loose = codes(bore, thread.pitch_mm, factor * u_bore, factor * u_pitch)
    assert thread.code in sure
    assert set(sure) <= set(loose)
    assert set(loose) <= set(codes(bore, None, factor * u_bore))


def test_one_thread_is_named():
    found = said(18.5, 1.5, "M20x1.5")
    assert found.word == "M20 × 1.5"
    assert found.warnings == ()
    assert found.readings == ("outlet_bore-a", "thread_pitch-a", "thread_code-a")


def test_two_threads_are_both_named():
    found = said(20.6, 1.53, u_pitch=0.04)
    assert found.word == "M22 × 1.5 or 7/8-16 UN"
    assert found.warnings == ("These readings leave more than one thread; try a plug of each.",)


def test_jaws_alone_cannot_decide():
    found = said(18.65, kinds=("calliper",))
    assert found.word == "Calliper jaws alone cannot decide: M20 × 1.5 or 13/16-16 UN"
    assert "pitch gauge" in found.warnings[0]
    assert found.assumed == (
        "Inside jaws may read up to 0.3 mm small (common practice, no source).",
    )


def test_bore_alone_cannot_decide():
    assert said(18.5).word == "A bore alone cannot decide: M20 × 1.5"


@pytest.mark.parametrize("kinds", [(), ("",), ("", "other"), ("calliper",)])
def test_unnamed_instrument_counts_as_jaws(kinds):
    found = said(18.5, 1.5, kinds=kinds)
    assert found.word == "M20 × 1.5"
    assert found.warnings == (
        "Calliper jaws read small in a bore; try a plug before you rely on it.",
    )


def test_thread_outside_the_table_is_said():
    found = said(30.0, 1.5)
    assert found.word == "None in the table"
    assert found.warnings == ("No thread of the table has this bore and pitch; read both again.",)


@pytest.mark.parametrize(("chosen", "warned"), [("M22x1.5", True), ("M20x1.5", False)])
def test_excluded_choice_is_warned_of(chosen, warned):
    warnings = said(18.5, 1.5, chosen).warnings
    assert any("M22 × 1.5 was chosen, but the readings exclude it" in w for w in warnings) == warned


def test_thread_of_no_table_is_not_contradicted():
    assert said(18.5, 1.5, "other").warnings == ()


def test_inch_readings_find_the_same():
    metric = said(17.5, 1.5875)
    inch = figures(
        number("outlet_bore", 17.5 / 25.4, "inch", 0.01 / 25.4, taken_with=("other",)),
        number("thread_pitch", 1 / 16, "inch", 0.02 / 25.4),
    )["thread_candidates"]
    assert inch.word == metric.word == "3/4-16 UNF"


def test_pitch_alone_is_refused():
    found = figures(number("thread_pitch", 1.5, "millimeter"))["thread_candidates"]
    assert found.word is None
    assert found.refusal == "No bore of the outlet: not measured."
