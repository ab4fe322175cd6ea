"""A number copied off the box or the can was measured by nobody here: it has no ± of ours."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from benchlog.shelf import SqlShelf, open_shelf
from benchlog.tasks.figure_view import sum_of
from benchlog.tasks.value_text import value_text
from benchlog.tasks.walk import Teardown
from benchlog.tasks.work_out import all_figures, findings_of
from benchlog.trade.sequence_file import load_sequence
from tests.made_shelves import fresh_shelf
from tests.small_trade import HandClock, small_lineup
from tests.tasks.sample_records import sample_record

SPIN_ON = load_sequence("spin_on")
COPIED = {a.key for a in SPIN_ON.attributes if a.copied}


@pytest.fixture
def bench(tmp_path: Path, clock: HandClock) -> Iterator[Teardown]:
    with open_shelf(fresh_shelf(tmp_path / "shelf")) as shelf:
        assert isinstance(shelf, SqlShelf)
        keys = tuple(a.key for a in SPIN_ON.attributes)
        shelf.save_lineup(small_lineup(sequence="spin_on", attributes=keys))
        yield Teardown(shelf, clock, SPIN_ON, "l-1")


def told(bench: Teardown, key: str, *texts: str):
    """Answer one slot with each text in turn; returns its finding."""
    for text in texts:
        bench.go_to(key, "s-a")
        bench.accept(text, sure=True)
    return findings_of(bench.lineup, SPIN_ON, list(bench.readings), [])[key, "s-a"]


def test_all_that_is_copied_is_marked_so() -> None:
    assert {"claim_months", "claim_distance", "bypass_marked", "install_turns"} <= COPIED
    assert all(SPIN_ON.attribute(key).method.startswith("copy") for key in COPIED)


@pytest.mark.parametrize("times", [1, 2])
def test_copied_number_is_exact(bench: Teardown, times: int) -> None:
    found = told(bench, "bypass_marked", *["14 psi"] * times)
    assert getattr(found.quantity.magnitude, "std_dev", 0.0) == 0.0


@pytest.mark.parametrize("texts", [("8 to 11 psi",), ("~14 psi",), ("14 psi", "16 psi")])
def test_what_is_not_one_number_keeps_its_width(bench: Teardown, texts: tuple[str, ...]) -> None:
    assert told(bench, "bypass_marked", *texts).quantity.magnitude.std_dev > 0.0


def test_price_of_a_year_rests_on_the_claim_as_it_stands(bench: Teardown) -> None:
    told(bench, "claim_months", "12")
    findings = findings_of(bench.lineup, SPIN_ON, list(bench.readings), [])
    price = all_figures(bench.lineup, findings)["price_per_year", "s-a"]
    assert price.quantity is not None
    assert getattr(price.quantity.magnitude, "std_dev", 0.0) == 0.0


def test_sum_says_that_it_was_copied() -> None:
    record = sample_record()
    amber = next(s.id for s in record.lineup.specimens if s.nickname == "Amber")
    assert value_text(record, "claim_distance", amber) == "15000 km"
    shown = sum_of(record, "claim_distance", amber)
    assert shown.formula == "x, as copied"
    assert shown.coverage.startswith("Copied, not measured")
    assert "±" not in shown.result + value_text(record, "price_per_year", amber)


def test_stated_price_keeps_its_cents() -> None:
    record = sample_record()
    amber = next(s.id for s in record.lineup.specimens if s.nickname == "Amber")
    assert value_text(record, "price_per_year", amber) == "8.90 EUR/year"
    shown = {one.key: one.text for one in sum_of(record, "price_per_year", amber).inputs}
    assert shown["price"] == "8.90 EUR"
    assert shown["km_per_year"] == "15000 km/year"
    assert shown["claim_months"] == "12 months"


def test_sum_of_what_is_stated_names_no_width() -> None:
    record = sample_record()
    amber = record.lineup.specimens[0].id
    shown = sum_of(record, "oil_kinematic_viscosity", amber)
    # 62 and 10.5 mm²/s at 40 and 100 °C are 16.781 at 80 °C by ASTM D341 (calculated)
    assert shown.result == "16.78 mm²/s"
    assert shown.coverage == "Worked from what is stated, which is taken as exact."


def test_air_viscosity_is_told_in_digits_that_can_be_read() -> None:
    record = sample_record()
    amber = record.lineup.specimens[0].id
    (row,) = [r for r in sum_of(record, "permeability", amber).rows if "Air viscosity" in r.label]
    assert row.value.endswith("µPa·s")
    assert len(row.u) < 14
