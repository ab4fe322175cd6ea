"""The sample's record as if some fields of its media had been taken and measured."""

from __future__ import annotations

from dataclasses import replace
from datetime import UTC, datetime
from decimal import Decimal
from functools import cache

from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    PictureFigure,
    PictureGate,
    ScaleFrom,
    Side,
)
from benchlog.measure.reading import Reading, Said, Source
from benchlog.measure.state import State
from benchlog.tasks.contents import Contents, contents_of
from benchlog.tasks.ports import Photo
from benchlog.tasks.record import Record
from benchlog.tasks.work_out import worked_out
from tests.tasks.sample_records import sample_record

AT = datetime(2026, 6, 1, 9, 0, tzinfo=UTC)
DARK = "The picture is too dark: more light, or longer."
TOOL = Instrument("u-1", "stereo, 4x", InstrumentKind.MICROSCOPE, "micrometer", 0.01, 0.0)
SET_UP = MicroscopeSetUp(
    id=TOOL.id,
    name=TOOL.name,
    microscope="stereo",
    objective="4x",
    light="above",
    um_per_px=0.5,
    u_um_per_px=0.003,
    scale_from=ScaleFrom.STAGE,
    at=AT,
    width_px=640,
    height_px=480,
    division_um=10.0,
    division_u_um=0.02,
    scale_picture="5c" * 32,
    scale_notes=("12 lines found, 20 px a division.",),
)


def photo_id(name: str) -> str:
    """Return an id as a picture of that name might have."""
    return name.encode().hex().ljust(64, "0")


def field_photo(name: str, lineup_id: str, specimen_id: str) -> Photo:
    """Return the photo of a field."""
    return Photo(
        photo_id(name), lineup_id, specimen_id, "microscope", f"{name}.jpg", "image/jpeg",
        640, 480, AT,
    )  # fmt: skip


def answer(name: str, of: str, d50: float, readings: tuple[str, ...]) -> PictureAnswer:
    """Return a measured answer of two figures."""
    return PictureAnswer(
        id=name,
        micrograph_id=of,
        at=AT,
        method="covering circles, version 1",
        verdict="measured",
        light="above",
        warnings=("The picture is a little soft.",),
        gates=(
            PictureGate("sharpness", 2.5, 2.0, "warned", "The picture is a little soft."),
            PictureGate("layers", None, 1.2, "passed"),
        ),
        figures=(
            PictureFigure("D50", d50, "um", 0.05 * d50, 0.03 * d50, 0.006 * d50),
            PictureFigure("open area", 0.55, "1", 0.02, 0.023, 0.0),
        ),
        fibres=112.5,
        edges_um=(0.0, 5.0, 10.0),
        shares=(0.25, 0.75),
        readings=readings,
    )


def opening(name: str, contents: Contents, specimen_id: str, d50: str, ordinal: int) -> Reading:
    """Return the reading of a D50."""
    return Reading(
        id=name,
        lineup_id=contents.lineup.id,
        specimen_id=specimen_id,
        attribute="opening_d50_in",
        ordinal=ordinal,
        state=State.MEASURED,
        text=f"{d50} µm",
        at=AT,
        session_s=90.0,
        source=Source.PICTURE,
        said=Said(f"{d50} µm", Decimal(d50), "micrometer"),
        si_value=float(d50) * 1e-6,
        si_unit="meter",
        instrument_id=TOOL.id,
    )


@cache
def pictured_contents() -> Contents:
    """Two media of two fields; one of them was too dark at first, and one is not measured yet."""
    contents = contents_of(sample_record())
    first, second = (one.id for one in contents.lineup.specimens[:2])
    lineup = contents.lineup.id

    def field(name: str, specimen_id: str, number: int, supersedes: str = "") -> Micrograph:
        photo = photo_id(name)
        return Micrograph(
            name, lineup, specimen_id, Side.IN, number, TOOL.id, photo, AT, supersedes
        )

    made = (
        field("m1", first, 1), field("m2", second, 1), field("m3", first, 1, "m1"),
        field("m4", second, 2), field("m5", first, 2),
    )  # fmt: skip
    dark = PictureGate("brightness", 20.0, 45.0, "refused", DARK)
    refused = PictureAnswer("a1", "m1", AT, "covering circles, version 1", "refused", "above",
                            (DARK,), gates=(dark,))  # fmt: skip
    said = (
        refused,
        answer("a2", "m2", 31.5, ("p2",)),
        answer("a3", "m3", 41.5, ("p3",)),
        answer("a4", "m4", 30.5, ("p4",)),
    )
    readings = (
        opening("p2", contents, second, "31.5", 1),
        opening("p3", contents, first, "41.5", 1),
        opening("p4", contents, second, "30.5", 2),
    )
    photos = tuple(field_photo(one.id, lineup, one.specimen_id) for one in made)
    kept = [r for r in contents.readings if r.source is not Source.PICTURE]
    return replace(
        contents,
        readings=(*kept, *readings),
        instruments=(*contents.instruments, TOOL),
        photos=(*contents.photos, *photos),
        set_ups=(SET_UP,),
        micrographs=made,
        answers=said,
    )


@cache
def pictured_record() -> Record:
    """The record of those contents."""
    return worked_out(pictured_contents())
