"""Pictures measured, scales found and media compared without a window: JSON, words, exit codes."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from PIL import Image

from benchlog.__main__ import main
from benchlog.microscope.picture import coded
from tests.microscope import drawn_scale
from tests.microscope.drawn_fibres import Mat, drawn

ROOT = Path(__file__).parents[2]
Captured = pytest.CaptureFixture[str]


def saved(path: Path, mat: Mat) -> Path:
    Image.fromarray(drawn(mat).coded).save(path)
    return path


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder: two open fields, two tight ones, a dark one, a scale, and what is no picture."""
    folder = tmp_path_factory.mktemp("pictures")
    for seed in (1, 2):
        saved(
            folder / f"open{seed}.png", Mat(size=(640, 480), width=9.0, open_share=0.7, seed=seed)
        )
        saved(folder / f"tight{seed}.png", Mat(size=(640, 480), width=9.0, seed=seed + 4))
    saved(folder / "dark.png", Mat(size=(320, 240), exposure=0.01))
    light = drawn_scale.drawn(drawn_scale.Scale(period=20.0)).light
    Image.fromarray(coded(light).round().astype(np.uint8)).save(folder / "lines.png")
    (folder / "notes.txt").write_text("no picture")
    return folder


def said(capsys: Captured, *argv: object) -> tuple[int, Any, str]:
    """Run a command; return its code, its JSON and what it said on standard error."""
    code = main([str(one) for one in argv])
    out, err = capsys.readouterr()
    return code, json.loads(out) if out else None, err


def test_one_picture_is_one_object(place: Path, capsys: Captured) -> None:
    code, told, err = said(
        capsys,
        "picture",
        place / "tight1.png",
        "--um-per-px",
        0.5,
        "--u",
        "1 %",
        "--light",
        "above",
    )
    assert (code, err) == (0, "")
    assert told["verdict"] == "measured"
    assert told["light"] == "above"
    assert told["file"] == str(place / "tight1.png")
    d50 = told["figures"]["D50"]
    assert d50["unit"] == "um"
    assert d50["u_calibration"] == pytest.approx(0.01 * d50["value"])
    assert told["gates"]["level swing"]["outcome"] == "passed"
    assert "no micron rating" in told["beside"]


def test_several_pictures_are_a_list(place: Path, capsys: Captured) -> None:
    files = [place / name for name in ("tight1.png", "dark.png", "notes.txt", "none.png")]
    code, told, err = said(capsys, "picture", *files, "--um-per-px", 0.5)
    assert code == 1, "not all of them were measured"
    assert [one["verdict"] for one in told] == ["measured", "refused", "refused", "refused"]
    assert [one["file"] for one in told] == [str(file) for file in files]
    assert f"{files[1]}: The picture is too dark" in err
    assert "could not be read as a picture" in err
    assert "none.png could not be opened" in err


def test_a_refused_picture_still_answers(place: Path, capsys: Captured) -> None:
    code, told, err = said(capsys, "picture", place / "dark.png", "--um-per-px", 0.5)
    assert code == 1
    assert told["figures"] == {}
    assert told["gates"]["brightness"]["value"] < told["gates"]["brightness"]["limit"]
    assert told["reasons"][0] in err


def test_the_edge_offset_moves_the_fibres(place: Path, capsys: Captured) -> None:
    medians = []
    for offset in ((), ("--edge-offset", 0.4)):
        argv = ("picture", place / "tight1.png", "--um-per-px", 1.0, "--light", "above", *offset)
        medians.append(said(capsys, *argv)[1]["figures"]["fibre median"])
    assert medians[0]["value"] - medians[1]["value"] == pytest.approx(0.4, abs=0.05)
    assert medians[1]["u_systematic"] < medians[0]["u_systematic"]


def test_a_scale_is_found(place: Path, capsys: Captured) -> None:
    code, told, _ = said(capsys, "scale-picture", place / "lines.png", "--division-um", 10)
    assert code == 0
    assert told["px_per_division"] == pytest.approx(20.0, rel=1e-3)
    assert told["um_per_px"] == pytest.approx(0.5, rel=1e-3)
    assert (told["width_px"], told["height_px"], told["division_um"]) == (640, 480, 10.0)


