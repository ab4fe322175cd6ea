"""One fingerprint of a record: the same record has the same digest on every machine."""

from __future__ import annotations

import dataclasses
import hashlib
import json
from collections.abc import Iterable, Mapping
from datetime import UTC, datetime
from decimal import Decimal
from enum import Enum
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from benchlog.measure.micrograph import Micrograph, MicroscopeSetUp, PictureAnswer
    from benchlog.measure.pooled import PooledScatter
    from benchlog.tasks.ports import Photo


def plain(value: Any) -> Any:
    """Return a value in JSON's own kinds: decimals as text, times in UTC, bytes as hexadecimal.

    A field that does not count when records are compared is no content, and is left out.
    """
    if isinstance(value, Enum):
        return value.value
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        fields = (f for f in dataclasses.fields(value) if f.compare)
        return {f.name: plain(getattr(value, f.name)) for f in fields}
    if isinstance(value, dict):
        return {str(key): plain(part) for key, part in value.items()}
    if isinstance(value, (list, tuple)):
        return [plain(part) for part in value]
    if isinstance(value, Decimal):
        return str(value)
    if isinstance(value, datetime):
        return value.astimezone(UTC).isoformat()
    if isinstance(value, bytes):
        return value.hex()
    return value


def photo_marks(photos: Iterable[Photo]) -> list[tuple[str, ...]]:
    """Return what of photos belongs to a record: which, of what, and what is said under them."""
    return [(p.id, p.specimen_id, p.station, p.caption) for p in photos]


def scatter_marks(scatters: Mapping[tuple[str, str], PooledScatter]) -> dict[str, Any]:
    """Return pooled scatters by attribute and instrument: what is printed after ± rests on them."""
    return {"/".join(place): plain(pooled) for place, pooled in scatters.items()}


def picture_marks(
    set_ups: Iterable[MicroscopeSetUp],
    micrographs: Iterable[Micrograph],
    answers: Iterable[PictureAnswer],
) -> tuple[Any, ...]:
    """Return pictures of the media as further parts of a digest: none where there are none.

    So the digest of a record from before there were any holds.
    """
    taken = list(micrographs)
    return ([list(set_ups), taken, list(answers)],) if taken else ()


def digest_of(*parts: Any) -> str:
    """Return the SHA-256, in hexadecimal, of the parts' canonical JSON (keys sorted, no spaces)."""
    text = json.dumps(plain(parts), sort_keys=True, separators=(",", ":"), ensure_ascii=False)
    return hashlib.sha256(text.encode()).hexdigest()
