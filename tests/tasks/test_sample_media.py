"""The sample's micrographs: calibrated, measured for real, one refused and taken again."""

from __future__ import annotations

from pathlib import Path

import pytest

from benchlog.errors import ResourceFault
from benchlog.measure.micrograph import ScaleFrom, Side
from benchlog.tasks.field_order import FieldState
from benchlog.tasks.media_seen import MediaView, PairOutcome
from benchlog.tasks.media_view import media_view
from benchlog.tasks.record import Record
from benchlog.tasks.sample import SAMPLE, load_sample
from benchlog.trade.resource_file import resources_folder
from tests.tasks.sample_records import pictured_record


@pytest.fixture(scope="module")
def record() -> Record:
    return pictured_record()


@pytest.fixture(scope="module")
def view(record: Record) -> MediaView:
    return media_view(record)


def names(record: Record) -> dict[str, str]:
    return {specimen.id: specimen.nickname for specimen in record.lineup.specimens}


def test_the_scale_is_found_on_the_stage_picture(record: Record) -> None:
    (set_up,) = record.set_ups
    assert set_up.scale_from is ScaleFrom.STAGE
    # Drawn at 50 µm in 38.4615 px; the aim of the method is 0.1 %.
    assert set_up.um_per_px == pytest.approx(1.3, rel=0.001)
    assert 0.0 < set_up.u_um_per_px < 0.01 * set_up.um_per_px


def test_fields_are_measured_and_one_was_refused(record: Record, view: MediaView) -> None:
    (side,) = view.sides
    assert side.side is Side.IN
    assert {one.state for one in side.fields} == {FieldState.MEASURED}
    taken = [names(record)[one.field.specimen_id] for one in side.fields]
    assert taken == ["Amber"] * 3 + ["Cobalt"] * 3 + ["Moss"] * 2
    (refusal,) = view.refusals
    assert names(record)[refusal.specimen_id] == "Moss"
    assert refusal.replaced
    assert "blurred" in refusal.reasons[0]


def test_the_finer_medium_is_told_and_the_like_ones_are_not(
    record: Record, view: MediaView
) -> None:
    told = {
        (names(record)[p.first], names(record)[p.second]): p.outcome
        for p in view.sides[0].pairs if p.key == "D50"
    }  # fmt: skip
    assert told == {
        ("Amber", "Cobalt"): PairOutcome.LARGER,
        ("Amber", "Moss"): PairOutcome.CANNOT_TELL,
        ("Cobalt", "Moss"): PairOutcome.SMALLER,
    }


def test_a_micrograph_of_nobody_is_refused(tmp_path: Path) -> None:
    text = (resources_folder() / SAMPLE).read_text(encoding="utf-8")
    (tmp_path / "sample").mkdir()
    (tmp_path / SAMPLE).write_text(
        text.replace('specimen = "moss"', 'specimen = "nobody"', 1), encoding="utf-8"
    )
    with pytest.raises(ResourceFault, match="'nobody' is no specimen of this file"):
        load_sample(tmp_path)
