"""The sheet as a file to keep: nothing in it breaks PDF/A-2a, and the checker sees what would."""

from __future__ import annotations

from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path

import pikepdf
import pytest
from pikepdf import Array, Dictionary, Name, ObjectStreamMode, Pdf, String
from PIL import ImageCms

from benchlog.sheet.archive_parts import PROFILE
from benchlog.sheet.large_print import write_large_print
from benchlog.sheet.metadata import Told, packet
from benchlog.trade.resource_file import resources_folder
from tests.sheet.archive_faults import archive_faults
from tests.sheet.fairness_record import fair_record
from tests.sheet.reading_back import with_photos, write
from tests.sheet.sample_record import record
from tests.sheet.structure_faults import structure_faults
from tests.sheet.test_front_page import crowded
from tests.sheet.test_hostile_records import renamed

AT = datetime(2026, 3, 7, 9, 30, tzinfo=UTC)


@pytest.fixture(scope="module")
def sound(tmp_path_factory: pytest.TempPathFactory) -> Path:
    full, shelf = with_photos(record(2))
    return write(full, tmp_path_factory.mktemp("sound"), shelf=shelf)


@pytest.mark.parametrize("made", [record(6), crowded(3), fair_record()])
def test_sheet_is_fit_to_keep(tmp_path: Path, made) -> None:
    assert archive_faults(write(made, tmp_path)) == []


def test_pictures_are_fit_to_keep(sound: Path) -> None:
    assert archive_faults(sound) == []


def test_odd_names_are_fit_to_keep(tmp_path: Path) -> None:
    odd = renamed(record(2), "a < b & \ue000\ufffe\x00 \U0001f600", "Ωμέγα \\(" + "W" * 3000)
    assert archive_faults(write(odd, tmp_path)) == []


def test_large_print_is_fit_to_keep(tmp_path: Path) -> None:
    path = tmp_path / "large.pdf"
    write_large_print(record(), path, "Letter", "https://example.org/data")
    assert archive_faults(path) == []


def test_dates_are_those_of_the_record(sound: Path) -> None:
    with pikepdf.open(sound) as pdf:
        assert str(pdf.docinfo["/CreationDate"]).startswith("D:20260307")


def test_profile_is_the_usual_one() -> None:
    ours = bytearray((resources_folder() / PROFILE).read_bytes())
    theirs = bytearray(ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes())
    for profile in (ours, theirs):
        profile[8:12] = bytes(4)  # the version of the form
        profile[24:36] = bytes(12)  # when it was made
    assert ours == theirs


def test_metadata_survive_any_words() -> None:
    told = Told("a < b & c", "R. O’Neil", "1 > 0?", "x, y", "benchlog", "benchlog", AT)
    said = packet(told).decode()
    assert "a &lt; b &amp; c" in said
    assert "2026-03-07T09:30:00+00:00" in said


def drop(key: str) -> Callable[[Pdf], None]:
    return lambda pdf: pdf.Root.__delitem__(key)


def speak_of_another(pdf: Pdf) -> None:
    pdf.docinfo.Title = String("Another title")


def forget_a_font(pdf: Pdf) -> None:
    for font in pdf.pages[0].resources.Font.values():
        del font.FontDescriptor["/FontFile2"]


def widen(pdf: Pdf) -> None:
    for font in pdf.pages[0].resources.Font.values():
        font.Widths = Array([1234] * len(font.Widths))


def lead_nowhere(pdf: Pdf) -> None:
    for font in pdf.pages[0].resources.Font.values():
        font.ToUnicode = pdf.make_stream(b"1 beginbfchar\n<00> <0000>\nendbfchar\n")


def show_no_glyph(pdf: Pdf) -> None:
    font = next(iter(pdf.pages[0].resources.Font.keys()))
    pdf.pages[0].contents_add(f"/Artifact BMC BT {font} 9 Tf <00> Tj ET EMC".encode())


def paint_in_four_colours(pdf: Pdf) -> None:
    pdf.pages[0].contents_add(b"/Artifact BMC 0 0 0 1 k 0 0 9 9 re f EMC")


def run_a_script(pdf: Pdf) -> None:
    pdf.Root.OpenAction = pdf.make_indirect(Dictionary(S=Name.JavaScript, JS=String("x")))
    pdf.Root.OpenAction.Type = Name.Action


def smooth_pictures(pdf: Pdf) -> None:
    for one in pdf.objects:
        if isinstance(one, pikepdf.Stream) and one.get("/Subtype") == Name.Image:
            one.Interpolate = True


def blend(pdf: Pdf) -> None:
    pdf.Root.Stray = pdf.make_indirect(Dictionary(BM=Name.Multiply))


