"""Set-ups of a microscope: made with their scale, never changed, replaced by a new calibration."""

from __future__ import annotations

import hashlib
import re
from collections.abc import Iterable
from dataclasses import dataclass

from benchlog.errors import AskAgain, EntryRefused
from benchlog.measure.entry import parse_entry
from benchlog.measure.instrument import Instrument, InstrumentKind
from benchlog.measure.micrograph import MicroscopeSetUp, ScaleFrom
from benchlog.measure.plain_text import plain
from benchlog.measure.rounding import as_is
from benchlog.tasks.picture_ports import PictureShelf, StageScale
from benchlog.tasks.plan import new_id
from benchlog.tasks.ports import Clock, Shelf

LIGHTS = ("above", "below", "automatic")

RESOLUTION_UM = 0.01
"""To so much a figure of a picture is written down; what it is uncertain by is told apart."""

USUAL_UM_PER_PX = (0.02, 20.0)
USUAL_U_SHARE = 0.05
MOST_OFFSET_PX = 3.0

_SHARE = re.compile(r"(?P<number>.*?)\s*(?:%|percent|per cent)", re.IGNORECASE)


@dataclass(frozen=True)
class SetUpWords:
    """What the reviewer types of a set-up besides its scale, as typed.

    `edge_offset_px` is by how many pixels a fibre of known width reads too wide in this light, ""
    where no reference fibre was looked at; `replaces` is the id of the set-up calibrated anew.
    """

    name: str
    microscope: str
    objective: str
    light: str = "automatic"
    reference_fibre: str = ""
    edge_offset_px: str = ""
    note: str = ""
    replaces: str = ""


def current_set_ups(shelf: PictureShelf) -> list[MicroscopeSetUp]:
    """Return the set-ups to take pictures with: those not replaced, the latest first."""
    return standing_set_ups(shelf.set_ups())[::-1]


def standing_set_ups(set_ups: Iterable[MicroscopeSetUp]) -> list[MicroscopeSetUp]:
    """Return the set-ups that no later one replaces, in given order."""
    every = list(set_ups)
    gone = {one.replaces for one in every if one.replaces}
    return [one for one in every if one.id not in gone]


def instruments_listed(shelf: Shelf) -> list[Instrument]:
    """Return the instruments of the shelf, without set-ups that were calibrated anew."""
    used = {one.id for one in standing_set_ups(shelf.set_ups())}
    replaced = {one.id for one in shelf.set_ups()} - used
    return [one for one in shelf.instruments() if one.id not in replaced]


def add_typed_set_up(
    shelf: PictureShelf,
    clock: Clock,
    words: SetUpWords,
    um_per_px: str,
    uncertainty: str,
    *,
    size_px: tuple[int, int] = (0, 0),
    sure: bool = False,
) -> MicroscopeSetUp:
    """Keep a set-up whose scale was typed, with its standard uncertainty ("0.002" or "1 %").

    `size_px` is the size of its pictures, (0, 0) where any is taken. Raises EntryRefused for what
    cannot be taken, and AskAgain, unless `sure`, for an unlikely scale or uncertainty.
    """
    scale = _micrometres(um_per_px, "a scale", "Type how many micrometres one pixel is")
    u = _uncertainty(uncertainty, scale)
    if not sure:
        _ask_about(scale, u)
    made = _set_up(shelf, clock, words, scale, u, ScaleFrom.TYPED, size_px)
    shelf.add_set_up(made, instrument_of_set_up(made))
    return made


