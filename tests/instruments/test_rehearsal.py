"""The rehearsal scale: a script of placings through the code that reads a real scale."""

from __future__ import annotations

import threading
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import OurFault, ScaleFault
from benchlog.instruments.lines import Lines
from benchlog.instruments.placing import Placing, placing_lines
from benchlog.instruments.rehearsal import RehearsalScale
from benchlog.instruments.steady import SteadyRule
from benchlog.instruments.template_file import load_templates
from benchlog.tasks.ports import Capture, Scale, ScaleState, Steadiness

TEMPLATES = load_templates()
SCRIPT = [Placing(Decimal("287.40")), Placing(Decimal("18.10")), Placing(Decimal("0.634"), "pound")]


def said(weights):
    return [(str(w.said.value), w.said.unit) for w in weights if w.said]


def test_each_placing_is_caught_once(heard):
    scale: Scale = RehearsalScale(SCRIPT)
    scale.start(heard)
    for _ in SCRIPT:
        scale.poll()
    assert said(heard.caught) == [("287.40", "gram"), ("18.10", "gram"), ("0.634", "pound")]
    assert heard.garbage == []


def test_play_one_returns_what_was_caught(heard):
    scale = RehearsalScale(SCRIPT[:1])
    scale.start(heard)
    weight = scale.play_one()
    assert weight is heard.caught[0]
    assert weight.raw == b"ST,GS,+00287.40  g"
    assert weight.steadiness is Steadiness.STABLE
    assert scale.play_one() is None
    scale.poll()
    assert len(heard.caught) == 1, "a script that is over stays over"


def test_listener_sees_the_pan_move(heard):
    scale = RehearsalScale([Placing(Decimal("287.4"), empty=1, moving=2, jitter=1, resting=2)])
    scale.start(heard)
    scale.play_one()
    scale.close()
    kept = [
        Capture.WAITING,
        *[Capture.SETTLING] * 3,
        *[Capture.CAUGHT] * 3,
        Capture.WAITING,
    ]
    assert heard.captures == kept
    assert [s for s, _ in heard.states] == [ScaleState.CONNECTED, ScaleState.CLOSED]


def test_silent_shape_is_rehearsed_too(heard):
    scale = RehearsalScale(SCRIPT, template="plain")
    scale.start(heard)
    caught = [scale.play_one() for _ in SCRIPT]
    assert [w.steadiness for w in caught if w] == [Steadiness.SILENT] * 3
    assert said(caught) == [("287.40", "gram"), ("18.10", "gram"), ("0.634", "pound")]


@given(
    placings=st.lists(
        st.builds(
            Placing,
            weight=st.integers(11, 99999).map(lambda n: Decimal(n).scaleb(-2)),
            unit=st.sampled_from(["gram", "ounce", "carat"]),
            jitter=st.integers(0, 6),
            moving=st.integers(0, 8),
        ),
        max_size=5,
    ),
    shape=st.sampled_from(TEMPLATES.shapes),
)
def test_any_script_plays_through_any_shape(placings, shape):
    class Quiet:
        def scale_line(self, weight, capture): ...
        def scale_caught(self, weight): ...
        def scale_garbage(self, raw, why):
            raise AssertionError(f"{raw!r} {why}")

        def scale_state(self, state, detail): ...

    scale = RehearsalScale(placings, template=shape.key)
    scale.start(Quiet())
    caught = [scale.play_one() for _ in placings]
    assert said(caught) == [(str(p.weight), p.unit) for p in placings]


def test_paced_rehearsal_waits_to_be_asked(heard):
    scale = RehearsalScale(SCRIPT, pace=0.001)
    scale.start(heard)
    heard.wait(lambda: len(heard.lines) >= 3, "an empty pan")
    assert heard.caught == []
    for number in (1, 2, 3):
        scale.poll()
        heard.wait(lambda n=number: len(heard.caught) == n, f"weight {number}")
        enough = len(heard.lines) + 40
        heard.wait(lambda n=enough: len(heard.lines) >= n, "an empty pan again")
        assert len(heard.caught) == number, "the next part waits to be asked for"
    with pytest.raises(OurFault, match="own thread"):
        scale.play_one()
    scale.close()
    assert said(heard.caught) == [("287.40", "gram"), ("18.10", "gram"), ("0.634", "pound")]
    assert heard.states[-1][0] is ScaleState.CLOSED
    assert "rehearsal" not in [t.name for t in threading.enumerate()]


def test_close_cuts_a_slow_pace_short(heard):
    scale = RehearsalScale(SCRIPT, pace=3600)
    scale.start(heard)
    heard.wait(lambda: bool(heard.lines), "the first line")
    scale.close()
    assert "rehearsal" not in [t.name for t in threading.enumerate()]


@pytest.mark.parametrize(
    ("placing", "words"),
    [
        (Placing(Decimal("0.5")), "too light"),
        (Placing(Decimal("-3.0")), "too light"),
        (Placing(Decimal("3.0"), "meter"), "'meter' is not a unit"),
    ],
)
def test_hopeless_placing_is_refused(placing, words):
    with pytest.raises(ScaleFault, match=words):
        RehearsalScale([placing])


def test_unknown_shape_is_refused():
    with pytest.raises(ScaleFault, match="nonesuch"):
        RehearsalScale(SCRIPT, template="nonesuch")
    with pytest.raises(ScaleFault, match="one shape"):
        RehearsalScale(SCRIPT, template="automatic")


def test_unstarted_scale_is_our_fault():
    with pytest.raises(OurFault, match="not started"):
        RehearsalScale(SCRIPT).play_one()


def test_script_without_placings_is_empty(heard):
    scale = RehearsalScale([])
    scale.start(heard)
    assert scale.play_one() is None
    with pytest.raises(OurFault, match="already"):
        scale.start(heard)


def test_same_script_gives_same_bytes():
    shape = TEMPLATES.shape("plain")
    twice = [b"".join(placing_lines(p, shape, TEMPLATES)) for p in (SCRIPT[0], SCRIPT[0])]
    assert twice[0] == twice[1]
    assert Lines().feed(twice[0])[-1] == b"    0.00 g"


def test_rule_of_the_rehearsal_can_be_chosen(heard):
    scale = RehearsalScale([Placing(Decimal("0.3"))], rule=SteadyRule(clear_digits=1))
    scale.start(heard)
    assert said([scale.play_one()]) == [("0.3", "gram")]
