"""What a PDF says of itself, as an XMP packet (ISO 16684-1; ISO 19005-2, 6.6)."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import UTC, datetime
from xml.sax.saxutils import escape

PART, LEVEL = "2", "A"
"""PDF/A-2a: the part of ISO 19005, and how much it holds."""

PACKET_ID = "W5M0MpCehiHzreSzNTczkc9d"
"""The fixed mark of every XMP packet (ISO 16684-1, 7.3.2)."""


@dataclass(frozen=True)
class Told:
    """What a document says of itself."""

    title: str
    author: str
    subject: str
    keywords: str
    creator: str
    producer: str
    made_at: datetime


def packet(told: Told, part: str = PART, level: str = LEVEL) -> bytes:
    """Return the packet; it must say the same as the document's own notes."""
    moment = told.made_at.astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%S+00:00")
    properties = [
        f"<dc:title>{_in_default_language(told.title)}</dc:title>",
        f"<dc:creator><rdf:Seq><rdf:li>{escape(told.author)}</rdf:li></rdf:Seq></dc:creator>",
        f"<dc:description>{_in_default_language(told.subject)}</dc:description>",
        "<dc:format>application/pdf</dc:format>",
        f"<pdf:Keywords>{escape(told.keywords)}</pdf:Keywords>",
        f"<pdf:Producer>{escape(told.producer)}</pdf:Producer>",
        f"<xmp:CreatorTool>{escape(told.creator)}</xmp:CreatorTool>",
        f"<xmp:CreateDate>{moment}</xmp:CreateDate>",
        f"<xmp:ModifyDate>{moment}</xmp:ModifyDate>",
        f"<xmp:MetadataDate>{moment}</xmp:MetadataDate>",
        f"<pdfaid:part>{part}</pdfaid:part>",
        f"<pdfaid:conformance>{level}</pdfaid:conformance>",
    ]
    lines = [
        f'<?xpacket begin="\ufeff" id="{PACKET_ID}"?>',
        '<x:xmpmeta xmlns:x="adobe:ns:meta/">',
        '<rdf:RDF xmlns:rdf="http://www.w3.org/1999/02/22-rdf-syntax-ns#">',
        '<rdf:Description rdf:about=""',
        ' xmlns:dc="http://purl.org/dc/elements/1.1/"',
        ' xmlns:pdf="http://ns.adobe.com/pdf/1.3/"',
        ' xmlns:xmp="http://ns.adobe.com/xap/1.0/"',
        ' xmlns:pdfaid="http://www.aiim.org/pdfa/ns/id/">',
        *properties,
        "</rdf:Description>",
        "</rdf:RDF>",
        "</x:xmpmeta>",
        '<?xpacket end="w"?>',
    ]
    return "\n".join(lines).encode()


def _in_default_language(text: str) -> str:
    return f'<rdf:Alt><rdf:li xml:lang="x-default">{escape(text)}</rdf:li></rdf:Alt>'
