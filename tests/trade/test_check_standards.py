"""Weights by class and the usual checks, against the published table."""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from benchlog.errors import EntryRefused, ResourceFault
from benchlog.measure.instrument import InstrumentKind
from benchlog.trade.check_standard import (
    CHECK_STANDARDS_FILE,
    Tolerance,
    check_weight,
    load_check_standards,
    tolerance_of,
)
from benchlog.trade.resource_file import resources_folder

# OIML R 111-1:2004, table 1: maximum permissible errors in mg, by nominal mass in g.
TABLE = {
    1: ("0.10", "0.3", "1.0"),
    2: ("0.12", "0.4", "1.2"),
    5: ("0.16", "0.5", "1.6"),
    10: ("0.20", "0.6", "2.0"),
    20: ("0.25", "0.8", "2.5"),
    50: ("0.3", "1.0", "3.0"),
    100: ("0.5", "1.6", "5.0"),
    200: ("1.0", "3.0", "10"),
    500: ("2.5", "8.0", "25"),
    1000: ("5.0", "16", "50"),
    2000: ("10", "30", "100"),
    5000: ("25", "80", "250"),
}


@pytest.mark.parametrize("nominal", TABLE)
@pytest.mark.parametrize(("column", "weight_class"), list(enumerate(["F1", "F2", "M1"])))
def test_tolerances_are_the_published_ones(nominal: int, column: int, weight_class: str) -> None:
    wanted = Decimal(TABLE[nominal][column]) / 1000
    assert tolerance_of(weight_class, nominal) == wanted
    assert tolerance_of(weight_class, float(nominal)) == wanted


def test_table_holds_nothing_unchecked() -> None:
    classes = load_check_standards().weight_classes
    assert [c.key for c in classes] == ["F1", "F2", "M1"]
    assert all([g for g, _ in c.errors] == list(TABLE) for c in classes)


def test_better_classes_are_narrower() -> None:
    for nominal in TABLE:
        f1, f2, m1 = (tolerance_of(c, nominal) for c in ("F1", "F2", "M1"))
        # Each class allows about three times the one above it (R 111-1, table 1).
        assert 2 < f2 / f1 < 4
        assert 2 < m1 / f2 < 4


def test_check_weight_names_itself() -> None:
    weight = check_weight("M1", 100)
    assert (weight.name, weight.unit) == ("check weight 100 g, class M1", "gram")
    assert (weight.known, weight.tolerance) == (100, Decimal("0.005"))
    assert check_weight("M1", Decimal("1E+2")).name == weight.name
    # Rectangular: 5 mg / sqrt 3 = 2.887 mg (calculated).
    assert float(weight.tolerance) / 3**0.5 == pytest.approx(0.002887, abs=1e-6)


@pytest.mark.parametrize(
    ("weight_class", "nominal", "word"), [("M1", 30, "30 g"), ("E9", 100, "E9"), ("", 100, "F1")]
)
def test_unknown_weight_is_refused(weight_class: str, nominal: int, word: str) -> None:
    with pytest.raises(EntryRefused, match=word):
        tolerance_of(weight_class, nominal)


@pytest.mark.parametrize(
    ("kind", "steps"),
    [
        # Common practice, no source.
        (InstrumentKind.SCALE, [["zero"], ["weight"]]),
        (InstrumentKind.CALLIPER, [["zero"], ["block", "pin"]]),
        (InstrumentKind.MICROMETER, [["zero"], ["block", "pin"]]),
        (InstrumentKind.THICKNESS_GAUGE, [["zero"], ["block"]]),
        (InstrumentKind.DEPTH_GAUGE, [["zero"], ["block"]]),
        (InstrumentKind.TAPE, []),
        (InstrumentKind.PITCH_GAUGE, []),
    ],
)
def test_usual_checks_of_a_kind(kind: InstrumentKind, steps: list[list[str]]) -> None:
    found = load_check_standards().steps_for(kind)
    assert [[standard.key for standard in step] for step in found] == steps


def test_every_standard_says_whence_its_tolerance() -> None:
    standards = {kind.key: kind.tolerance for kind in load_check_standards().kinds}
    assert standards == {
        "zero": Tolerance.NONE,
        "weight": Tolerance.CLASS,
        "block": Tolerance.TYPED,
        "pin": Tolerance.TYPED,
    }
    with pytest.raises(KeyError):
        load_check_standards().kind("brick")


@pytest.mark.parametrize(
    ("old", "new", "field", "word"),
    [
        ("[1, 0.10], [2,", "[2, 0.10], [2,", "errors", "smaller masses"),
        ("[1, 0.10]", "[1, 0.50]", "errors", "smaller masses"),
        ("[1, 0.10]", "[1, 0]", "errors", "above zero"),
        ("[1, 0.10]", "[1]", "errors", "length"),
        ('[["zero"], ["weight"]]', '[["zero"], ["brick"]]', "steps", "brick"),
        ('[["zero"], ["weight"]]', "[]", "steps", "at least one"),
        ('instrument = "scale"', 'instrument = "scales"', "instrument", "scales"),
        ('support = "standard"', 'support = "rumour"', "support", "rumour"),
        ('tolerance = "none"', 'tolerance = "guess"', "tolerance", "guess"),
        ("[standard.zero]", "[standards.zero]", "", "standard"),
    ],
)
def test_faults_name_the_entry(tmp_path: Path, old: str, new: str, field: str, word: str) -> None:
    shipped = (resources_folder() / CHECK_STANDARDS_FILE).read_text(encoding="utf-8")
    assert old in shipped
    (tmp_path / "trade").mkdir()
    (tmp_path / CHECK_STANDARDS_FILE).write_text(shipped.replace(old, new, 1), encoding="utf-8")
    with pytest.raises(ResourceFault, match=word) as fault:
        load_check_standards(tmp_path)
    assert fault.value.field == field
    assert fault.value.line
