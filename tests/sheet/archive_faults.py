"""What keeps a PDF from being PDF/A-2a, by ISO 19005-2; clauses from memory.

No validator is asked: this reads the bytes and the objects, and looks at each clause that a sheet
could break.
"""

from __future__ import annotations

import re
import struct
import xml.etree.ElementTree as ET
from collections.abc import Iterator
from datetime import UTC, datetime
from pathlib import Path

import pikepdf
from pikepdf import Name

from tests.sheet.embedded_fonts import font_faults

_NAMES = (
    "b B b* B* BDC BMC BT c cm CS cs d Do EMC ET f f* G g gs h i j J K k l m M n q Q re RG rg ri s "
    "S SC sc SCN scn sh T* Tc Td TD Tf Tj TJ TL Tm Tr Ts Tw Tz v w W W* y ' \""
)
OPERATORS = frozenset(_NAMES.split())
"""All that ISO 32000-1 knows and a page here may use."""

ACTIONS = {Name.URI, Name.GoTo}
SPACES = {
    "dc": "http://purl.org/dc/elements/1.1/",
    "pdf": "http://ns.adobe.com/pdf/1.3/",
    "xmp": "http://ns.adobe.com/xap/1.0/",
    "pdfaid": "http://www.aiim.org/pdfa/ns/id/",
    "rdf": "http://www.w3.org/1999/02/22-rdf-syntax-ns#",
}


def archive_faults(path: Path) -> list[str]:
    """Return every fault with the clause that it breaks."""
    data = path.read_bytes()
    with pikepdf.open(path) as pdf:
        return [
            *_of_bytes(data),
            *_of_file(pdf),
            *_of_colours(pdf),
            *_of_pages(pdf),
            *_of_objects(pdf),
            *font_faults(pdf),
            *_of_metadata(pdf),
            *_of_tagging(pdf),
        ]


def _of_bytes(data: bytes) -> Iterator[str]:
    if not re.match(rb"%PDF-1\.[0-7]\r?\n%[\x80-\xff]{4}", data):
        yield "6.1.2: the head of the file"
    if data.count(b"%%EOF") != 1 or not re.search(rb"%%EOF\r?\n?$", data):
        yield "6.1.3: something behind the end of the file"
    bare = len(re.findall(rb"[^\r\n]endstream", data))
    if bare:
        yield f"6.1.7.1: {bare} streams end without a line end"
    if re.search(rb"stream\r[^\n]", data):
        yield "6.1.7.1: a stream begins after a bare carriage return"


def _of_file(pdf: pikepdf.Pdf) -> Iterator[str]:
    identity = pdf.trailer.get("/ID")
    if identity is None or len(identity) != 2 or not bytes(identity[0]):
        yield "6.1.3: no file identifier"
    if pdf.is_encrypted or "/Encrypt" in pdf.trailer:
        yield "6.1.3: encrypted"
    for key in ("/AA", "/Requirements", "/OCProperties", "/AcroForm", "/Perms"):
        if key in pdf.Root:
            yield f"6.5.2, 6.9, 6.11: {key} in the catalogue"
    names = pdf.Root.get("/Names", {})
    for key in ("/EmbeddedFiles", "/JavaScript", "/AlternatePresentations"):
        if key in names:
            yield f"6.5.1, 6.8, 6.10: {key}"
    if pdf.check_pdf_syntax():
        yield "6.1: the file is not sound"


def _of_colours(pdf: pikepdf.Pdf) -> Iterator[str]:
    intents = list(pdf.Root.get("/OutputIntents", ()))
    if len(intents) != 1 or intents[0].S != Name.GTS_PDFA1:
        yield "6.2.3: not one output intent"
        return
    profile = bytes(intents[0].DestOutputProfile.read_bytes())
    size, version, kind, space = struct.unpack(">I4xI4s4s", profile[:20])
    if size != len(profile) or profile[36:40] != b"acsp":
        yield "6.2.3: the profile is not sound"
    if version >= 0x04300000 or kind not in (b"mntr", b"prtr") or space != b"RGB ":
        yield f"6.2.3: a profile of another kind: {version:08x} {kind!r} {space!r}"
    if int(intents[0].DestOutputProfile.N) != 3:
        yield "6.2.3: the profile has not three colours"


