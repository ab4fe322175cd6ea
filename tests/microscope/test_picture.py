"""Pictures come in from every camera, and from nobody's good will."""

from __future__ import annotations

import io
import struct
import tracemalloc
import zlib
from pathlib import Path

import cv2
import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from PIL import Image

from benchlog.errors import PictureRefused
from benchlog.microscope import picture as room
from benchlog.microscope.picture import coded, linear_table, read_picture


def ramp(height: int = 80, width: int = 100) -> np.ndarray:
    down = np.linspace(10, 240, height)[:, None]
    return np.broadcast_to(down, (height, width)).round().astype(np.uint8)


def saved(values: np.ndarray, kind: str, **how: object) -> bytes:
    out = io.BytesIO()
    Image.fromarray(values).save(out, kind, **how)
    return out.getvalue()


@pytest.mark.parametrize("kind", ["PNG", "TIFF", "BMP"])
def test_grey_of_eight_bits(kind):
    got = read_picture(saved(ramp(), kind))
    assert (got.bits, got.colour, got.reduced, got.kind) == (8, False, 1, kind)
    assert coded(got.light) == pytest.approx(ramp().astype(float), abs=0.01)


def test_jpeg_is_near(tmp_path: Path):
    path = tmp_path / "a.jpg"
    path.write_bytes(saved(ramp(), "JPEG", quality=95))
    assert coded(read_picture(path).light) == pytest.approx(ramp().astype(float), abs=3)


@pytest.mark.parametrize("ending", [".png", ".tif"])
def test_colour_of_sixteen_bits(ending):
    values = np.repeat((ramp().astype(np.uint16) * 257)[..., None], 3, axis=2)
    got = read_picture(cv2.imencode(ending, values)[1].tobytes())
    assert got.colour
    assert coded(got.light) == pytest.approx(ramp().astype(float), abs=0.6)


@pytest.mark.parametrize("kind", ["PNG", "TIFF"])
@pytest.mark.parametrize("bits", [10, 12, 16])
def test_deep_grey_knows_its_white(kind, bits):
    values = np.linspace(0, 2**bits - 1, 8000).reshape(80, 100).astype(np.uint16)
    got = read_picture(saved(values, kind))
    assert got.bits == bits
    assert coded(got.light) == pytest.approx(values / (2**bits - 1) * 255, abs=0.02)


def test_colours_weigh_as_the_eye_sees():
    values = np.zeros((80, 100, 3), dtype=np.uint8)
    values[..., 1] = 255
    assert read_picture(saved(values, "PNG")).light.mean() == pytest.approx(0.7152, abs=1e-4)


@pytest.mark.parametrize("mode", ["P", "LA", "RGBA", "CMYK"])
def test_other_modes_become_plain(mode):
    out = io.BytesIO()
    grey = Image.fromarray(ramp())  # straight to P keeps its greys; by way of RGB it is dithered
    image = grey.convert(mode) if mode == "P" else grey.convert("RGB").convert(mode)
    image.save(out, "TIFF" if mode == "CMYK" else "PNG")
    assert coded(read_picture(out.getvalue()).light) == pytest.approx(ramp().astype(float), abs=4)


@pytest.mark.parametrize("turn", range(1, 9))
def test_turned_upright_by_the_note(turn):
    upright = ramp()
    upright[:20, :30] = 255
    image = Image.fromarray(upright)
    undo = {
        2: [Image.Transpose.FLIP_LEFT_RIGHT],
        3: [Image.Transpose.ROTATE_180],
        4: [Image.Transpose.FLIP_TOP_BOTTOM],
        5: [Image.Transpose.TRANSPOSE],
        6: [Image.Transpose.ROTATE_90],
        7: [Image.Transpose.TRANSVERSE],
        8: [Image.Transpose.ROTATE_270],
    }.get(turn, [])
    for step in undo:
        image = image.transpose(step)
    note = Image.Exif()
    note[0x0112] = turn
    out = io.BytesIO()
    image.save(out, "PNG", exif=note)
    got = read_picture(out.getvalue())
    assert (got.width, got.height) == (100, 80)
    assert coded(got.light) == pytest.approx(upright.astype(float), abs=0.01)


