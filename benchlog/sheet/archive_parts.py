"""What an archive asks of a document beside its pages (ISO 19005-2): its notes, its colours."""

from __future__ import annotations

from datetime import datetime

from reportlab.pdfbase import pdfdoc

from benchlog.sheet.metadata import Told, packet
from benchlog.trade.resource_file import resources_folder

PROFILE = "colour/srgb.icc"
PROFILE_NAME = "sRGB"


def add_archive_parts(document: pdfdoc.PDFDocument, made_at: datetime) -> None:
    """Say what the document is and what its colours mean; `made_at` stands for its date."""
    catalog = document.Catalog
    catalog.Metadata = _metadata(document, made_at)
    catalog.ViewerPreferences = pdfdoc.PDFDictionary({"DisplayDocTitle": "true"})
    catalog.__NoDefault__ = [*catalog.__NoDefault__, "OutputIntents"]
    catalog.OutputIntents = pdfdoc.PDFArray([_intent(document)])


def _metadata(document: pdfdoc.PDFDocument, made_at: datetime) -> pdfdoc.PDFStream:
    """Return in XMP what the document's own notes say, and which standard it keeps."""
    notes = document.info
    told = Told(
        title=notes.title,
        author=notes.author,
        subject=notes.subject,
        keywords=notes.keywords,
        creator=notes.creator,
        producer=notes.producer,
        made_at=made_at,
    )
    entries = {"Type": pdfdoc.PDFName("Metadata"), "Subtype": pdfdoc.PDFName("XML")}
    return pdfdoc.PDFStream(pdfdoc.PDFDictionary(entries), packet(told), filters=[])


def _intent(document: pdfdoc.PDFDocument) -> pdfdoc.PDFObjectReference:
    """Return what gives the numbers of the colours their meaning (ISO 19005-2, 6.2.3)."""
    profile = pdfdoc.PDFStream(
        pdfdoc.PDFDictionary({"N": 3}),
        (resources_folder() / PROFILE).read_bytes(),
        filters=[pdfdoc.PDFZCompress],
    )
    entries = {
        "Type": pdfdoc.PDFName("OutputIntent"),
        "S": pdfdoc.PDFName("GTS_PDFA1"),
        "OutputConditionIdentifier": pdfdoc.PDFString(PROFILE_NAME),
        "Info": pdfdoc.PDFString(PROFILE_NAME),
        "DestOutputProfile": document.Reference(profile),
    }
    return document.Reference(pdfdoc.PDFDictionary(entries))
