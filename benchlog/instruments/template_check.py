"""Whether every example in the templates' file comes to what it says."""

from __future__ import annotations

from decimal import Decimal, InvalidOperation

from benchlog.instruments.telegram import NotAWeight, read_line
from benchlog.instruments.template import KINDS, MOTIONS, Example, Template, Templates
from benchlog.tasks.ports import Steadiness, Weight
from benchlog.trade.resource_file import Entry, ResourceFile


def check_examples(file: ResourceFile, templates: Templates) -> None:
    """Read every example by its own shape; raises ResourceFault for the first that differs."""
    entries = {entry.key: entry for entry in file.entries("template")}
    for shape in templates.shapes:
        for example in shape.examples:
            if what := _difference(example, shape, templates):
                raise _fault(file, entries[shape.key], example, what)


def _fault(file: ResourceFile, entry: Entry, example: Example, what: str) -> Exception:
    return file.fault(entry, "examples", f"the example '{example.line}' {what}")


def _difference(example: Example, shape: Template, templates: Templates) -> str:
    """Say how an example fails; empty when it holds."""
    if example.motion not in ("", *MOTIONS):
        return f"has the motion '{example.motion}', not one of: {', '.join(MOTIONS)}"
    if example.kind not in KINDS:
        return f"has the kind '{example.kind}', not one of: {', '.join(KINDS)}"
    try:
        value = Decimal(example.value) if example.value else None
    except InvalidOperation:
        return f"has a value that is no number: '{example.value}'"
    read = read_line(example.line.encode(), shape, templates.units, "gram")
    if isinstance(read, NotAWeight):
        return f"is not read: {read.why}"
    wanted = (
        str(value) if value is not None else None,
        (example.unit or "gram") if value is not None else None,
        MOTIONS.get(example.motion, Steadiness.SILENT),
        KINDS[example.kind],
    )
    got = _said(read)
    return "" if got == wanted else f"comes to {_words(got)}, not {_words(wanted)}"


def _said(weight: Weight) -> tuple[str | None, str | None, Steadiness, bool | None]:
    said = weight.said
    value = str(said.value) if said else None
    return value, said.unit if said else None, weight.steadiness, weight.net


def _words(parts: tuple[str | None, str | None, Steadiness, bool | None]) -> str:
    value, unit, steadiness, net = parts
    kind = {True: "net", False: "gross", None: "net or gross unknown"}[net]
    return f"{value or 'no weight'} {unit or ''} ({steadiness}, {kind})"
