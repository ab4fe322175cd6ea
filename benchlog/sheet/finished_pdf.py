"""The last step of a sheet: what an archive asks of the file as a whole (ISO 19005-2, PDF/A-2).

The colours' meaning, the metadata, the fonts' way back to text, and a tidy file around them.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from datetime import datetime
from io import BytesIO

import pikepdf
from pikepdf import Array, Dictionary, Name, Object, ObjectStreamMode, Pdf, String

from benchlog.sheet.metadata import Told, packet
from benchlog.trade.resource_file import resources_folder

PROFILE = "colour/srgb.icc"
PROFILE_NAME = "sRGB"

MOST_IN_BLOCK = 100
"""Pairs that one block of a character map may hold (Adobe technical note 5411)."""

_PAIR = re.compile(rb"<([0-9A-Fa-f]{2})> <([0-9A-Fa-f]{4})>\n")
_BLOCK = re.compile(rb"\d+ beginbfchar\n.*endbfchar\n", re.DOTALL)


def finished(data: bytes, made_at: datetime) -> bytes:
    """Return a document as PDF/A-2u. The same bytes for the same."""
    out = BytesIO()
    with pikepdf.open(BytesIO(data)) as pdf:
        _give_metadata(pdf, made_at)
        _give_colours(pdf)
        for font in _fonts(pdf):
            _mend_character_map(font)
        pdf.Root.ViewerPreferences = Dictionary(DisplayDocTitle=True)
        pdf.save(
            out,
            deterministic_id=True,
            fix_metadata_version=False,
            object_stream_mode=ObjectStreamMode.generate,
            preserve_pdfa=True,
        )
    return out.getvalue()


def _give_metadata(pdf: Pdf, made_at: datetime) -> None:
    """Say in XMP what the document's own notes say, and which standard it keeps."""
    moment = String(made_at.strftime("D:%Y%m%d%H%M%S+00'00'"))
    notes = pdf.docinfo
    notes.CreationDate = notes.ModDate = moment
    told = Told(
        title=str(notes.Title),
        author=str(notes.Author),
        subject=str(notes.Subject),
        keywords=str(notes.Keywords),
        creator=str(notes.Creator),
        producer=str(notes.Producer),
        made_at=made_at,
    )
    stream = pdf.make_stream(packet(told))
    stream.Type, stream.Subtype = Name.Metadata, Name.XML
    pdf.Root.Metadata = stream


def _give_colours(pdf: Pdf) -> None:
    """Say what the numbers of the colours mean (ISO 19005-2, 6.2.3)."""
    profile = pdf.make_stream((resources_folder() / PROFILE).read_bytes())
    profile.N = 3
    intent = Dictionary(
        Type=Name.OutputIntent,
        S=Name.GTS_PDFA1,
        OutputConditionIdentifier=String(PROFILE_NAME),
        Info=String(PROFILE_NAME),
        DestOutputProfile=profile,
    )
    pdf.Root.OutputIntents = Array([pdf.make_indirect(intent)])


def _fonts(pdf: Pdf) -> Iterable[Object]:
    """Return every font once; all pages share them."""
    found = {}
    for page in pdf.pages:
        fonts = page.resources.Font
        if fonts.objgen not in found:
            found[fonts.objgen] = list(fonts.as_dict().values())
    return [font for fonts in found.values() for font in fonts]


def _mend_character_map(font: Object) -> None:
    """Take the pair out that leads to no character (ISO 19005-2, 6.2.11.7.2); keep blocks short."""
    stream = font.ToUnicode
    text = stream.read_bytes()
    pairs = [(code, to) for code, to in _PAIR.findall(text) if int(to, 16)]
    blocks = [pairs[i : i + MOST_IN_BLOCK] for i in range(0, len(pairs), MOST_IN_BLOCK)]
    written = b"".join(
        b"%d beginbfchar\n%sendbfchar\n"
        % (len(block), b"".join(b"<%s> <%s>\n" % pair for pair in block))
        for block in blocks
    )
    stream.write(_BLOCK.sub(lambda _: written, text))
