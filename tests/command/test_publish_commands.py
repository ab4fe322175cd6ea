"""Publishing from the command line: a revision, a correction, a further one, and what changed."""

from __future__ import annotations

import hashlib
import json
import shutil
from contextlib import redirect_stdout
from pathlib import Path
from typing import Any

import pytest

from benchlog import wiring
from benchlog.__main__ import main
from benchlog.measure.reading import standing
from benchlog.tasks.correct import correct
from benchlog.tasks.publications import publication_of
from benchlog.trade.sequence_file import load_sequence
from tests.tasks.sample_records import pictured_shelf

NAME = "Three for one mount"
WHY = "the tape was held at the wrong mark"
CHANGED = f"Amber · Strip length, unfolded: 1368 mm → 1375 mm, because {WHY}"
Told = pytest.CaptureFixture[str]


def put_right(shelf: Path) -> None:
    """Correct the first reading of the first specimen's strip."""
    with wiring.open_workshop(shelf) as workshop:
        lineup = workshop.shelf.lineup(wiring.find_lineup(workshop, NAME))
        old = next(
            r
            for r in standing(workshop.shelf.readings(lineup.id))
            if (r.attribute, r.specimen_id) == ("media_length", lineup.specimens[0].id)
        )
        sequence = load_sequence(lineup.sequence)
        text = "1375 mm"
        correct(workshop.shelf, workshop.clock, sequence, lineup.id, old.id, text, WHY, sure=True)


