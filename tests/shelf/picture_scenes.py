"""A set-up and a few fields with their answers, on the small line-up of scenes."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from decimal import Decimal

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
from benchlog.shelf import SqlShelf
from tests.shelf.scenes import ALFA, LINEUP, NOON, PICTURE, photo

SCALE_PICTURE = b"\xff\xd8\xff a picture of fine lines"
MICROSCOPE = Instrument("stereo", "stereo, 4x", InstrumentKind.MICROSCOPE, "micrometer", 0.5, 0.01)
SET_UP = MicroscopeSetUp(
    id=MICROSCOPE.id,
    name="stereo, 4x, light at the side",
    microscope="stereo",
    objective="4x",
    light="above",
    um_per_px=0.5025,
    u_um_per_px=0.003,
    scale_from=ScaleFrom.STAGE,
    at=NOON,
    width_px=640,
    height_px=480,
    division_um=10.0,
    division_u_um=0.02,
    scale_picture=hashlib.sha256(SCALE_PICTURE).hexdigest(),
    scale_notes=("2 lines between the first and the last were not found.",),
    edge_offset_px=-0.37,
    reference_fibre="nylon, 100 µm by calliper",
    note="ring light off",
)


def micrograph(name: str, supersedes: str = "", field: int = 1) -> Micrograph:
    """Return a field of the first specimen's inlet side."""
    return Micrograph(
        name, LINEUP.id, ALFA.id, Side.IN, field, SET_UP.id, photo().id, NOON, supersedes
    )


def taking_back(name: str, supersedes: str) -> Micrograph:
    """Return what takes a field back and puts nothing in its place."""
    return replace(micrograph(name, supersedes), photo_id="", withdrawn=True)


def opening(name: str, ordinal: int = 1, supersedes: str | None = None) -> Reading:
    """Return the reading that a field's D50 made."""
    return Reading(
        id=name,
        lineup_id=LINEUP.id,
        specimen_id=ALFA.id,
        attribute="opening_d50_in",
        ordinal=ordinal,
        state=State.MEASURED,
        text="41.3 µm",
        at=NOON,
        session_s=90.0,
        source=Source.PICTURE,
        said=Said("41.3 µm", Decimal("41.3"), "micrometer"),
        si_value=4.13e-5,
        si_unit="meter",
        instrument_id=SET_UP.id,
        supersedes=supersedes,
    )


def answer(name: str, of: str, readings: tuple[str, ...] = ()) -> PictureAnswer:
    """Return what was measured on a micrograph."""
    return PictureAnswer(
        id=name,
        micrograph_id=of,
        at=NOON,
        method="covering circles, version 1",
        verdict="measured",
        light="above",
        warnings=("The picture is a little soft.",),
        withheld=("About 12 fibres cross the field.",),
        gates=(
            PictureGate("sharpness", 2.5, 2.0, "warned", "The picture is a little soft."),
            PictureGate("layers", None, 1.2, "passed"),
        ),
        figures=(
            PictureFigure("D50", 41.25, "um", 2.5, 1.1, 0.25),
            PictureFigure("open area", 0.55, "1", 0.02, 0.023, 0.0),
        ),
        fibres=112.5,
        edges_um=(0.0, 5.0, 10.0),
        shares=(0.25, 0.75),
        readings=readings,
    )


def refusal(name: str, of: str) -> PictureAnswer:
    """Return the refusal of a micrograph."""
    reason = "The picture is too dark: more light, or longer."
    gates = (PictureGate("brightness", 20.0, 45.0, "refused", reason),)
    return PictureAnswer(name, of, NOON, "covering circles, version 1", "refused", "above",
                         (reason,), gates=gates)  # fmt: skip


def picture_all(shelf: SqlShelf) -> None:
    """Put a set-up, a retaken field, and one that was measured and taken back on a shelf."""
    shelf.add_set_up(SET_UP, MICROSCOPE, SCALE_PICTURE)
    shelf.add_photo(photo(), PICTURE)
    shelf.add_micrograph(micrograph("dark"), [])
    shelf.add_picture_answer(refusal("too dark", "dark"), [])
    shelf.add_micrograph(micrograph("bright", "dark"), [])
    shelf.add_picture_answer(answer("good", "bright", ("d50",)), [opening("d50")])
    shelf.add_micrograph(micrograph("other", field=2), [])
    shelf.add_picture_answer(answer("also good", "other", ("d50-2",)), [opening("d50-2", 2)])
    back = replace(opening("d50-2 back", 2, "d50-2"), withdrawn=True)
    shelf.add_micrograph(replace(taking_back("gone", "other"), field=2), [back])
