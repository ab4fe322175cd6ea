"""The micrographs on the sheet: one scale, what they come to, what was held against them."""

from __future__ import annotations

from dataclasses import replace
from itertools import combinations
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.measure.micrograph import NOT_A_RATING, Side
from benchlog.sheet.micrograph_frames import BAR_SHARE, Field, bar_um, points_per_um
from benchlog.sheet.micrograph_plots import FibreStrips, OpeningPlot
from benchlog.sheet.micrograph_words import figure_lines, picture_rows
from benchlog.sheet.pictures import Picture
from benchlog.sheet.typography import use_fonts
from benchlog.tasks.frozen_pictures import picture_photos
from benchlog.tasks.media_view import media_view
from benchlog.tasks.record import Record
from benchlog.tasks.sheet_wishes import SheetWishes
from benchlog.wiring import open_workshop, record_of
from tests.sheet.micrograph_record import BLURRED, SOFT, looked_at
from tests.sheet.reading_back import outline, pages, words, write
from tests.sheet.sample_record import SPECIMENS, record
from tests.sheet.text_boxes import runs_of
from tests.tasks.sample_records import pictured_shelf

use_fonts()
BOTH = (Side.IN, Side.OUT)


def sheet(
    folder: Path, count: int, sides: tuple[Side, ...] = (Side.IN,), paper: str = "A4"
) -> Path:
    made, shelf = looked_at(count, sides)
    return write(made, folder, paper, shelf)


@pytest.mark.parametrize(("count", "paper"), [(1, "A4"), (3, "Letter"), (6, "A4")])
def test_nothing_small_nothing_overlaid(tmp_path: Path, count: int, paper: str) -> None:
    for runs in runs_of(sheet(tmp_path, count, BOTH, paper)):
        assert min(run.size for run in runs) >= 9.0
        for one, other in combinations(runs, 2):
            assert not one.meets(other), (one, other)


def test_the_part_says_what_the_numbers_are_not(tmp_path: Path) -> None:
    path = sheet(tmp_path, 3)
    titles = [title for _, title, _ in outline(path)]
    assert titles.index("Inlet side") == titles.index("Media through the microscope") + 1
    said = words(path)
    assert NOT_A_RATING in said
    assert "All at one scale, taken with “Ten times”" in said
    assert "Field 1, D50 40.0 µm" in said
    assert "20 µm" in said  # the scale bar: 30 % of 240 × 0.46 µm is 33 µm
    assert "0.46 µm a pixel, standard uncertainty 0.5 %, typed" in said
    assert "On the stage picture: 17 lines found" in said


def test_refusals_and_warnings_are_told(tmp_path: Path) -> None:
    said = words(sheet(tmp_path, 3))
    assert f"Field 4, refused: {BLURRED[:30]}" in said
    made, _ = looked_at(3)
    assert picture_rows(made, media_view(made)) == [
        ["Alder, inlet side, field 2", BLURRED, "refused; taken again"],
        [
            "Copper beech from the market, inlet side, field 4",
            BLURRED,
            "refused; no figure from it",
        ],
        ["Birch, inlet side, fields 1, 2, 3", SOFT, "measured, with that in mind"],
    ]


def test_media_are_told_apart_or_not_in_words() -> None:
    made, _ = looked_at(3)
    (side,) = media_view(made).sides
    lines = figure_lines(side)
    assert lines[0].startswith("Alder is tighter than Birch (−12.0 ± ")
    assert lines[-1].startswith("To tell openings apart by 10 % it would take up to ")


def test_photos_of_fields_stand_in_no_other_part(tmp_path: Path) -> None:
    made, shelf = looked_at(3)
    assert picture_photos(made) == {photo.id for photo in made.photos}
    plain = write(replace(made, micrographs=(), answers=(), set_ups=()), tmp_path, shelf=shelf)
    assert "a field" in words(plain)
    assert "a field" not in words(write(made, tmp_path, shelf=shelf))


@pytest.mark.parametrize(("paper", "units"), [("A4", "both"), ("Letter", "metric")])
def test_no_heading_stands_alone_at_the_foot(tmp_path: Path, paper: str, units: str) -> None:
    with open_workshop(pictured_shelf(tmp_path / "shelf")) as bench:
        (brief,) = bench.shelf.lineups()
        made = record_of(bench, brief.id)
        path = write(made, tmp_path, paper, bench.shelf, SheetWishes(units))
    (opening,) = (page for page in pages(path) if "Media through the microscope" in page)
    assert "Field 1, D50" in opening.split("Media through the microscope")[1]
    (taken,) = (page for page in pages(path) if "How the pictures were taken" in page)
    assert "by stage micrometer" in taken.split("How the pictures were taken")[1]


def test_without_micrographs_there_is_no_part(tmp_path: Path) -> None:
    assert "through the microscope" not in words(write(record(3), tmp_path))


def test_unlike_set_ups_stand_apart(tmp_path: Path) -> None:
    said = words(sheet(tmp_path, 6))
    assert "taken with “Ten times”" in said
    assert "taken with “Forty times”" in said
    assert "the microscope's set-up differs" in said


def field(width: int, height: int, um_per_px: float, turned: bool = False) -> Field:
    photo = looked_at(1)[0].photos[0]
    shown = (height, width) if turned else (width, height)
    picture = Picture(replace(photo, width=width, height=height), b"jpeg", *shown)
    return Field(picture, um_per_px, "Alder", "")


def test_all_fields_share_the_smallest_scale() -> None:
    wide, tall = field(1600, 1200, 0.5), field(1600, 1200, 0.5, turned=True)
    assert wide.size_um == (800.0, 600.0)
    assert tall.size_um == (600.0, 800.0)
    assert points_per_um([wide], 160.0, 200.0) == pytest.approx(0.2)
    assert points_per_um([wide, tall], 160.0, 120.0) == pytest.approx(0.15)
    assert points_per_um([Field(None, 0.5, "Alder", "")], 160.0, 120.0) == 0.0


@given(st.floats(0.1, 1e5))
def test_the_bar_is_a_round_length(width: float) -> None:
    length = bar_um(width)
    assert length <= BAR_SHARE * width * 1.001
    assert length > BAR_SHARE * width / 2.6
    digits = f"{length:.3e}".partition("e")[0].rstrip("0").rstrip(".")
    assert digits in ("1", "2", "5")


def drawn_words(made: Record) -> tuple[str, str]:
    (side,) = media_view(made).sides
    openings = [one for one in side.figures if one.key == "D50"]
    specimens = made.lineup.specimens
    return (
        OpeningPlot("Openings", openings, specimens, 300.0).told(),
        FibreStrips("Fibres", side.strips, specimens, 300.0).told(),
    )


def test_plots_are_told_in_words() -> None:
    openings, strips = drawn_words(looked_at(3)[0])
    assert openings.startswith("Openings: Alder 40.2 ± ")
    assert "(fields 40, 42, 38.5)" in openings
    assert strips.startswith("Fibres: Alder most often ")
    assert OpeningPlot("Openings", [], SPECIMENS[:2], 300.0).told() == (
        "Openings: no field was measured"
    )
    assert FibreStrips("Fibres", [], SPECIMENS[:2], 300.0).told() == (
        "Fibres: no fibre was measured"
    )
