"""The last step of a sheet: a tidy file, as an archive asks for it (ISO 19005-2, PDF/A-2)."""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime
from io import BytesIO

import pikepdf
from pikepdf import Object, ObjectStreamMode, Pdf, String

MOST_IN_BLOCK = 100
"""Pairs that one block of a character map may hold (Adobe technical note 5411)."""

_PAIR = re.compile(rb"<([0-9A-Fa-f]{2})> <([0-9A-Fa-f]{4,6})>\n")
_BLOCK = re.compile(rb"\d+ beginbfchar\n.*endbfchar\n", re.DOTALL)


def finished(data: bytes, made_at: datetime) -> bytes:
    """Return a document that has all its parts as the file to keep; the same for the same.

    `made_at` is its date; fonts lead back to text, and the file is small and sound.
    """
    out = BytesIO()
    with pikepdf.open(BytesIO(data)) as pdf:
        moment = String(made_at.strftime("D:%Y%m%d%H%M%S+00'00'"))
        pdf.docinfo.CreationDate = pdf.docinfo.ModDate = moment
        for font in _fonts(pdf):
            _mend_character_map(font)
        pdf.save(
            out,
            deterministic_id=True,
            fix_metadata_version=False,
            object_stream_mode=ObjectStreamMode.generate,
            preserve_pdfa=True,
        )
    return out.getvalue()


def _fonts(pdf: Pdf) -> Iterable[Object]:
    """Return every font once; all pages share them."""
    found = {}
    for page in pdf.pages:
        fonts = page.resources.Font
        if fonts.objgen not in found:
            found[fonts.objgen] = list(fonts.as_dict().values())
    return [font for fonts in found.values() for font in fonts]


def _mend_character_map(font: Object) -> None:
    """Let every code lead to a character in UTF-16 (ISO 32000-1, 9.10.3), in short blocks.

    What leads to none is left out (ISO 19005-2, 6.2.11.7.2).
    """
    stream = font.ToUnicode
    text = stream.read_bytes()
    pairs = [
        (code, chr(int(to, 16)).encode("utf-16-be").hex().upper().encode())
        for code, to in _PAIR.findall(text)
        if int(to, 16)
    ]
    blocks = [pairs[i : i + MOST_IN_BLOCK] for i in range(0, len(pairs), MOST_IN_BLOCK)]
    written = b"".join(
        b"%d beginbfchar\n%sendbfchar\n"
        % (len(block), b"".join(b"<%s> <%s>\n" % pair for pair in block))
        for block in blocks
    )
    stream.write(_BLOCK.sub(lambda _: written, text))
