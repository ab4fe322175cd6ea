"""The pictures of the accuracy table: looks, ways to spoil them, and the seed of each."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import count

from tests.microscope.drawn_fibres import Mat
from tests.microscope.voxel_box import Box

SMALL, LARGE = (800, 600), (1280, 960)
WIDTH, OPEN, SPREAD = 14.0, 0.6, 0.25
"""What a mat is when nothing else is said: fibre width in pixels, open share, spread."""

LOOKS: dict[str, dict[str, object]] = {
    "ribbon": {"style": "ribbon"},
    "round": {"style": "round"},
    "glass": {"style": "glass"},
    "ribbon, below": {"style": "ribbon", "light": "below"},
    "round, below": {"style": "round", "light": "below"},
    "bright core, below": {"style": "core", "light": "below"},
}

SPOILED: dict[str, dict[str, object]] = {
    **{f"{w} px": {"width": float(w)} for w in (6, 8, 20)},
    **{f"blur {b}": {"blur": b} for b in (1.2, 1.8, 2.5, 3.5)},
    **{f"noise {n}": {"noise": n} for n in (0.04, 0.08)},
    **{f"JPEG {q}": {"jpeg": q} for q in (50, 20)},
    **{f"light ratio {r}": {"vignette": float(r)} for r in (3, 4, 6, 8)},
    "exposure 1/8": {"exposure": 0.11},
    "sharpened": {"sharpened": 1.0},
    "blend 10 and 24 px": {"width": 10.0, "second_width": 24.0, "spread": 0.08},
    "open 0.45": {"open_share": 0.45},
    "deep .45/.25, blur 3/6": {"deep": ((0.45, 3.0), (0.25, 6.0))},
    "deep .60/.40, blur 3/6": {"deep": ((0.60, 3.0), (0.40, 6.0))},
    "deep .60/.40, blur 1.5/2.5": {"deep": ((0.60, 1.5), (0.40, 2.5))},
    "deep .75/.50, blur 1.5/2.5": {"deep": ((0.75, 1.5), (0.50, 2.5))},
    "deep .75/.50, blur 3/6": {"deep": ((0.75, 3.0), (0.50, 6.0))},
}

FEWER = (
    "6 px", "8 px", "20 px", "blur 1.8", "deep .45/.25, blur 3/6", "deep .60/.40, blur 1.5/2.5",
    "deep .75/.50, blur 3/6",
)  # fmt: skip
"""Enough for all looks but the two that media show most."""

AIMED_AT = (11, 14, 16)
"""Pixels a fibre at which something is promised: drawn large enough for a hundred openings."""


@dataclass(frozen=True)
class Case:
    """A row of the table: its pictures, how wide their fibres are, and what their medium is.

    `plain` mats are all of one medium at some scale: open by OPEN, widths by SPREAD.
    """

    name: str
    look: str
    mats: tuple[Mat | Box, ...]
    width: float
    plain: bool


def cases() -> Iterator[Case]:
    """Yield every row; no two mats have a seed in common, so that errors are independent."""
    seeds = count(1)
    for look, how in LOOKS.items():
        for width in AIMED_AT:
            mat = Mat(**{**how, "width": float(width), "size": LARGE, "seed": next(seeds)})  # type: ignore[arg-type]
            yield Case(f"{width} px, large", look, (mat,), float(width), plain=True)
        often = look in ("ribbon", "round")
        for name, spoiled in SPOILED.items():
            if not often and name not in FEWER:
                continue
            width = float(spoiled.get("width", WIDTH))  # type: ignore[arg-type]
            own = {"width": WIDTH, "size": SMALL, **how, **spoiled}
            twice = 2 if often and ("deep" in name or "blur" in name) else 1
            mats = tuple(Mat(**{**own, "seed": next(seeds)}) for _ in range(twice))  # type: ignore[arg-type]
            plain = not {"second_width", "open_share"} & set(spoiled)
            yield Case(name, look, mats, width, plain)
    for diameter in (9.0, 14.0, 20.0):
        boxes = tuple(
            Box(diameter=diameter, cylinders=int(560 / diameter), seed=next(seeds))
            for _ in range(2)
        )
        yield Case(f"{diameter:.0f} px", "cylinders in a box", boxes, diameter, plain=False)
