"""The lines of the stand-in check: shipped ones hold, wrong ones are named."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from benchlog.errors import ResourceFault
from benchlog.measure.units import same_dimension
from benchlog.trade.resource_file import resources_folder
from benchlog.trade.sequence_file import load_sequence, sequence_keys
from benchlog.trade.stand_in import STAND_IN_FILE, Compare, Weight, load_stand_in


@pytest.fixture
def spoiled(tmp_path: Path) -> Path:
    (tmp_path / "trade").mkdir()
    shutil.copy(resources_folder() / STAND_IN_FILE, tmp_path / STAND_IN_FILE)
    return tmp_path


def spoil(root: Path, old: str, new: str) -> None:
    path = root / STAND_IN_FILE
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new, 1), encoding="utf-8")


@pytest.mark.parametrize("sequence", sequence_keys())
def test_every_line_is_told_in_full(sequence: str) -> None:
    lines = load_stand_in(sequence)
    assert len(lines) >= 7
    for line in lines:
        assert all((line.label, line.rule, line.caution, line.words, line.source))
        assert all(text.endswith(".") for text in (line.rule, line.caution, line.words))


def test_thread_gasket_and_pins_stop() -> None:
    # Trade bulletins: thread, gasket, and on cartridges pins and bores, stop the candidate.
    spin_on = {line.key: line.differs for line in load_stand_in("spin_on")}
    cartridge = {line.key: line.differs for line in load_stand_in("cartridge")}
    assert spin_on["thread"] is spin_on["gasket"] is cartridge["cartridge"] is Weight.STOPS
    for key in ("bypass_place", "bypass_setting", "adbv", "pressure"):
        assert spin_on[key] is Weight.ASK


def test_bypass_band_is_three_psi() -> None:
    # Common practice, no source: within 3 psi of the engine maker's figure unless told otherwise.
    (subject,) = next(x for x in load_stand_in("spin_on") if x.key == "bypass_setting").subjects
    assert (subject.band, subject.unit) == (3.0, "pound_force_per_square_inch")


@pytest.mark.parametrize("sequence", sequence_keys())
def test_bands_are_in_units_of_what_they_bound(sequence: str) -> None:
    asked = load_sequence(sequence)
    for line in load_stand_in(sequence):
        for subject in line.subjects:
            if subject.compare.of_numbers:
                assert same_dimension(subject.unit, asked.attribute(subject.key).unit)


def test_unknown_kind_of_filter_has_no_lines() -> None:
    assert load_stand_in("air") == ()


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ('key = "thread_code"', 'key = "thread_kode"', "'thread_kode' is not asked of spin_on"),
        ('compare = "same"', 'compare = "within"', "'thread_code' is not a number"),
        ('compare = "within"', 'compare = "same"', "'gasket_outside' is not words"),
        ('compare = "same"', 'compare = "kept"', "neither there nor missing"),
        ('compare = "same"', 'compare = "one of"', "'cleared' goes with 'one of' alone"),
        ('compare = "same"', 'compare = "by hand"', "is asked at the bench"),
        ('compare = "same"', 'compare = "alike"', "Invalid enum value .alike."),
        ('unsure = ["other"]', 'unsure = ["another"]', "has no answer 'another'"),
        ("band = 1.0", "band = -1.0", "wants a band of 0 or more"),
        ('unit = "millimeter"\n', "", "wants the unit of its band"),
        ('sequences = ["spin_on"]', 'sequences = ["air"]', "no sequence 'air'"),
        ('sequences = ["spin_on"]', "sequences = []", "at least one subject and one sequence"),
        ('words = "Another thread."', 'words = "It fits."', "says 'fits'"),
        ('words = "Another thread."', 'words = " "', "wants a text"),
        ('differs = "stops"', 'differs = "warns"', "not one of"),
        ('support = "standard"', "", "'support' is missing"),
    ],
)
def test_wrong_line_is_named(spoiled: Path, old: str, new: str, what: str) -> None:
    spoil(spoiled, old, new)
    with pytest.raises(ResourceFault, match=what) as fault:
        load_stand_in("spin_on", spoiled)
    assert fault.value.entry in ("thread", "gasket")
    assert fault.value.line


def test_comparisons_of_numbers_are_three() -> None:
    assert [c.value for c in Compare if c.of_numbers] == ["within", "at least", "at most"]