def test_no_scale_is_said_in_words(place: Path, capsys: Captured) -> None:
    code, told, err = said(capsys, "scale-picture", place / "open1.png", "--division-um", 10)
    assert (code, told) == (1, None)
    assert err.startswith("benchlog: ")


def test_a_picture_takes_its_scale_from_another(place: Path, capsys: Captured) -> None:
    scale = ("--scale-picture", place / "lines.png", "--division-um", 10)
    code, told, _ = said(capsys, "picture", place / "tight1.png", *scale)
    assert code == 0
    plain = said(capsys, "picture", place / "tight1.png", "--um-per-px", 0.5)[1]
    assert told["figures"]["D50"]["value"] == pytest.approx(
        plain["figures"]["D50"]["value"], rel=1e-3
    )
    assert told["figures"]["D50"]["u_calibration"] > 0.0
    code, told, err = said(capsys, "picture", place / "dark.png", *scale)
    assert code == 1
    assert "320 × 240 pixels, the scale was found on 640 × 480" in err


@pytest.mark.parametrize(
    ("argv", "words"),
    [
        (("picture", "{dark}", "--um-per-px", "0"), "0.0 is no scale"),
        (("picture", "{dark}", "--um-per-px", "nan"), "nan is no scale"),
        (("picture", "{dark}", "--um-per-px", "1", "--u", "much"), "'much' is no uncertainty"),
        (("picture", "{dark}", "--um-per-px", "1", "--u=-1"), "-1.0 is no uncertainty"),
        (("picture", "{dark}", "--um-per-px", "1", "--edge-offset", "nan"), "no edge offset"),
        (("picture", "{dark}", "--scale-picture", "{dark}"), "not in micrometres"),
        (("scale-picture", "{dark}", "--division-um", "0"), "0.0 is no division"),
        (("media", "--a", "{dark}", "--b", "{none}", "--um-per-px", "1"), "at least two measured"),
        (("media", "--a", "{dark}", "--b", "{dark}", "--um-per-px", "1"), "is the same picture as"),
        (("media", "--a", "{dark}", "--b", "{none}", "--um-per-px", "1", "--difference", "0"),
         "0 per cent is no difference"),
    ],
)  # fmt: skip
def test_what_is_no_scale_is_refused(
    place: Path, capsys: Captured, argv: tuple[str, ...], words: str
) -> None:
    files = {"dark": place / "dark.png", "none": place / "none.png"}
    code, told, err = said(capsys, *(one.format(**files) for one in argv))
    assert (code, told) == (1, None)
    assert words in err


def test_media_are_compared(place: Path, capsys: Captured) -> None:
    a, b = ([place / f"{name}{k}.png" for k in (1, 2)] for name in ("tight", "open"))
    argv = ("media", "--a", *a, place / "dark.png", "--b", *b, "--um-per-px", 0.5)
    code, told, err = said(capsys, *argv, "--light", "above")
    assert code == 0
    assert told["first"]["pictures"] == 3
    assert told["first"]["measured"] == 2
    assert any("too dark" in reason for reason in told["first"]["reasons"])
    assert "dark.png" in err
    gap = told["differences"]["D50"]
    means = [told[which]["means"]["D50"]["mean"] for which in ("first", "second")]
    assert gap["difference"] == pytest.approx(means[0] - means[1])
    assert gap["difference"] < 0.0
    assert gap["low"] < 0.0 < gap["high"], "two small fields each are too few"
    assert gap["answer"] == "cannot tell"
    assert told["differences"]["open area"]["difference"] < 0.0
    assert told["second"]["means"]["D50"]["more_fields"] is not None
    assert [one["verdict"] for one in told["pictures"]["first"]] == ["measured"] * 2 + ["refused"]
    assert "no micron rating" in told["beside"]


def test_help_of_pictures_loads_nothing_heavy(place: Path) -> None:
    code = (
        "import sys; from benchlog import cli\n"
        "try: cli.parse(['picture', '--help'])\n"
        "except SystemExit: pass\n"
        "print(sorted({'numpy', 'cv2', 'PIL', 'scipy', 'sqlalchemy'} & set(sys.modules)))"
    )
    ran = subprocess.run(
        [sys.executable, "-c", code], cwd=ROOT, capture_output=True, text=True, check=True
    )
    assert ran.stdout.splitlines()[-1] == "[]"