def _of_pages(pdf: pikepdf.Pdf) -> Iterator[str]:
    for number, page in enumerate(pdf.pages, 1):
        if "/Resources" not in page.obj:
            yield f"6.2.2: page {number} takes its resources from elsewhere"
        for key in ("/AA", "/PresSteps", "/Group"):
            if key in page.obj:
                yield f"6.2.10, 6.5.2, 6.10: {key} on page {number}"
        depth = deepest = 0
        for _, operator in pikepdf.parse_content_stream(page):
            name = str(operator)
            depth += {"q": 1, "Q": -1}.get(name, 0)
            deepest = max(deepest, depth)
            if name not in OPERATORS:
                yield f"6.2.2: {name} on page {number}"
            if name in ("k", "K", "CS", "cs", "sh", "ri"):
                yield f"6.2.4: colours by {name} on page {number}"
        if depth or deepest > 28:
            yield f"6.1.13: states saved {deepest} deep on page {number}, {depth} not restored"
        for annotation in page.obj.get("/Annots", ()):
            flags = int(annotation.get("/F", 0))
            if annotation.Subtype != Name.Link or not flags & 4 or flags & 0b100011:
                yield f"6.3: an annotation on page {number}"


def _of_objects(pdf: pikepdf.Pdf) -> Iterator[str]:
    for one in pdf.objects:
        if not isinstance(one, pikepdf.Dictionary | pikepdf.Stream):
            continue
        if one.get("/Subtype") == Name.Image:
            yield from _of_image(one)
        if one.get("/Subtype") in (Name.PS, Name.Movie, Name.Sound):
            yield f"6.2.9: {one.Subtype}"
        if any(key in one for key in ("/OPI", "/Ref", "/PS")) and one.get("/Type") == Name.XObject:
            yield "6.2.9: a form that is not all here"
        if any(key in one for key in ("/TR", "/HTP", "/TR2")):
            yield "6.2.5: a transfer function"
        if one.get("/BM", Name.Normal) != Name.Normal or "/SMask" in one:
            yield "6.2.10: blended otherwise than plainly"
        if ("/URI" in one or one.get("/Type") == Name.Action) and one.S not in ACTIONS:
            yield f"6.5.1: the action {one.S}"
        if isinstance(one, pikepdf.Stream) and {"/F", "/FFilter"} & set(one.keys()):
            yield "6.1.7.1: a stream that is kept elsewhere"
        yield from _of_limits(one)


def _of_image(image: pikepdf.Object) -> Iterator[str]:
    if image.get("/Interpolate", False) or "/Alternates" in image:
        yield "6.2.8: an image that is smoothed, or has others in its place"
    if image.ColorSpace not in (Name.DeviceRGB, Name.DeviceGray):
        yield f"6.2.4: an image in {image.ColorSpace}"
    if image.get("/Filter") == Name.LZWDecode:
        yield "6.1.7.2: packed by LZW"


def _of_limits(one: pikepdf.Object) -> Iterator[str]:
    for key, value in one.items():
        if len(key.encode()) > 128:
            yield f"6.1.13: a long name {key}"
        if isinstance(value, pikepdf.String) and len(bytes(value)) > 32767:
            yield f"6.1.13: a long text at {key}"


def _of_metadata(pdf: pikepdf.Pdf) -> Iterator[str]:
    stream = pdf.Root.get("/Metadata")
    if stream is None or stream.get("/Filter", pikepdf.Array()) != pikepdf.Array():
        yield "6.6.2.1: no metadata, or packed"
        return
    packet = bytes(stream.read_bytes())
    if not packet.startswith(b"<?xpacket begin=") or b"encoding=" in packet.split(b"?>")[0]:
        yield "6.6.2.1: the head of the packet"
    root = ET.fromstring(packet)

    def said(path: str) -> str:
        found = root.find(f".//{path}", SPACES)
        return "" if found is None else "".join(found.itertext())

    notes = pdf.docinfo
    for path, key in (
        ("dc:title", "/Title"), ("dc:creator", "/Author"), ("dc:description", "/Subject"),
        ("pdf:Keywords", "/Keywords"), ("pdf:Producer", "/Producer"),
        ("xmp:CreatorTool", "/Creator"),
    ):  # fmt: skip
        if said(path) != str(notes[key]):
            yield f"6.6.3: {path} says {said(path)!r}, the document {str(notes[key])!r}"
    for path, key in (("xmp:CreateDate", "/CreationDate"), ("xmp:ModifyDate", "/ModDate")):
        noted = datetime.strptime(str(notes[key])[2:16], "%Y%m%d%H%M%S").replace(tzinfo=UTC)
        if datetime.fromisoformat(said(path)) != noted:
            yield f"6.6.3: {path} is another moment"
    if (said("pdfaid:part"), said("pdfaid:conformance")) != ("2", "A"):
        yield "6.6.4: not said to be PDF/A-2a"


def _of_tagging(pdf: pikepdf.Pdf) -> Iterator[str]:
    if not pdf.Root.get("/MarkInfo", {}).get("/Marked"):
        yield "6.7.2.2: not said to be tagged"
    if "/StructTreeRoot" not in pdf.Root:
        yield "6.7.3: no structure"
    if not re.fullmatch(r"[a-z]{2,3}(-[A-Z]{2})?", str(pdf.Root.get("/Lang", ""))):
        yield "6.7.4: no language"
