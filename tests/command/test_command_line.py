"""The command line on the sample line-up: rehearsed once, then asked for everything."""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
from collections import Counter
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from benchlog.__main__ import main
from benchlog.measure.state import State

ROOT = Path(__file__).parents[2]


@pytest.fixture(scope="module")
def out(tmp_path_factory: pytest.TempPathFactory) -> Path:
    folder = tmp_path_factory.mktemp("rehearsal")
    assert main(["rehearse", "--out", str(folder)]) == 0
    return folder


@pytest.fixture(scope="module")
def told(out: Path) -> dict[str, Any]:
    loaded: dict[str, Any] = json.loads((out / "numbers.json").read_text(encoding="utf-8"))
    return loaded


def test_rehearsal_writes_sheet_and_numbers(out: Path) -> None:
    assert (out / "sheet.pdf").read_bytes().startswith(b"%PDF-")
    assert (out / "numbers.json").exists()
    assert (out / "shelf" / "shelf.sqlite").exists()


def test_sample_is_rich_in_awkward_cases(told: dict[str, Any]) -> None:
    states = Counter(r["state"] for r in told["readings"])
    for state in State:
        assert states[state.value] > 0, state
    pressures = {f["contact_pressure_kpa"] for f in told["findings"]} - {None}
    assert len(pressures) == 2
    paid = {s["paid"] for s in told["specimens"]}
    assert "given by the maker" in paid
    assert "bought by the reviewer" in paid
    assert {"tie", "winner", "not judged"} <= {a["kind"] for a in told["awards"]}


def test_weights_came_through_the_rehearsal_scale(told: dict[str, Any]) -> None:
    weighed = [r for r in told["readings"] if r["attribute"] in ("whole_mass", "media_mass")]
    assert len(weighed) == 6
    for reading in weighed:
        assert reading["source"] == "rehearsal"
        assert reading["said"]["value"].encode() in bytes.fromhex(reading["raw"])


def test_every_figure_names_its_readings(told: dict[str, Any]) -> None:
    ids = {r["id"] for r in told["readings"]}
    assert told["figures"]
    for figure in told["figures"]:
        assert set(figure["readings"]) <= ids
        given = [figure["value"] is not None, figure["word"] is not None, bool(figure["refusal"])]
        assert given.count(True) == 1, figure["figure"]
        if figure["value"] is not None:
            assert figure["readings"] or figure["terms"], figure["figure"]
            assert figure["standard_uncertainty"] >= 0


def test_same_numbers_are_printed_for_the_shelf(
    out: Path, told: dict[str, Any], capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(["--shelf", str(out / "shelf"), "numbers", told["lineup"]["name"]]) == 0
    assert json.loads(capsys.readouterr().out) == told


def test_sheet_of_one_record_is_the_same_file(out: Path, told: dict[str, Any]) -> None:
    again = out / "again.pdf"
    shelf = ["--shelf", str(out / "shelf")]
    assert main([*shelf, "sheet", told["lineup"]["id"][:8], "--out", str(again)]) == 0
    assert again.read_bytes() == (out / "sheet.pdf").read_bytes()


def test_sheet_goes_out_in_the_units_asked_for(out: Path, tmp_path: Path) -> None:
    shelf, path = str(out / "shelf"), tmp_path / "inches.pdf"
    options = ["--units", "inch", "--sums", "--out", str(path), "--shelf", shelf]
    assert main(["sheet", "Three for one mount", *options]) == 0
    text = "".join(page.extract_text() for page in PdfReader(path).pages)
    usual = "".join(page.extract_text() for page in PdfReader(out / "sheet.pdf").pages)
    # Amber's gasket: 71.45 mm outside, 2.813 in
    assert "2.813" in text
    assert "71.45" in usual
    assert "The sums" in text
    assert "The sums" not in usual


def test_list_names_the_line_up(out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--shelf", str(out / "shelf"), "list"]) == 0
    assert "Three for one mount (Amber, Cobalt, Moss)" in capsys.readouterr().out


def test_sound_shelf_passes_the_check(out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--shelf", str(out / "shelf"), "check"]) == 0
    assert capsys.readouterr().out == "The shelf is sound.\n"


def test_lost_picture_fails_the_check(
    out: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(out / "shelf", tmp_path / "shelf")
    next((tmp_path / "shelf" / "photos").rglob("*.jpg")).unlink()
    capsys.readouterr()
    assert main(["--shelf", str(tmp_path / "shelf"), "check"]) == 1
    assert "photo" in capsys.readouterr().out


def test_unknown_line_up_is_told_plainly(out: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--shelf", str(out / "shelf"), "numbers", "nobody"]) == 1
    said = capsys.readouterr().err
    assert "No line-up 'nobody'" in said
    assert "Traceback" not in said


def test_two_line_ups_of_one_name_are_told_apart(
    out: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    shutil.copytree(out / "shelf", tmp_path / "shelf")
    assert main(["rehearse", "--out", str(tmp_path)]) == 0
    capsys.readouterr()
    assert main(["numbers", "three for one mount", "--shelf", str(tmp_path / "shelf")]) == 1
    said = capsys.readouterr().err
    assert "2 line-ups answer" in said
    main(["list", "--shelf", str(tmp_path / "shelf")])
    listed = {line.split()[0] for line in capsys.readouterr().out.splitlines()}
    assert len(listed) == 2
    assert all(one in said for one in listed)


def test_output_that_nobody_reads_is_no_fault(out: Path) -> None:
    command = [sys.executable, "-m", "benchlog", "--shelf", str(out / "shelf"), "numbers"]
    with subprocess.Popen(
        [*command, "three for one mount"],
        cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True,
    ) as process:  # fmt: skip
        assert process.stdout is not None
        assert process.stdout.readline() == "{\n"
        process.stdout.close()
        assert process.stderr is not None
        assert process.stderr.read() == ""


def test_folder_that_is_not_there_is_told(
    out: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    target = tmp_path / "no" / "sheet.pdf"
    shelf = ["--shelf", str(out / "shelf")]
    assert main([*shelf, "sheet", "three for one mount", "--out", str(target)]) == 1
    assert "Traceback" not in capsys.readouterr().err
    assert not target.parent.exists()


def test_absent_shelf_is_told_plainly(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["--shelf", str(tmp_path / "none"), "list"]) == 1
    assert "benchlog:" in capsys.readouterr().err
    assert not (tmp_path / "none").exists()
