"""A package's pictures measured again by the program itself, from the package alone."""

from __future__ import annotations

import hashlib
import io
import json
from dataclasses import replace
from pathlib import Path

import numpy as np
import pytest
from PIL import Image

from benchlog.__main__ import main
from benchlog.errors import PlanRefused
from benchlog.microscope.measured_pictures import PicturesHere
from benchlog.microscope.picture import coded
from benchlog.sheet.data.packed_pictures import as_difference, pictures_in
from benchlog.sheet.data.read_package import read_package
from benchlog.sheet.data.write_package import write_package
from benchlog.tasks.contents import contents_of
from benchlog.tasks.remeasure import Remeasured
from benchlog.tasks.work_out import worked_out
from benchlog.wiring import remeasure_package
from tests.microscope import drawn_scale
from tests.microscope.drawn_fibres import Mat, drawn
from tests.sheet.data.published import LICENCE, swap
from tests.tasks.pictured_records import pictured_contents


class Silent:
    def step(self, *_done: object) -> None:
        return


def as_png(values: np.ndarray) -> bytes:
    out = io.BytesIO()
    Image.fromarray(values).save(out, "PNG")
    return out.getvalue()


@pytest.fixture
def package(tmp_path: Path) -> Path:
    """A package with one small field, really measured, and the picture of its scale."""
    field = as_png(drawn(Mat(size=(240, 180), width=9.0, seed=2)).coded)
    light = drawn_scale.drawn(drawn_scale.Scale(size=(240, 180), period=8.0)).light
    lines = as_png(coded(light).round().astype(np.uint8))
    here, contents = PicturesHere(), pictured_contents()
    found = here.stage_scale(lines, 10.0, 0.02)
    set_up = replace(
        contents.set_ups[0],
        um_per_px=found.um_per_px,
        u_um_per_px=found.u_um_per_px,
        width_px=240,
        height_px=180,
        scale_picture=hashlib.sha256(lines).hexdigest(),
    )
    one = replace(contents.micrographs[1], photo_id=hashlib.sha256(field).hexdigest())
    answer = replace(here.measure(field, set_up, Silent()), id="a2", micrograph_id=one.id)
    others = tuple(p for p in contents.photos if p.station != "microscope")
    photo = next(p for p in contents.photos if p.name == "m2.jpg")
    photo = replace(photo, id=one.photo_id, media_type="image/png")
    contents = replace(
        contents,
        readings=tuple(r for r in contents.readings if r.attribute != "opening_d50_in"),
        photos=(*others, photo),
        set_ups=(set_up,),
        micrographs=(one,),
        answers=(answer,),
    )
    record = worked_out(replace(contents, photos=(photo,)))
    assert contents_of(record).answers == (answer,)
    return write_package(
        record,
        tmp_path / "p",
        LICENCE,
        {one.photo_id: field}.__getitem__,
        scale_bytes={set_up.id: lines}.__getitem__,
    )


def test_pictures_come_out_the_same(package: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["recompute", str(package), "--pictures"]) == 0
    assert "comes out the same" in capsys.readouterr().out


def test_another_answer_and_a_lost_picture_are_named(package: Path) -> None:
    (photo,) = (package / "photos").iterdir()
    kept = photo.read_bytes()
    photo.unlink()
    (found,) = remeasure_package(package, Silent(), PicturesHere())
    assert found.sentence == (
        "picture_answers, a2, picture: the package says a picture, worked out it is nothing at hand"
    )
    photo.write_bytes(kept)
    record = json.loads((package / "record.json").read_text(encoding="utf-8"))
    told = record["contents"]["answers"][0]
    verdict = {"measured": "refused", "refused": "measured"}[told["verdict"]]
    swap(package / "record.json", f'"verdict": "{told["verdict"]}"', f'"verdict": "{verdict}"')
    (found,) = remeasure_package(package, Silent(), PicturesHere())
    assert (found.place, found.row, found.column) == ("picture_answers", "a2", "verdict")
    assert (found.printed, found.worked_out) == (verdict, told["verdict"])


def test_nothing_outside_the_package_is_read(package: Path) -> None:
    (photo,) = (package / "photos").iterdir()
    swap(package / "photos.csv", f"photos/{photo.name}", "../../secret.png")
    packed = read_package(package)
    with pytest.raises(PlanRefused, match="outside the package"):
        pictures_in(package, packed)(packed.contents.micrographs[0].photo_id)


@pytest.mark.parametrize(
    ("what", "place"),
    [
        ("D50", ("picture_figures", "a / D50", "value")),
        ("verdict", ("picture_answers", "a", "verdict")),
        ("um_per_px", ("set_ups", "a", "um_per_px")),
    ],
)
def test_differences_name_their_tables(what: str, place: tuple[str, str, str]) -> None:
    one = as_difference(Remeasured("a", what, "1", "2"))
    assert (one.place, one.row, one.column) == place
