"""Records of pictures through a microscope to rows and back."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import astuple, fields
from typing import Any

from sqlalchemy import RowMapping

from benchlog.errors import OurFault
from benchlog.measure.micrograph import (
    Micrograph,
    MicroscopeSetUp,
    PictureAnswer,
    PictureFigure,
    PictureGate,
    ScaleFrom,
    Side,
)

_SIGNATURES = (
    (b"\xff\xd8\xff", "image/jpeg"),
    (b"\x89PNG\r\n\x1a\n", "image/png"),
    (b"II*\x00", "image/tiff"),
    (b"MM\x00*", "image/tiff"),
    (b"BM", "image/bmp"),
)


def media_type_of(data: bytes) -> str:
    """Return a picture's media type by how its bytes begin, "" for any other kind."""
    if data[:4] == b"RIFF" and data[8:12] == b"WEBP":
        return "image/webp"
    return next((kind for sign, kind in _SIGNATURES if data.startswith(sign)), "")


def set_up_row(set_up: MicroscopeSetUp, scale_media_type: str) -> dict[str, Any]:
    """Return a set-up as a row; one that replaces none has a blank there."""
    row = _taken(set_up)
    row["scale_from"] = set_up.scale_from.value
    row["replaces"] = set_up.replaces or None
    return {**row, "scale_media_type": scale_media_type}


def set_up_from(row: RowMapping) -> MicroscopeSetUp:
    """Return the set-up of a row."""
    kept = _picked(row, MicroscopeSetUp)
    kept["scale_from"] = ScaleFrom(row["scale_from"])
    kept["replaces"] = row["replaces"] or ""
    return MicroscopeSetUp(**kept)


def micrograph_row(micrograph: Micrograph) -> dict[str, Any]:
    """Return a micrograph as a row; one that supersedes none has a blank there."""
    row = _taken(micrograph)
    row["side"] = micrograph.side.value
    row["supersedes"] = micrograph.supersedes or None
    return row


def micrograph_from(row: RowMapping) -> Micrograph:
    """Return the micrograph of a row."""
    kept = _picked(row, Micrograph)
    kept["side"] = Side(row["side"])
    kept["supersedes"] = row["supersedes"] or ""
    return Micrograph(**kept)


def answer_row(answer: PictureAnswer) -> dict[str, Any]:
    """Return an answer as a row; OurFault where a number is none."""
    row = _taken(answer)
    row["gates"] = tuple(astuple(gate) for gate in answer.gates)
    row["figures"] = tuple(astuple(figure) for figure in answer.figures)
    numbers = (answer.edges_um, answer.shares, *row["gates"], *row["figures"])
    if any(_no_number(value) for values in numbers for value in values):
        raise OurFault(f"The answer {answer.id} holds what is no number and was not stored.")
    return row


def answer_from(row: RowMapping) -> PictureAnswer:
    """Return the answer of a row."""
    kept = _picked(row, PictureAnswer)
    kept["gates"] = _each(PictureGate, row["gates"])
    kept["figures"] = _each(PictureFigure, row["figures"])
    return PictureAnswer(**kept)


def _each(record: type[Any], rows: Iterable[Any]) -> tuple[Any, ...]:
    return tuple(record(*one) for one in rows)


def _no_number(value: object) -> bool:
    return isinstance(value, float) and not math.isfinite(value)


def _taken(record: Any) -> dict[str, Any]:
    return {field.name: getattr(record, field.name) for field in fields(record)}


def _picked(row: RowMapping, record: type[Any]) -> dict[str, Any]:
    return {field.name: row[field.name] for field in fields(record)}