@pytest.fixture(scope="module")
def place(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Two published revisions of the sample, with copies of their files; cards are left out."""
    folder = tmp_path_factory.mktemp("published")
    pictured_shelf(folder / "shelf")
    shelf = ["--shelf", str(folder / "shelf")]
    with (folder / "draft.json").open("w", encoding="utf-8") as out, redirect_stdout(out):
        assert main([*shelf, "numbers", NAME]) == 0
    more = ["--without", "cards", "--licence", "CC-BY-4.0"]
    assert main([*shelf, "publish", NAME, "--out", str(folder / "first"), *more]) == 0
    put_right(folder / "shelf")
    assert main([*shelf, "publish", NAME, "--out", str(folder / "second"), *more]) == 0
    return folder


def run(place: Path, *words: str) -> int:
    return main(["--shelf", str(place / "shelf"), *words])


def test_every_output_says_its_revision(place: Path) -> None:
    for number, folder in ((1, place / "first"), (2, place / "second")):
        assert f"Record: revision {number}" in (folder / "description.txt").read_text("utf-8")
        assert (folder / "sheet.pdf").read_bytes().startswith(b"%PDF-")
        assert (folder / "video" / "chapters.vtt").read_text("utf-8").startswith("WEBVTT")
        assert wiring.recompute_package(folder / "data.zip") == ()
    draft = (place / "draft.json").read_text("utf-8")
    assert json.loads(draft)["lineup"]["draft"] is True


def test_revisions_are_listed_with_their_standing(place: Path, capsys: Told) -> None:
    assert run(place, "revisions", NAME) == 0
    first, second = capsys.readouterr().out.splitlines()
    assert first.startswith("  1  ")
    assert "superseded by revision 2" in first
    assert second.startswith("  2  ")
    assert f"published  ({WHY})" in second


def test_revisions_as_json_name_every_file(place: Path, capsys: Told) -> None:
    assert run(place, "revisions", NAME, "--json") == 0
    told: list[dict[str, Any]] = json.loads(capsys.readouterr().out)
    assert [one["status"] for one in told] == ["superseded by revision 2", "published"]
    for one, folder in zip(told, ("first", "second"), strict=True):
        for output in one["outputs"]:
            data = (place / folder / output["name"]).read_bytes()
            assert hashlib.sha256(data).hexdigest() == output["sha256"]
    assert CHANGED in told[1]["changes"]


def test_changes_between_revisions_are_told(place: Path, capsys: Told) -> None:
    assert run(place, "changes", NAME) == 0
    latest = capsys.readouterr().out.splitlines()
    assert latest[0].startswith("From revision 1 to 2: ")
    assert latest[1] == CHANGED
    assert any(line.startswith("Amber · Exposed media area: ") for line in latest)
    assert not any("Rule" in line for line in latest)
    assert run(place, "changes", NAME, "1", "2") == 0
    assert capsys.readouterr().out.splitlines()[1:] == latest[1:]
    assert run(place, "changes", NAME, "1", "--json") == 0
    told = json.loads(capsys.readouterr().out)
    assert [one["sentence"] for one in told["changes"]] == latest[1:]
    assert told["changes"][0]["kind"] == "ReadingChange"


def test_other_choices_make_a_revision(place: Path, tmp_path: Path, capsys: Told) -> None:
    shutil.copytree(place / "shelf", tmp_path / "shelf")
    chosen = ["--without", "cards", "--without", "description", "--paper", "Letter"]
    assert run(tmp_path, "publish", NAME, *chosen) == 0
    assert capsys.readouterr().out.startswith("revision 3, ")
    assert run(tmp_path, "publish", NAME, *chosen) == 1
    assert "Nothing changed since revision 3" in capsys.readouterr().err
    assert run(tmp_path, "revisions", NAME) == 0
    why = "(the description was left out; paper: A4 → Letter)"
    assert capsys.readouterr().out.splitlines()[2].endswith(f"published  {why}")
    assert run(tmp_path, "changes", NAME) == 0
    told = capsys.readouterr().out.splitlines()
    assert told == [
        "From revision 2 to 3: 2 changes", "The description was left out", "Paper: A4 → Letter",
    ]  # fmt: skip


def test_copies_of_an_old_revision_are_the_same(place: Path, capsys: Told) -> None:
    out = place / "again"
    assert run(place, "revisions", NAME, "--out", str(out), "--revision", "1") == 0
    paths = [Path(line) for line in capsys.readouterr().out.splitlines()]
    assert len(paths) >= 8
    for path in paths:
        assert path.read_bytes() == (place / "first" / path.relative_to(out)).read_bytes()


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("publish", NAME, "--without", "cards"), "Nothing changed since revision 2"),
        (("changes", NAME, "1", "7"), "There is no revision 7"),
        (("revisions", NAME, "--out", ".", "--revision", "1"), "not an empty folder"),
        (("publish", "Nobody's"), "No line-up"),
        (("recompute", "nowhere.zip"), "nowhere"),
    ],
)
def test_refusals_are_plain(place: Path, capsys: Told, words: tuple[str, ...], told: str) -> None:
    assert run(place, *words) == 1
    said = capsys.readouterr()
    assert told in said.err
    assert "Traceback" not in said.err
    assert said.out == ""


def test_recompute_names_a_changed_cell(place: Path, tmp_path: Path, capsys: Told) -> None:
    import zipfile

    assert run(place, "recompute", str(place / "second" / "data.zip")) == 0
    assert "comes out the same" in capsys.readouterr().out
    with zipfile.ZipFile(place / "second" / "data.zip") as packed:
        packed.extractall(tmp_path)
    readings = next(tmp_path.rglob("readings.csv"))
    text = readings.read_bytes().decode()
    assert "1375" in text
    readings.write_bytes(text.replace("1375", "1475").encode())
    assert run(place, "recompute", str(readings.parent), "--json") == 1
    found = json.loads(capsys.readouterr().out)
    assert any(one["place"] == "readings.csv" or one["place"] == "readings" for one in found)


def test_shelf_with_publications_is_sound(place: Path, capsys: Told) -> None:
    assert run(place, "check") == 0
    assert "sound" in capsys.readouterr().out
    with wiring.open_workshop(place / "shelf", read_only=True) as workshop:
        lineup_id = wiring.find_lineup(workshop, NAME)
        assert publication_of(workshop.shelf, lineup_id, 2).reason == WHY
