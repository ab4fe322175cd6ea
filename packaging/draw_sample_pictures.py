"""Draw the pictures of the sample line-up anew: the same every time, all of it invented.

.venv/bin/python packaging/draw_sample_pictures.py [FOLDER]
"""

from __future__ import annotations

import sys
from io import BytesIO
from pathlib import Path

from PIL import Image
from sample_pictures.models import MODELS
from sample_pictures.scenes import SCENES

FOLDER = Path(__file__).parents[1] / "resources" / "sample" / "pictures"
LARGEST_BYTES = 200_000


def as_jpeg(picture: Image.Image) -> bytes:
    """Return the picture as JPEG, in the best quality that stays small."""
    for quality in range(84, 40, -4):
        stream = BytesIO()
        picture.save(stream, "JPEG", quality=quality, optimize=True, progressive=True)
        if stream.tell() <= LARGEST_BYTES:
            return stream.getvalue()
    raise SystemExit("A picture is too detailed to be kept small.")


def main(folder: Path, wanted: list[str]) -> None:
    """Draw every picture into the folder, or only those whose names are wanted."""
    folder.mkdir(parents=True, exist_ok=True)
    for model in MODELS:
        for name, scene in SCENES.items():
            file = folder / f"{model.key}_{name}.jpg"
            if not wanted or file.stem in wanted:
                file.write_bytes(as_jpeg(scene(model)))
                print(f"{file.name}: {file.stat().st_size // 1000} kB")


if __name__ == "__main__":
    main(Path(sys.argv[1]) if len(sys.argv) > 1 else FOLDER, sys.argv[2:])