def add_stage_set_up(
    shelf: PictureShelf,
    clock: Clock,
    words: SetUpWords,
    found: StageScale,
    division_um: float,
    division_u_um: float,
    picture: bytes,
    *,
    sure: bool = False,
) -> MicroscopeSetUp:
    """Keep a set-up whose scale was found on a stage micrometer's picture, and that picture.

    `found` holds for one division of `division_um`. Raises AskAgain until the reviewer is `sure`
    of the division, having seen the lines drawn on the picture; EntryRefused as for typed ones.
    """
    if not (division_um > 0.0 and division_u_um >= 0.0):
        raise EntryRefused(
            f"{division_um:g} is no division.", "Say how many micrometres lie between two lines."
        )
    if not sure:
        told = " ".join(found.problems)
        raise AskAgain(
            f"Two neighbouring marked lines lie {as_is(division_um)} µm apart. {told}".strip(),
            "Look at the lines drawn on the picture, then say yes if that is right.",
        )
    made = _set_up(
        shelf,
        clock,
        words,
        found.um_per_px,
        found.u_um_per_px,
        ScaleFrom.STAGE,
        (found.width_px, found.height_px),
        division_um=division_um,
        division_u_um=division_u_um,
        scale_picture=hashlib.sha256(picture).hexdigest(),
        scale_notes=stage_notes(found),
    )
    shelf.add_set_up(made, instrument_of_set_up(made), picture)
    return made


def stage_notes(found: StageScale) -> tuple[str, ...]:
    """Return what was found on a stage micrometer's picture, in words."""
    missing = f", {found.lines_missing} missing between them" if found.lines_missing else ""
    return (
        f"{len(found.lines)} lines found{missing}, {found.px_per_division:.4g} px a division.",
        f"Lines lie {100 * found.residual_share:.2g} % of a division off even spacing.",
        f"The spacing changes by {100 * found.curvature_share:.2g} % across the picture.",
        *found.problems,
    )


def scale_words(set_up: MicroscopeSetUp) -> str:
    """Return a set-up's scale: "0.4621 µm a pixel, standard uncertainty 0.3 %, typed"."""
    share = 100.0 * set_up.u_um_per_px / set_up.um_per_px
    how = f"by stage micrometer, division {as_is(set_up.division_um)} µm"
    if set_up.scale_from is ScaleFrom.TYPED:
        how = "typed"
    return f"{set_up.um_per_px:.4g} µm a pixel, standard uncertainty {share:.2g} %, {how}"


def set_up_words(set_up: MicroscopeSetUp) -> str:
    """Return a set-up in a line: microscope, objective, light, picture size and edge offset."""
    light = "light as found" if set_up.light == "automatic" else f"light from {set_up.light}"
    size = f"{set_up.width_px} × {set_up.height_px} px" if set_up.width_px else ""
    offset = ""
    if set_up.edge_offset_px is not None:
        by = f"{set_up.edge_offset_px:+.2g}".replace("-", "−")
        offset = f"edge offset {by} px by {set_up.reference_fibre}"
    parts = (set_up.microscope, set_up.objective, light, size, offset)
    return ", ".join(part for part in parts if part)


def instrument_of_set_up(set_up: MicroscopeSetUp) -> Instrument:
    """Return the instrument that the readings of a set-up's pictures name; it has its id."""
    return Instrument(
        id=set_up.id,
        name=set_up.name,
        kind=InstrumentKind.MICROSCOPE,
        unit="micrometer",
        resolution=RESOLUTION_UM,
        permissible_error=0.0,
        note=f"{set_up_words(set_up)}; {scale_words(set_up)}",
    )


def _set_up(
    shelf: PictureShelf,
    clock: Clock,
    words: SetUpWords,
    um_per_px: float,
    u_um_per_px: float,
    scale_from: ScaleFrom,
    size_px: tuple[int, int],
    *,
    division_um: float = 0.0,
    division_u_um: float = 0.0,
    scale_picture: str = "",
    scale_notes: tuple[str, ...] = (),
) -> MicroscopeSetUp:
    _check_words(words, current_set_ups(shelf))
    return MicroscopeSetUp(
        id=new_id(),
        name=words.name.strip(),
        microscope=words.microscope.strip(),
        objective=words.objective.strip(),
        light=words.light,
        um_per_px=um_per_px,
        u_um_per_px=u_um_per_px,
        scale_from=scale_from,
        at=clock.now(),
        width_px=size_px[0],
        height_px=size_px[1],
        division_um=division_um,
        division_u_um=division_u_um,
        scale_picture=scale_picture,
        scale_notes=scale_notes,
        edge_offset_px=_offset(words),
        reference_fibre=words.reference_fibre.strip(),
        note=words.note.strip(),
        replaces=words.replaces,
    )


