"""Writing a line and reading it back."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.instruments.line_writer import write_line
from benchlog.instruments.lines import Lines
from benchlog.instruments.telegram import read_line
from benchlog.instruments.template import MASS_UNITS
from benchlog.instruments.template_file import load_templates
from benchlog.tasks.ports import Steadiness, Weight

TEMPLATES = load_templates()
VALUES = st.builds(
    lambda digits, places: Decimal(digits).scaleb(-places),
    st.integers(-99999, 99999),
    st.integers(0, 3),
)


@given(
    shape=st.sampled_from(TEMPLATES.shapes),
    value=VALUES,
    unit=st.sampled_from(MASS_UNITS),
    steadiness=st.sampled_from([Steadiness.STABLE, Steadiness.MOVING]),
    net=st.booleans(),
)
def test_written_line_reads_back(shape, value, unit, steadiness, net):
    line = write_line(shape, TEMPLATES, value, unit, steadiness=steadiness, net=net)
    (raw,) = Lines().feed(line)
    weight = read_line(raw, shape, TEMPLATES.units, unit)
    assert isinstance(weight, Weight), (line, weight)
    assert weight.said is not None
    assert (str(weight.said.value), weight.said.unit) == (f"{value:f}", unit)
    assert weight.steadiness is (steadiness if shape.says_motion else Steadiness.SILENT)
    assert weight.net is (net if shape.kind else None)


def test_written_line_has_the_known_form(templates):
    """The first form asked for by the trade (common practice, no source)."""
    shape = templates.shape("words-before")
    line = write_line(shape, templates, Decimal("287.4"), "gram")
    assert line == b"ST,GS,+000287.4  g\r\n"


def test_unknown_unit_cannot_be_written(templates):
    with pytest.raises(KeyError, match="stone"):
        write_line(templates.shape("plain"), templates, Decimal(1), "stone")
