"""The checks of the sample file: what a fault in them says, and what they put on."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.errors import EntryRefused, ResourceFault
from benchlog.measure.check import CheckMoment
from benchlog.tasks.sample import SAMPLE, load_sample
from benchlog.trade.resource_file import resources_folder


@pytest.mark.parametrize(
    ("old", "new", "field", "word"),
    [
        ('instrument = "bench_scale"', 'instrument = "steelyard"', "instrument", "steelyard"),
        ('weight_class = "M1"', "", "known", "weight_class or a block"),
        ('remedy = "shift"', 'remedy = "nudge"', "remedy", "nudge"),
        ('reason = "glue', 'note = "glue', "note", "not a known field"),
        ('zero = ["0.0 g", "0.0 g"]', 'zero = ["0.0 g"]', "zero", "length"),
    ],
)
def test_faulty_checks_are_named(tmp_path: Path, old: str, new: str, field: str, word: str) -> None:
    shipped = (resources_folder() / SAMPLE).read_text(encoding="utf-8")
    assert old in shipped
    (tmp_path / "sample").mkdir()
    (tmp_path / SAMPLE).write_text(shipped.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ResourceFault, match=word) as fault:
        load_sample(tmp_path)
    assert fault.value.field == field


def test_remedy_wants_its_reason(tmp_path: Path) -> None:
    shipped = (resources_folder() / SAMPLE).read_text(encoding="utf-8")
    lines = [line for line in shipped.splitlines() if not line.startswith('reason = "glue')]
    (tmp_path / "sample").mkdir()
    (tmp_path / SAMPLE).write_text("\n".join(lines), encoding="utf-8")
    with pytest.raises(ResourceFault, match="reason"):
        load_sample(tmp_path)


def test_steps_are_the_standards_put_on() -> None:
    sample = load_sample()
    tools = sample.tools()
    steps = {
        c.key: [(s.name, shown) for s, shown in c.steps(CheckMoment.CLOSING, tools[c.instrument])]
        for c in sample.checks
    }
    assert steps["scale"] == [("", "0.0 g"), ("check weight 100 g, class M1", "100.1 g")]
    assert steps["calliper_strip"] == [("", "0.05 mm"), ("gauge block 10 mm", "10.05 mm")]


def test_sample_may_check_a_zero_alone() -> None:
    sample = load_sample()
    one = next(c for c in sample.checks if c.key == "calliper_parts")
    bare = type(one)(one.key, one.instrument, one.begins, one.ends, one.zero)
    tool = sample.tools()[one.instrument]
    assert [shown for _, shown in bare.steps(CheckMoment.OPENING, tool)] == ["0.00 mm"]
    odd = type(one)(
        one.key, one.instrument, one.begins, one.ends, one.zero, one.known, "M1", nominal_g=33
    )
    with pytest.raises(EntryRefused, match="33"):
        list(odd.steps(CheckMoment.OPENING, tool))
