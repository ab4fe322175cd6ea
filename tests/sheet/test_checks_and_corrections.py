"""Checks, brackets, doubts and corrections as the sheet prints them."""

from __future__ import annotations

from dataclasses import replace
from datetime import timedelta
from decimal import Decimal
from pathlib import Path

from benchlog.measure.check import Check, CheckMoment
from benchlog.measure.checking import result_of
from benchlog.measure.reading import Said
from benchlog.measure.units import unit_symbol
from benchlog.tasks.doubt import standing_doubts
from tests.sheet.reading_back import pages, plain, words, write
from tests.sheet.sample_record import LINEUP, START, record
from tests.sheet.worked_record import worked, worked_pages, worked_words


def checks_of(text: str) -> str:
    return text[text.index("Checks of the instruments") : text.index("What counts, and what")]


def test_every_check_says_what_it_came_to() -> None:
    sample, said = worked(), checks_of(worked_words())
    tools = {i.id: i for i in sample.instruments}
    assert len(sample.checks) > 20
    for check in sample.checks:
        result = result_of(check, tools[check.instrument_id])
        shown = f"{check.said.value:f} {unit_symbol(check.said.unit)}"
        word = "passed" if result.passed else "failed"
        assert f"{shown}, {result.deviation:+f}: {word}".replace("-", "−") in said
        assert f"{result.limit:.6g} {unit_symbol(tools[check.instrument_id].unit)}" in said
        assert check.standard in said
    assert said.count("failed") - said.count("the closing check failed") == sum(
        not result_of(c, tools[c.instrument_id]).passed for c in sample.checks
    )


def test_bracketed_readings_are_named() -> None:
    said = checks_of(worked_words())
    assert "closed, and every check passed: Can wall thickness (12)." in said
    assert (
        "the closing check failed: Width hidden by the end caps, both together (6). Put right"
        in said
    )
    assert "Never checked in this session: Steel tape, 3 m (6 readings)" in said


def test_open_bracket_is_said_to_be_open(tmp_path: Path) -> None:
    sample = record()
    opening = Check("c1", LINEUP, "i1", CheckMoment.OPENING, 0.0, 0.0,
                    Said("0.1", Decimal("0.1"), "gram"), START, 5.0)  # fmt: skip
    said = checks_of(words(write(replace(sample, checks=(opening,)), tmp_path)))
    assert "Bench scale zero 0.2 g 0.1 g, +0.1: passed none" in said
    assert "not closed: no check after them: Whole weight as received (5)" in said


def test_group_correction_is_one_entry() -> None:
    text = worked_words()
    said = text[text.index(" Corrections ") : text.index("Flagged moments")]
    (correction,) = worked().corrections
    assert said.count(plain(correction.reason)) == 1
    assert "Calliper, 150 mm: 6 readings shifted by −0.05 mm." in said
    assert "Width hidden by the end caps, both together, Amber: 4.07 mm → 4.02 mm, 4.15" in said
    assert "Was" not in said


def test_single_correction_stays_in_its_table(tmp_path: Path) -> None:
    text = words(write(record(), tmp_path))
    said = text[text.index(" Corrections ") : text.index("Flagged moments")]
    assert "Alder Can wall thickness 5.1 mm 0.51 mm misheard" in said


def test_readings_in_doubt_are_told_and_marked() -> None:
    found = worked_pages(put_right=False)
    line = "6 readings are in doubt: a check of Calliper, 150 mm failed, and nothing was put right."
    assert line in found[0]
    text = " ".join(found)
    assert "4.07 in doubt, 4.15 in doubt" in text
    assert "Width hidden by the end caps, both together 4.11 ± 0.19 mm in doubt" in text
    assert text.count(line) == 2  # on the front page, and under method
    assert "in doubt: a check" not in worked_pages()[0]


def test_figures_on_doubted_readings_are_marked() -> None:
    text = " ".join(worked_pages(put_right=False))
    at = text.index("Exposed media area 7")
    assert "in doubt" in text[at : at + 60]


def test_doubts_that_stand_are_listed() -> None:
    sample, text = worked(), worked_words()
    doubts = standing_doubts(sample)
    assert doubts
    for doubt in doubts:
        assert plain(doubt.what) in text
        for reason in doubt.reasons:
            assert f"saying: {plain(reason)}" in text


def test_raw_repeats_are_whole() -> None:
    text = worked_words()
    said = text[text.index("Raw repeats") : text.index(" Corrections ")]
    assert "Can wall thickness, mm 0.382, 0.379, 0.385, 0.380" in said
    assert "Bypass opening force, N 7.9, 8.2, 8.0 9.6, 9.4, 9.5 spoiled" in said


def test_reading_said_in_another_unit_keeps_it(tmp_path: Path) -> None:
    sample = record()
    odd = replace(
        sample.readings[0], id="odd", ordinal=4, at=START + timedelta(hours=1),
        said=Said("0.634 lb", Decimal("0.634"), "pound"),
    )  # fmt: skip
    text = words(write(replace(sample, readings=(*sample.readings, odd)), tmp_path))
    assert "0.634 lb" in text[text.index("Raw repeats") :]


def test_support_and_sources_are_explained(tmp_path: Path) -> None:
    text = plain(pages(write(record(), tmp_path))[-2] + pages(write(record(), tmp_path))[-1])
    for word in ("S: standard", "E: engineering", "O: opinion", "published A", "published B",
                 "published C", "no answer yet", "1.96 where nothing limits them"):  # fmt: skip
        assert word in text
