"""The pictures of the sample line-up are small, all there, and what the script draws."""

from __future__ import annotations

from importlib import import_module
from io import BytesIO
from pathlib import Path

import pytest
from PIL import Image, ImageChops, ImageStat

ROOT = Path(__file__).parents[2]
PICTURES = ROOT / "resources" / "sample" / "pictures"
KINDS = ("whole", "base", "parts", "element", "strip", "closeup")
NAMES = [f"{key}_{kind}" for key in ("amber", "cobalt", "moss") for kind in KINDS]


def test_every_picture_is_there_and_no_other() -> None:
    assert sorted(file.stem for file in PICTURES.iterdir()) == sorted(NAMES)


@pytest.mark.parametrize("name", NAMES)
def test_picture_is_small_and_plain(name: str) -> None:
    file = PICTURES / f"{name}.jpg"
    assert file.stat().st_size <= 200_000
    with Image.open(file) as picture:
        assert (picture.format, picture.mode, picture.size) == ("JPEG", "RGB", (1600, 1200))
        assert not picture.getexif()


def test_script_draws_kept_picture_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.syspath_prepend(str(ROOT / "packaging"))
    script = import_module("draw_sample_pictures")
    drawn = script.as_jpeg(script.SCENES["whole"](script.MODELS[0]))
    # Another release of the JPEG library may round differently, never draw something else.
    with Image.open(BytesIO(drawn)) as new, Image.open(PICTURES / "amber_whole.jpg") as kept:
        apart = ImageStat.Stat(ImageChops.difference(new, kept.convert("RGB"))).mean
    assert max(apart) < 1
