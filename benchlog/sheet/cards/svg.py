"""A card as SVG: outlines and plates alone, so that it needs no font and refers to nothing."""

from __future__ import annotations

import base64
import json
import re
from xml.sax.saxutils import escape, quoteattr

from benchlog.sheet.cards.card import Card, Item, PhotoArea, Plate
from benchlog.sheet.cards.look import HEIGHT, WIDTH
from benchlog.sheet.cards.paths import Path
from benchlog.sheet.cards.photos import CardPhotos, photo_for

_NOT_XML = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
"""Characters that XML 1.0 cannot hold (section 2.2)."""


def card_as_svg(card: Card, height: int, photos: CardPhotos) -> str:
    """Return a card as an SVG file of that height in pixels, its words in title and desc."""
    width = round(height * WIDTH / HEIGHT)
    about = json.dumps({"readings": list(card.readings)}, ensure_ascii=False)
    return "\n".join(
        (
            '<?xml version="1.0" encoding="UTF-8"?>',
            f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{height}" '
            f'viewBox="0 0 {WIDTH} {HEIGHT}" role="img">',
            f"<title>{_text(card.title)}</title>",
            f"<desc>{_text(card.spoken)}</desc>",
            f"<metadata>{_text(about)}</metadata>",
            *(_item(item, photos) for item in card.items),
            "</svg>",
            "",
        )
    )


def path_data(path: Path) -> str:
    """Return a path's steps in the form of the attribute d, to hundredths."""
    return "".join(step + " ".join(map(_number, where)) for step, where in path)


def _item(item: Item, photos: CardPhotos) -> str:
    if isinstance(item, Plate):
        return f"<rect {_box(item)} fill={quoteattr(item.colour)}/>"
    if isinstance(item, PhotoArea):
        data = base64.b64encode(photo_for(item, photos, HEIGHT).png).decode("ascii")
        label = quoteattr(_NOT_XML.sub(" ", item.means))
        return f'<image {_box(item)} aria-label={label} href="data:image/png;base64,{data}"/>'
    return f'<path fill="{item.colour}" d="{path_data(item.outline)}"/>'


def _box(item: Plate | PhotoArea) -> str:
    area = item.area
    numbers = zip(["x", "y", "width", "height"], (area.left, area.top, area.width, area.height),
                  strict=True)  # fmt: skip
    return " ".join(f'{name}="{_number(value)}"' for name, value in numbers)


def _number(value: float) -> str:
    return (
        f"{round(value, 2) + 0.0:g}"
        if abs(value) < 1000
        else f"{value:.2f}".rstrip("0").rstrip(".")
    )


def _text(text: str) -> str:
    return escape(_NOT_XML.sub(" ", text))
