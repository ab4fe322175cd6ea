"""What was published comes back whole, stays as it was, and is there entirely or not at all."""

from __future__ import annotations

import sqlite3
from contextlib import closing
from pathlib import Path

import pytest

from benchlog.errors import OurFault, ShelfDamaged, ShelfReadOnly
from benchlog.shelf import SqlShelf, check_shelf, open_shelf
from tests.shelf import scenes


@pytest.fixture
def place(folder: Path) -> Path:
    """Where the files of the first revision lie."""
    return folder / "published" / "spring" / "1"


def test_revisions_come_back_in_order(shelf: SqlShelf, folder: Path) -> None:
    second = {"sheet.pdf": b"another sheet"}
    kept = [scenes.publish(shelf, 1), scenes.publish(shelf, 2, second)]
    shelf.close()
    with open_shelf(folder, read_only=True) as opened:
        assert opened.publications("spring") == kept
        assert opened.publications("autumn") == []
        assert opened.published_record("spring", 1) == scenes.FROZEN
        for name, data in scenes.PAGES.items():
            assert opened.publication_file("spring", 1, name) == data
        assert opened.publication_file("spring", 2, "sheet.pdf") == second["sheet.pdf"]
    assert check_shelf(folder) == []


def test_what_was_not_published_is_not_there(shelf: SqlShelf) -> None:
    scenes.publish(shelf, 1)
    with pytest.raises(KeyError):
        shelf.published_record("spring", 2)
    for revision, name in ((2, "sheet.pdf"), (1, "data.zip"), (1, "../1/sheet.pdf")):
        with pytest.raises(KeyError):
            shelf.publication_file("spring", revision, name)


def test_draft_leaves_nothing_behind(shelf: SqlShelf, folder: Path) -> None:
    with shelf.publication_draft() as draft:
        (draft / "sheet.pdf").write_bytes(b"half a sheet")
        (draft / "cards").mkdir()
    assert list((folder / "published").iterdir()) == []
    assert shelf.publications("spring") == []


def test_second_entry_of_a_revision_keeps_the_first(shelf: SqlShelf, folder: Path) -> None:
    kept = scenes.publish(shelf, 1)
    with pytest.raises(OurFault):
        scenes.publish(shelf, 1, {"sheet.pdf": b"put in its place"})
    assert shelf.publications("spring") == [kept]
    assert shelf.publication_file("spring", 1, "sheet.pdf") == scenes.PAGES["sheet.pdf"]
    shelf.close()
    assert check_shelf(folder) == []


def test_other_files_than_listed_are_refused(shelf: SqlShelf, folder: Path) -> None:
    with shelf.publication_draft() as draft:
        (draft / "sheet.pdf").write_bytes(scenes.PAGES["sheet.pdf"])
        with pytest.raises(OurFault, match="not those"):
            shelf.add_publication(scenes.published(1), scenes.FROZEN, draft)
    assert shelf.publications("spring") == []
    assert list((folder / "published").rglob("*.pdf")) == []


def test_view_cannot_publish(shelf: SqlShelf, folder: Path) -> None:
    shelf.close()
    with (
        open_shelf(folder, read_only=True) as view,
        pytest.raises(ShelfReadOnly),
        view.publication_draft(),
    ):
        pass
    assert not (folder / "published").exists()


def test_file_in_the_way_publishes_nothing(shelf: SqlShelf, folder: Path) -> None:
    (folder / "published").mkdir()
    (folder / "published" / "spring").write_text("not a folder")
    with pytest.raises(Exception, match="spring"):
        scenes.publish(shelf, 1)
    assert shelf.publications("spring") == []


def test_leftover_of_a_stopped_program_gives_way(
    shelf: SqlShelf, folder: Path, place: Path
) -> None:
    place.mkdir(parents=True)
    (place / "sheet.pdf").write_bytes(b"written, and then the power went")
    shelf.close()
    assert [p for p in check_shelf(folder) if "belongs to no published revision" in p]
    with open_shelf(folder) as opened:
        scenes.publish(opened, 1)
        assert opened.publication_file("spring", 1, "sheet.pdf") == scenes.PAGES["sheet.pdf"]
    assert check_shelf(folder) == []


def test_half_written_draft_is_named(shelf: SqlShelf, folder: Path) -> None:
    scenes.publish(shelf, 1)
    shelf.close()
    left = folder / "published" / "draft-x.part"
    left.mkdir()
    (left / "sheet.pdf").write_bytes(b"half")
    (problem,) = check_shelf(folder)
    assert "may be deleted" in problem
    assert str(left) in problem
    with open_shelf(folder) as opened:
        with opened.publication_draft() as first, opened.publication_draft() as second:
            assert first.is_dir()
            assert second.is_dir()
        scenes.publish(opened, 2)
    assert check_shelf(folder) == []


@pytest.mark.parametrize("deed", ["altered", "gone"])
def test_published_file_that_changed_is_told(
    shelf: SqlShelf, folder: Path, place: Path, deed: str
) -> None:
    scenes.publish(shelf, 1)
    path = place / "cards" / "alfa.png"
    path.write_bytes(b"a better card") if deed == "altered" else path.unlink()
    with pytest.raises(ShelfDamaged, match=r"alfa\.png"):
        shelf.publication_file("spring", 1, "cards/alfa.png")
    shelf.close()
    (problem,) = check_shelf(folder)
    assert "alfa.png" in problem


@pytest.mark.parametrize(
    ("values", "told"),
    [
        ("2, 'x', '', '{\"digest\": \"x\"}'", "no revision 1 before 2"),
        ("1, 'x', '', 'half a rec'", "revision 1 cannot be read"),
        ("1, 'x', '', '[]'", "revision 1 cannot be read"),
        ("1, 'x', '', '{\"digest\": \"y\"}'", "revision 1 has another digest"),
    ],
)
def test_check_names_entries_that_cannot_be(
    shelf: SqlShelf, folder: Path, values: str, told: str
) -> None:
    shelf.close()
    columns = "seq, id, lineup_id, at, outputs, revision, digest, reason, record"
    head = "1, 'p', 'spring', '2026-05-04T12:00:00.000000+00:00', '[]'"
    with closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute(f"INSERT INTO publication ({columns}) VALUES ({head}, {values})")
    (problem,) = check_shelf(folder)
    assert told in problem


def test_check_names_a_missing_guard(shelf: SqlShelf, folder: Path) -> None:
    shelf.close()
    with closing(sqlite3.connect(folder / "shelf.sqlite", isolation_level=None)) as raw:
        raw.execute("DROP TRIGGER publication_refuses_second")
    (problem,) = check_shelf(folder)
    assert "publication_refuses_second" in problem