@pytest.mark.parametrize(
    ("harm", "clause"),
    [
        (drop("/OutputIntents"), "6.2.3"),
        (drop("/Metadata"), "6.6.2.1"),
        (drop("/StructTreeRoot"), "6.7.3"),
        (drop("/MarkInfo"), "6.7.2.2"),
        (drop("/Lang"), "6.7.4"),
        (speak_of_another, "6.6.3"),
        (forget_a_font, "6.2.11.4.1"),
        (widen, "6.2.11.5"),
        (lead_nowhere, "6.2.11.7.2"),
        (show_no_glyph, "6.2.11.8"),
        (paint_in_four_colours, "6.2.4"),
        (run_a_script, "6.5.1"),
        (smooth_pictures, "6.2.8"),
        (blend, "6.2.10"),
    ],
)
def test_harm_is_seen(
    sound: Path, tmp_path: Path, harm: Callable[[Pdf], None], clause: str
) -> None:
    path = tmp_path / "harmed.pdf"
    with pikepdf.open(sound) as pdf:
        harm(pdf)
        pdf.save(path, object_stream_mode=ObjectStreamMode.generate)
    assert [fault for fault in archive_faults(path) if fault.startswith(f"{clause}:")]


def test_harmed_bytes_are_seen(sound: Path, tmp_path: Path) -> None:
    data = sound.read_bytes()
    for spoilt, clause in (
        (data + b"more\n", "6.1.3"),
        (b"%PDF-2.0" + data[8:], "6.1.2"),
        (data.replace(b"\nendstream", b" endstream", 1), "6.1.7.1"),
    ):
        path = tmp_path / "spoilt.pdf"
        path.write_bytes(spoilt)
        assert [fault for fault in archive_faults(path) if fault.startswith(f"{clause}:")], clause


def untag(pdf: Pdf) -> None:
    pdf.pages[0].contents_add(b"0 0 9 9 re f")


def number_twice(pdf: Pdf) -> None:
    pdf.pages[0].contents_add(b"/P <</MCID 0>> BDC 0 0 9 9 re f EMC")


def orphan(pdf: Pdf) -> None:
    pdf.pages[0].contents_add(b"/P <</MCID 9999>> BDC 0 0 9 9 re f EMC")


def nest(pdf: Pdf) -> None:
    pdf.pages[0].contents_add(b"/Artifact BMC /Artifact BMC 0 0 9 9 re f EMC EMC")


def hide_words(pdf: Pdf) -> None:
    font = next(iter(pdf.pages[0].resources.Font.keys()))
    pdf.pages[0].contents_add(f"/Artifact BMC BT {font} 9 Tf (AB) Tj ET EMC".encode())


def each(kind: str, change: Callable[[pikepdf.Object], None]) -> Callable[[Pdf], None]:
    def harm(pdf: Pdf) -> None:
        found = [one for one in pdf.objects if isinstance(one, Dictionary)
                 and one.get("/Type") == Name.StructElem and Name(f"/{kind}") == one.S]  # fmt: skip
        change(found[-1])

    return harm


def rename(kind: str) -> Callable[[pikepdf.Object], None]:
    return lambda element: element.__setattr__("S", Name(f"/{kind}"))


def strip(key: str) -> Callable[[pikepdf.Object], None]:
    return lambda element: element.__delitem__(key)


def widened(element: pikepdf.Object) -> None:
    element.A = Dictionary(O=Name.Table, ColSpan=2)


@pytest.mark.parametrize(
    ("harm", "word"),
    [
        (untag, "paints outside every mark"),
        (number_twice, "2 times"),
        (orphan, "is not once in the tree"),
        (nest, "inside /Artifact"),
        (hide_words, "words are passed over: AB"),
        (each("Figure", strip("/Alt")), "a figure without words"),
        (each("Figure", strip("/A")), "a figure without its place"),
        (each("TH", strip("/A")), "does not say what it heads"),
        (each("TD", widened), "places"),
        (each("LBody", rename("P")), "stands in LI"),
        (each("H2", rename("H3")), "is marked otherwise"),
        (each("H1", rename("H3")), "a heading of level 3 follows one of level 0"),
        (drop("/Lang"), "no language"),
        (drop("/MarkInfo"), "not said to be tagged"),
        (drop("/ViewerPreferences"), "the title is not shown"),
    ],
)
def test_unheard_is_seen(
    sound: Path, tmp_path: Path, harm: Callable[[Pdf], None], word: str
) -> None:
    path = tmp_path / "harmed.pdf"
    with pikepdf.open(sound) as pdf:
        harm(pdf)
        pdf.save(path)
    assert [fault for fault in structure_faults(path) if word in fault]
