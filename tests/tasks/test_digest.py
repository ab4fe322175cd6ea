from __future__ import annotations

import hashlib
from datetime import UTC, datetime, timedelta, timezone
from decimal import Decimal

from hypothesis import given
from hypothesis import strategies as st

from benchlog.tasks.digest import digest_of, plain
from benchlog.trade.specimen import Shape
from tests.small_trade import small_lineup


def test_digest_is_sha256_of_canonical_json() -> None:
    assert digest_of({"b": Decimal("1.50"), "a": [Shape.STAR, b"\x01"]}) == (
        hashlib.sha256(b'[{"a":["star","01"],"b":"1.50"}]').hexdigest()
    )


def test_same_moment_in_another_zone_is_the_same() -> None:
    noon = datetime(2026, 5, 1, 12, tzinfo=UTC)
    assert digest_of(noon) == digest_of(noon.astimezone(timezone(timedelta(hours=5))))


def test_any_change_of_the_record_shows() -> None:
    kept = digest_of(small_lineup())
    assert kept == digest_of(small_lineup())
    for change in ({"name": "Three"}, {"attributes": ()}, {"question": "why?"}):
        assert digest_of(small_lineup(**change)) != kept


@given(st.dictionaries(st.text(), st.integers()))
def test_order_of_keys_changes_nothing(parts: dict[str, int]) -> None:
    assert digest_of(parts) == digest_of(dict(reversed(parts.items())))
    assert plain(parts) == parts
