"""A purpose as it is kept: the very same comes back, and its digest tells any other apart."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from math import inf

import pytest
from hypothesis import given

from benchlog.errors import PlanRefused
from benchlog.judge.purposes import Purpose
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.purposes_json import purpose_as_json, purpose_digest, purpose_from_json
from tests import rules_strategies

SHIPPED = {"1": "4750f3b4feacf297af0a4ac33b9bbe47936de5102cc348eb2f648c96bd7695df"}
"""Each version of the shipped purposes by the digest of all of them together."""


@given(rules_strategies.purposes)
def test_purpose_comes_back_whole(purpose: Purpose) -> None:
    again = purpose_from_json(purpose_as_json(purpose))
    assert again == purpose
    assert purpose_digest(again) == purpose_digest(purpose)


@given(rules_strategies.purposes, rules_strategies.purposes)
def test_digest_tells_purposes_apart(one: Purpose, other: Purpose) -> None:
    assert (purpose_digest(one) == purpose_digest(other)) is (one == other)


def test_changed_purposes_get_another_version() -> None:
    every = load_purposes()
    (version,) = {purpose.version for purpose in every}
    whole = hashlib.sha256("".join(map(purpose_digest, every)).encode()).hexdigest()
    assert SHIPPED[version] == whole, "purposes.toml changed: give it another version"


def test_weight_without_end_is_refused() -> None:
    purpose = replace(load_purposes()[0], weights=(("can", inf),))
    with pytest.raises(PlanRefused, match="no end"):
        purpose_as_json(purpose)


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ("{", "cannot be read"),
        ("[" * 100_000, "cannot be read"),
        ("[]", "cannot be read"),
        ('{"key": "price"}', "label"),
    ],
)
def test_other_text_is_no_purpose(text: str, told: str) -> None:
    with pytest.raises(PlanRefused, match=told):
        purpose_from_json(text)