@pytest.mark.parametrize("kind", ["PNG", "JPEG", "TIFF", "WEBP"])
def test_cut_short_is_refused(kind):
    noise = np.random.default_rng(1).integers(0, 255, (80, 100), dtype=np.uint8)
    whole = saved(noise, kind)
    with pytest.raises(PictureRefused, match="cut short or damaged"):
        read_picture(whole[: len(whole) // 2], "field 1")


def test_not_a_picture_is_refused():
    with pytest.raises(PictureRefused, match=r"notes\.txt could not be read") as refused:
        read_picture(b"weights of the pleats", "notes.txt")
    assert "JPEG, PNG or TIFF" in refused.value.do


def test_missing_and_empty_are_told_apart(tmp_path: Path):
    with pytest.raises(PictureRefused, match="No such file"):
        read_picture(tmp_path / "gone.png")
    (tmp_path / "none.png").touch()
    with pytest.raises(PictureRefused, match=r"none\.png is an empty file"):
        read_picture(tmp_path / "none.png")
    with pytest.raises(PictureRefused, match="could not be opened"):
        read_picture(tmp_path)


def test_black_and_white_only_is_refused():
    with pytest.raises(PictureRefused, match="no greys"):
        read_picture(saved(ramp() > 100, "PNG"))


def test_floating_light_is_refused():
    with pytest.raises(PictureRefused, match="holds no light"):
        read_picture(saved(ramp().astype(np.float32), "TIFF"))


def test_tiny_is_refused():
    with pytest.raises(PictureRefused, match="only 100 by 30 pixels"):
        read_picture(saved(ramp(30), "PNG"))


def bomb(width: int, height: int) -> bytes:
    """A PNG of a few bytes that says it is huge."""

    def chunk(kind: bytes, body: bytes) -> bytes:
        return (
            struct.pack(">I", len(body)) + kind + body + struct.pack(">I", zlib.crc32(kind + body))
        )

    head = struct.pack(">IIBBBBB", width, height, 8, 0, 0, 0, 0)
    body = chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(bytes(1000))) + chunk(b"IEND", b"")
    return b"\x89PNG\r\n\x1a\n" + body


@pytest.mark.parametrize("size", [(9_000, 9_000), (12_000, 10_000), (60_000, 60_000)])
def test_huge_is_refused_before_it_is_unpacked(size):
    tracemalloc.start()
    with pytest.raises(PictureRefused, match="larger than 80 million pixels"):
        read_picture(bomb(*size))
    peak = tracemalloc.get_traced_memory()[1]
    tracemalloc.stop()
    assert peak < 1_000_000


def test_long_files_are_not_even_read(tmp_path: Path, monkeypatch: pytest.MonkeyPatch):
    monkeypatch.setattr(room, "MOST_BYTES", 1000)
    path = tmp_path / "long.png"
    path.write_bytes(bytes(1001))
    with pytest.raises(PictureRefused, match=r"long\.png is larger"):
        read_picture(path)


@pytest.mark.parametrize("deep", [False, True])
def test_large_is_averaged_down(monkeypatch: pytest.MonkeyPatch, deep):
    monkeypatch.setattr(room, "FULL_PIXELS", 2500)
    values = np.kron(np.array([[0, 200], [120, 60]]), np.ones((41, 51)))
    got = read_picture(saved(values.astype(np.uint16 if deep else np.uint8), "PNG"))
    assert (got.reduced, got.width, got.height) == (2, 102, 82)
    assert got.light.shape == (41, 51)
    whole = linear_table(256)[values.astype(int)]
    assert got.light.mean() == pytest.approx(whole[:82, :102].mean(), rel=1e-3)


@settings(max_examples=60, deadline=None)
@given(st.binary(max_size=200), st.integers(0, 400), st.sampled_from(["PNG", "JPEG", "TIFF"]))
def test_damaged_bytes_never_surprise(junk, place, kind):
    whole = bytearray(saved(ramp(), kind))
    whole[place : place + len(junk)] = junk
    try:
        light = read_picture(bytes(whole)).light
    except PictureRefused:
        return
    assert 0 <= light.min() <= light.max() <= 1.0001


@given(st.integers(0, 255))
def test_the_curve_goes_there_and_back(value):
    assert coded(float(linear_table(256)[value])) == pytest.approx(value, abs=1e-3)
