"""What a drawing says of itself: elements, lists, figures, decorations, links."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import UTC, datetime
from io import BytesIO
from pathlib import Path

import pikepdf
import pytest
from hypothesis import given
from hypothesis import strategies as st
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BaseDocTemplate

from benchlog.sheet.drawn import Drawn
from benchlog.sheet.flow import Heading, table
from benchlog.sheet.layout import SheetDocument
from benchlog.sheet.paragraph import Text
from benchlog.sheet.tagged_canvas import Begin, End, TaggedCanvas, with_artifacts
from benchlog.sheet.tags import artifact, figure, inside, link, paragraph
from benchlog.sheet.text import draw_lines, para
from benchlog.sheet.typography import FACE, STYLES, use_fonts
from tests.sheet.reading_back import with_photos, write
from tests.sheet.sample_record import record
from tests.sheet.structure_faults import structure_faults
from tests.sheet.tagged_reader import Node, marks_of, told, tree_of

use_fonts()
AT = datetime(2026, 3, 7, 9, 30, tzinfo=UTC)


def saved(folder: Path, draw: Callable[[TaggedCanvas], None]) -> Path:
    path = folder / "drawn.pdf"
    with path.open("wb") as out:
        canvas = TaggedCanvas(out, AT, initialFontName=FACE, invariant=1, lang="en-GB")
        canvas.setTitle("Drawn")
        draw(canvas)
        canvas.save()
    return path


def kinds(node: Node) -> object:
    """Return a tree as kinds in kinds; a leaf is its kind."""
    return (
        (node.kind, [kinds(child) for child in node.children()]) if node.children() else node.kind
    )


def tree(path: Path) -> object:
    with pikepdf.open(path) as pdf:
        return kinds(tree_of(pdf))


def at(canvas: Canvas, flowable: object, y: float, width: float = 200) -> None:
    flowable.wrapOn(canvas, width, 500)  # type: ignore[attr-defined]
    flowable.drawOn(canvas, 50, y)  # type: ignore[attr-defined]


def test_bare_text_is_a_paragraph(tmp_path: Path) -> None:
    path = saved(tmp_path, lambda c: c.drawString(50, 50, "bare"))
    assert told(path) == [("P", "bare")]


def test_lines_drawn_together_are_one(tmp_path: Path) -> None:
    path = saved(tmp_path, lambda c: draw_lines(c, ["one", "two"], 50, 90) and None)
    assert told(path) == [("P", "one two")]


def test_shapes_are_decoration(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        canvas.rect(0, 0, 9, 9, fill=1)
        canvas.drawString(50, 50, "text")
        canvas.line(0, 0, 50, 50)

    path = saved(tmp_path, draw)
    with pikepdf.open(path) as pdf:
        tags = [mark.tag for mark in marks_of(pdf.pages[0]).marks]
    assert tags == ["/Artifact", "/P", "/Artifact"]
    assert not [fault for fault in structure_faults(path) if "titles" not in fault]


def test_decorations_stay_within_saved_states() -> None:
    code = ["1 w", "n 0 0 9 9 re S", "1 0 0 rg", "q", "n 1 1 2 2 re", "f", "Q", "2 w"]
    assert with_artifacts(code) == [
        "1 w", "/Artifact BMC", "n 0 0 9 9 re S", "EMC", "1 0 0 rg", "q",
        "/Artifact BMC", "n 1 1 2 2 re", "f", "EMC", "Q", "2 w",
    ]  # fmt: skip


ITEMS = ["1 w", "1 0 0 rg", "n 0 0 9 9 re S", "n 1 1 2 2 re", "f", "BT (a) Tj ET", " "]


@given(
    st.recursive(
        st.lists(st.sampled_from(ITEMS), max_size=6),
        lambda inner: st.builds(
            lambda before, edges, within, after: [*before, edges[0], *within, edges[1], *after],
            inner,
            st.sampled_from([("q", "Q"), (Begin("/P <</MCID 0>> BDC"), End("EMC"))]),
            st.lists(st.sampled_from(ITEMS), max_size=6),
            inner,
        ),
        max_leaves=6,
    )
)
def test_all_painting_comes_to_be_marked(code: list[str]) -> None:
    marked = with_artifacts(code)
    added = [type(item) is str and item in ("/Artifact BMC", "EMC") for item in marked]
    assert [item for item, new in zip(marked, added, strict=True) if not new] == code
    depth = 0
    for item in marked:
        depth += item.endswith(("BMC", "BDC")) - (item == "EMC")
        assert depth in (0, 1)
        assert depth == 1 or not item.endswith((" S", "re", "f", "ET"))
    assert depth == 0


def test_figure_holds_all_of_it(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        canvas.translate(100, 200)
        with figure(canvas, "a bar, 5 mm", (0, 0, 40, 20)):
            canvas.rect(0, 0, 40, 20)
            draw_lines(canvas, ["5 mm"], 0, 0)

    path = saved(tmp_path, draw)
    assert told(path) == [("Figure", "a bar, 5 mm")]
    with pikepdf.open(path) as pdf:
        box = tree_of(pdf).children()[0].attributes["/BBox"]
        assert [float(side) for side in box] == [100, 200, 140, 220]


def test_figure_without_words_is_passed_over(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        with figure(canvas, "", (0, 0, 9, 9)):
            canvas.rect(0, 0, 9, 9)
        canvas.drawString(50, 50, "text")

    assert tree(saved(tmp_path, draw)) == ("Document", ["P"])


def test_artifact_says_nothing(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        with artifact(canvas, "Footer"), inside(canvas, "Table"), paragraph(canvas):
            at(canvas, para("label and text", "gutter", "Label"), 90)
        canvas.drawString(50, 50, "text")

    assert tree(saved(tmp_path, draw)) == ("Document", ["P"])


def test_labelled_paragraphs_make_a_list(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        at(canvas, para("first", "gutter", "One"), 300)
        at(canvas, para("second", "gutter", "Two"), 250)
        at(canvas, para("more of it", "gutter", ""), 220)
        at(canvas, para("apart"), 200)
        at(canvas, para("third", "gutter", "Three"), 150)

    path = saved(tmp_path, draw)
    item = ("LI", ["Lbl", "LBody"])
    assert tree(path) == ("Document", [("L", [item, item, ("LI", ["LBody"])]), "P", ("L", [item])])
    assert told(path)[:2] == [("Lbl", "One"), ("LBody", "first")]


def test_headings_open_sections(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        for y, level, text in ((500, 0, "A"), (450, 1, "A1"), (400, 0, "B")):
            at(canvas, Heading(text, level), y)

    assert tree(saved(tmp_path, draw)) == ("Document", [("Sect", ["H2", "H3"]), ("Sect", ["H2"])])


def test_table_heads_rows_and_columns(tmp_path: Path) -> None:
    rows = [["", "Alder", "Birch"], ["Weight", "1", "2"], [para("for both", "cell"), "", ""]]
    made = table(rows, [60, 60, 60], more=[("SPAN", (0, 2), (-1, 2))])
    path = saved(tmp_path, lambda c: at(c, made, 300))
    with pikepdf.open(path) as pdf:
        cells = [
            [(cell.kind, str(cell.attributes.get("/Scope", "")), cell.attributes.get("/ColSpan"))
             for cell in row.children()]
            for row in tree_of(pdf).children()[0].children()
        ]  # fmt: skip
    column, row = ("TH", "/Column", None), ("TH", "/Row", None)
    plain = ("TD", "", None)
    assert cells == [[plain, column, column], [row, plain, plain], [("TD", "", 3)]]


def test_cell_of_several_parts_keeps_them_apart(tmp_path: Path) -> None:
    made = table([["Head"], [[para("one"), para("two")]]], [90], row_heads=False)
    path = saved(tmp_path, lambda c: at(c, made, 300))
    rows = [("TR", ["TH"]), ("TR", [("TD", ["P", "P"])])]
    assert tree(path) == ("Document", [("Table", rows)])


def test_link_is_part_of_what_is_said(tmp_path: Path) -> None:
    def draw(canvas: TaggedCanvas) -> None:
        with paragraph(canvas), link(canvas, "https://example.org/a", (50, 50, 90, 60)):
            draw_lines(canvas, ["the data"], 50, 50)

    path = saved(tmp_path, draw)
    assert tree(path) == ("Document", [("P", ["Link"])])
    assert told(path) == [("Link", "the data")]
    assert not [fault for fault in structure_faults(path) if "titles" not in fault]
    with pikepdf.open(path) as pdf:
        annotation = pdf.pages[0].obj.Annots[0]
        assert str(annotation.A.URI) == "https://example.org/a"
        assert str(annotation.Contents) == "Link to https://example.org/a"


def test_a_drawing_tells_itself(tmp_path: Path) -> None:
    class Bar(Drawn):
        def told(self) -> str:
            return "five of ten"

        def draw(self) -> None:
            self.canv.rect(0, 0, 5, 5)

    assert told(saved(tmp_path, lambda c: at(c, Bar(10, 5), 90))) == [("Figure", "five of ten")]


def test_plain_canvas_takes_it_all() -> None:
    canvas = Canvas(BytesIO(), initialFontName=FACE)
    with inside(canvas, "Table"), paragraph(canvas), figure(canvas, "x", (0, 0, 1, 1)):
        at(canvas, para("label", "gutter", "L"), 50)
        at(canvas, table([["a"], ["b"]], [50]), 90)
    with artifact(canvas), link(canvas, "https://example.org", (0, 0, 9, 9)):
        canvas.line(0, 0, 9, 9)
    assert "BDC" not in "\n".join(canvas._code)


def test_brackets_and_backslashes_stay(tmp_path: Path) -> None:
    said = "a (b\\) c) Tj T* (d\\"
    path = saved(tmp_path, lambda c: at(c, Text(f"{said} {said}", STYLES["cell"]), 90, 60))
    assert [text for _, text in told(path)] == [f"{said} {said}"]


def test_marks_change_nothing_that_is_painted(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    full, shelf = with_photos(record(3))
    (tmp_path / "a").mkdir()
    tagged = contents(write(full, tmp_path / "a", shelf=shelf))
    monkeypatch.setattr(SheetDocument, "build", BaseDocTemplate.build)
    (tmp_path / "b").mkdir()
    plain = contents(write(full, tmp_path / "b", shelf=shelf))
    marks = re.compile(rb"^(/\w+ (<<.*>> BDC|BMC)|EMC)\n", re.MULTILINE)
    spaced = re.compile(rb" \)( Tj +T\*)")
    assert [spaced.sub(rb")\1", marks.sub(b"", page)) for page in tagged] == [
        spaced.sub(rb")\1", page) for page in plain
    ]


def contents(path: Path) -> list[bytes]:
    with pikepdf.open(path) as pdf:
        return [page.obj.Contents.read_bytes() for page in pdf.pages]
