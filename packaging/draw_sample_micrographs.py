"""Draw the micrographs of the sample line-up anew, with the generator that the tests measure by.

.venv/bin/python packaging/draw_sample_micrographs.py [FOLDER]
"""

from __future__ import annotations

import sys
from dataclasses import replace
from io import BytesIO
from pathlib import Path

from PIL import Image

ROOT = Path(__file__).parents[1]
sys.path.insert(0, str(ROOT))

from tests.microscope.drawn_fibres import Mat, drawn  # noqa: E402 - the root comes first
from tests.microscope.drawn_scale import Scale, drawn_bytes  # noqa: E402

FOLDER = ROOT / "resources" / "sample" / "micrographs"
QUALITY = 76

UM_PER_PX = 1.3
DIVISION_UM = 50.0
SIZE = (720, 540)

PLAIN = Mat(size=SIZE, noise=0.008, blur=1.0, jpeg=QUALITY)
MEDIA = {
    "amber": replace(PLAIN, width=14.6, style="ribbon", open_share=0.50),
    "cobalt": replace(PLAIN, width=11.0, style="round", open_share=0.46),
    "moss": replace(PLAIN, width=14.0, style="ribbon", open_share=0.52),
}
FIELDS = {
    "amber_in_1": ("amber", 101),
    "amber_in_2": ("amber", 102),
    "amber_in_3": ("amber", 103),
    "cobalt_in_1": ("cobalt", 201),
    "cobalt_in_2": ("cobalt", 202),
    "cobalt_in_3": ("cobalt", 203),
    "moss_in_1": ("moss", 301),
    "moss_in_2": ("moss", 302),
}
STAGE = Scale(DIVISION_UM / UM_PER_PX, 1.4, SIZE, jpeg=QUALITY, noise=0.008, seed=5)


def fields() -> dict[str, Mat]:
    """Return every field by the name of its file; one of them is blurred, to be taken again."""
    made = {name: replace(MEDIA[medium], seed=seed) for name, (medium, seed) in FIELDS.items()}
    return made | {"moss_in_2_blurred": replace(made["moss_in_2"], blur=5.0)}


def as_jpeg(mat: Mat) -> bytes:
    """Return a field as a grey JPEG."""
    out = BytesIO()
    Image.fromarray(drawn(mat).coded).save(out, "JPEG", quality=QUALITY, optimize=True)
    return out.getvalue()


def main(folder: Path) -> None:
    """Draw every picture into the folder."""
    folder.mkdir(parents=True, exist_ok=True)
    drawings = {name: as_jpeg(mat) for name, mat in fields().items()}
    for name, data in (drawings | {"stage": drawn_bytes(STAGE)}).items():
        (folder / f"{name}.jpg").write_bytes(data)
        print(f"{name}.jpg: {len(data) // 1000} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER)
