"""The micrographs of the sample line-up are small, all there, and what the script draws."""

from __future__ import annotations

from importlib import import_module
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

from benchlog.tasks.sample import load_sample

ROOT = Path(__file__).parents[2]
MICROGRAPHS = ROOT / "resources" / "sample" / "micrographs"
MOST_TOGETHER = 1_500_000


def test_every_micrograph_is_there_and_no_other() -> None:
    sample = load_sample()
    assert sample.set_up is not None
    wanted = {one.key for one in sample.micrographs} | {sample.set_up.stage}
    assert {file.stem for file in MICROGRAPHS.iterdir()} == wanted
    assert sum(file.stat().st_size for file in MICROGRAPHS.iterdir()) <= MOST_TOGETHER


def test_script_draws_kept_micrograph_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "packaging"))
    script = import_module("draw_sample_micrographs")
    drawn = script.as_jpeg(script.fields()["cobalt_in_2"])
    with Image.open(BytesIO(drawn)) as new, Image.open(MICROGRAPHS / "cobalt_in_2.jpg") as kept:
        assert (kept.mode, kept.size) == ("L", script.SIZE)
        assert not kept.getexif()
        assert ImageStat.Stat(ImageChops.difference(new, kept)).mean[0] < 1