def _check_words(words: SetUpWords, current: list[MicroscopeSetUp]) -> None:
    for text, what in ((words.name, "name"), (words.objective, "objective or zoom")):
        if not text.strip():
            raise EntryRefused(f"The set-up has no {what}.", f"Type its {what}.")
    if words.light not in LIGHTS:
        raise EntryRefused(
            f"'{words.light}' is no direction of light.", "Choose above, below or automatic."
        )
    if words.replaces and words.replaces not in [one.id for one in current]:
        raise EntryRefused(
            "The set-up to replace is not among those in use.", "Choose one of them."
        )
    name = words.name.strip().casefold()
    if any(one.name.casefold() == name and one.id != words.replaces for one in current):
        raise EntryRefused(
            f"There is a set-up '{words.name.strip()}' already.",
            "Give this one another name, or replace that one.",
        )


def _offset(words: SetUpWords) -> float | None:
    """Return the edge offset in pixels, None without a reference fibre."""
    text = plain(words.edge_offset_px).lower().removesuffix("pixels").removesuffix("px").strip()
    if not text and not words.reference_fibre.strip():
        return None
    if not text or not words.reference_fibre.strip():
        raise EntryRefused(
            "A reference fibre wants both its name and its edge offset.",
            "Say which fibre it was and by how many pixels it reads too wide, or leave both empty.",
        )
    try:
        offset = float(text.replace(",", "."))
    except ValueError:
        raise EntryRefused(
            f"'{words.edge_offset_px}' is no offset.", "Type pixels, such as -0.3 or 0.4."
        ) from None
    if not abs(offset) <= MOST_OFFSET_PX:
        raise EntryRefused(
            f"An edge offset of {offset:g} px is larger than any light makes.",
            f"Type between -{MOST_OFFSET_PX:g} and {MOST_OFFSET_PX:g} px.",
        )
    return offset


def _uncertainty(text: str, scale: float) -> float:
    share = _SHARE.fullmatch(text.strip())
    wanted = "Type its standard uncertainty, such as 0.002 or 1 %"
    if share is None:
        return _micrometres(text, "an uncertainty", wanted, zero=True)
    said = parse_entry(share["number"], "percent", "ratio")
    if said.low is not None or said.value < 0:
        raise EntryRefused(f"'{text}' is no uncertainty of a scale.", f"{wanted}.")
    return scale * float(said.value) / 100.0


def _micrometres(text: str, what: str, wanted: str, *, zero: bool = False) -> float:
    said = parse_entry(text, "micrometer", "length")
    value = float(said.value)
    if said.unit != "micrometer":
        from benchlog.measure.units import convert  # noqa: PLC0415 - the unit registry is slow

        value = convert(value, said.unit, "micrometer")
    if said.low is not None or said.approximate or value < 0.0 or (value == 0.0 and not zero):
        raise EntryRefused(
            f"'{text.strip()}' is no {what.rsplit(maxsplit=1)[-1]} of a picture.", f"{wanted}."
        )
    return value


def _ask_about(scale: float, u: float) -> None:
    low, high = USUAL_UM_PER_PX
    if not low <= scale <= high:
        raise AskAgain(
            f"{scale:g} µm a pixel is outside the usual {low:g} to {high:g} µm.",
            "Correct it, or say yes if it is right.",
        )
    if u == 0.0 or u > USUAL_U_SHARE * scale:
        raise AskAgain(
            f"A standard uncertainty of {100 * u / scale:.2g} % of the scale is unusual.",
            "Slide and tilt make half a per cent or one; say yes if it is right.",
        )
