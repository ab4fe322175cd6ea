"""Corrections as they are published: a true minus, whatever the instrument."""

from __future__ import annotations

from dataclasses import replace

from benchlog.measure.check import Remedy
from benchlog.tasks.correction_lines import correction_lines
from tests.tasks.sample_records import sample_record


def shifted_lines(*, known: bool) -> list[str]:
    record = sample_record()
    made = tuple(c for c in record.corrections if c.remedy is Remedy.SHIFT)
    assert made
    assert made[0].shift < 0
    tools = record.instruments if known else ()
    return [line for line in correction_lines(replace(record, instruments=tools))
            if "shifted" in line]  # fmt: skip


def test_shift_has_a_true_minus() -> None:
    (line,) = shifted_lines(known=True)
    assert "shifted by −0.05 mm" in line
    assert "-0" not in line


def test_shift_of_an_unknown_instrument_too() -> None:
    (line,) = shifted_lines(known=False)
    assert "with an instrument: shifted by −0.05" in line
