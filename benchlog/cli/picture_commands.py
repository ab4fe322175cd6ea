"""Commands on pictures through a microscope: measure them, find a scale, compare two media."""

from __future__ import annotations

import argparse
import hashlib
import math
import sys
from pathlib import Path
from typing import Any

from benchlog.cli.terminal import Commands, Told, as_json
from benchlog.errors import EntryRefused, PictureRefused

Answer = dict[str, Any]


def add_to(commands: Commands) -> None:
    """Add these commands to the command line."""
    one = commands.add_parser(
        "picture", help="measure pictures of media: openings, open area, fibres (JSON)"
    )
    one.add_argument("files", type=Path, nargs="+", metavar="FILE", help="JPEG, PNG or TIFF")
    _taken_with(one)
    one.set_defaults(work=picture)
    scale = commands.add_parser(
        "scale-picture", help="find the scale on a picture of a stage micrometer (JSON)"
    )
    scale.add_argument("file", type=Path, metavar="FILE", help="the picture of its lines")
    _division(scale, required=True)
    scale.set_defaults(work=scale_picture)
    two = commands.add_parser(
        "media", help="compare two media by pictures of several fields each (JSON)"
    )
    for name, which in (("--a", "one"), ("--b", "the other")):
        two.add_argument(
            name, type=Path, nargs="+", required=True, metavar="FILE", help=f"fields of {which}"
        )
    two.add_argument(
        "--difference", type=float, default=20.0, metavar="PERCENT",
        help="how much should be told apart (usual: %(default)g)",
    )  # fmt: skip
    _taken_with(two)
    two.set_defaults(work=media)


def _taken_with(command: argparse.ArgumentParser) -> None:
    """Ask for what all pictures of a set-up share."""
    scale = command.add_mutually_exclusive_group(required=True)
    scale.add_argument(
        "--um-per-px", type=float, metavar="X", help="micrometres along one pixel of the file"
    )
    scale.add_argument(
        "--scale-picture", type=Path, metavar="FILE",
        help="a picture of a stage micrometer at the same setting; wants --division-um",
    )  # fmt: skip
    _division(command, required=False)
    command.add_argument(
        "--u", default="0", metavar="U",
        help="standard uncertainty of --um-per-px: in micrometres, or in per cent as '0.5 %%'",
    )  # fmt: skip
    command.add_argument(
        "--light", choices=("above", "below", "automatic"), default="automatic",
        help="where the light comes from (usual: found from the picture)",
    )  # fmt: skip
    command.add_argument(
        "--edge-offset", type=float, metavar="PX",
        help="pixels by which a reference fibre reads too wide in this light",
    )  # fmt: skip


def _division(command: argparse.ArgumentParser, *, required: bool) -> None:
    command.add_argument(
        "--division-um", type=float, required=required, metavar="D",
        help="micrometres between two neighbouring lines of the stage micrometer",
    )  # fmt: skip
    command.add_argument(
        "--division-u-um", type=float, default=0.0, metavar="U",
        help="the standard uncertainty of that",
    )  # fmt: skip


def picture(wanted: argparse.Namespace) -> int:
    """Print the answer on each picture, one as an object, several as a list; 1 if any is none."""
    answers = _answers(wanted.files, wanted, _scale_of(wanted))
    print(as_json(answers if len(wanted.files) > 1 else answers[0]))
    return 0 if all(one["verdict"] == "measured" for one in answers) else 1


def scale_picture(wanted: argparse.Namespace) -> int:
    """Print the scale that the lines of a stage micrometer give."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    found = wiring.scale_answer(wanted.file, wanted.division_um, wanted.division_u_um)
    print(as_json({"file": str(wanted.file), "division_um": wanted.division_um, **found}))
    for note in found["notes"]:
        print(f"benchlog: {note}", file=sys.stderr)
    return 0


def media(wanted: argparse.Namespace) -> int:
    """Print how two media differ; 1 when too few of their pictures could be measured."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    if not (math.isfinite(wanted.difference) and wanted.difference > 0.0):
        raise EntryRefused(
            f"{wanted.difference:g} per cent is no difference.", "Say it as more than 0."
        )
    _refuse_twice([*wanted.a, *wanted.b])
    scale = _scale_of(wanted)
    a, b = (_answers(files, wanted, scale) for files in (wanted.a, wanted.b))
    found = wiring.media_answer(a, b, wanted.difference / 100.0)
    print(as_json({**found, "pictures": {"first": a, "second": b}}))
    return 0


def _refuse_twice(files: list[Path]) -> None:
    """Refuse the same picture as two fields: it would pass for two places that agree."""
    seen: dict[str, Path] = {}
    for file in files:
        try:
            with file.open("rb") as opened:
                digest = hashlib.file_digest(opened, "sha256").hexdigest()
        except OSError:  # it is said later what is wrong with it
            continue
        if digest in seen:
            raise EntryRefused(
                f"{file} is the same picture as {seen[digest]}.",
                "Give each field once; take every picture at another place.",
            )
        seen[digest] = file


def _answers(files: list[Path], wanted: argparse.Namespace, scale: Answer) -> list[Answer]:
    """Return the answer on each file; what was refused is told on standard error too."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    made: list[Answer] = []
    for file in files:
        try:
            answer = wiring.picture_answer(
                file, scale["um_per_px"], scale["u_um_per_px"], wanted.light, wanted.edge_offset,
                Told(),
            )  # fmt: skip
            answer = _of_that_size(answer, scale)
        except PictureRefused as fault:
            reasons = [part for part in (fault.what, fault.do) if part]
            answer = {"verdict": "refused", "reasons": reasons, "gates": {}, "figures": {}}
        made.append({"file": str(file), **answer})
        if answer["verdict"] != "measured":
            print(f"benchlog: {file}: {' '.join(answer['reasons'])}", file=sys.stderr)
    return made


def _of_that_size(answer: Answer, scale: Answer) -> Answer:
    """Refuse a picture of another size than the one that the scale was found on."""
    sizes = [
        sorted((one["width_px"], one["height_px"])) for one in (answer, scale) if one["width_px"]
    ]
    if len(sizes) < 2 or sizes[0] == sizes[1]:
        return answer
    raise PictureRefused(
        f"The picture has {answer['width_px']} × {answer['height_px']} pixels, the scale was found "
        f"on {scale['width_px']} × {scale['height_px']}.",
        "Take both at one size and setting.",
    )


def _scale_of(wanted: argparse.Namespace) -> Answer:
    """Return micrometres a pixel with their uncertainty, and the size of picture they hold for."""
    from benchlog import wiring  # noqa: PLC0415 - slow to import

    if wanted.scale_picture is None:
        u = _uncertainty(wanted.u, wanted.um_per_px)
        return {"um_per_px": wanted.um_per_px, "u_um_per_px": u, "width_px": 0, "height_px": 0}
    if wanted.division_um is None:
        raise EntryRefused(
            "A scale's picture says how far its lines lie apart in pixels, not in micrometres.",
            "Say the distance of two neighbouring lines with --division-um.",
        )
    return wiring.scale_answer(wanted.scale_picture, wanted.division_um, wanted.division_u_um)


def _uncertainty(text: str, um_per_px: float) -> float:
    share = text.strip().endswith("%")
    try:
        value = float(text.strip().removesuffix("%"))
    except ValueError:
        raise EntryRefused(
            f"'{text}' is no uncertainty of a scale.", "Say it as 0.002 or as '0.5 %'."
        ) from None
    return value / 100.0 * um_per_px if share else value
