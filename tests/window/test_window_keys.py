from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.window.keys import ACTS, DEFAULTS, Action, KeyMap, LockOut, When, plain_key

KEYS = st.sampled_from(["F13", "F14", "Ctrl+G", "Num+7", "F24"])


def test_every_action_has_a_key() -> None:
    assert all(DEFAULTS[action] for action in Action)


def test_default_keys_do_not_clash() -> None:
    keys = KeyMap()
    clashes = [
        (action, name, keys.clash(action, name))
        for action in Action
        for name in DEFAULTS[action]
        if keys.clash(action, name)
    ]
    assert clashes == []


def test_number_pad_reaches_the_five_actions_of_a_round() -> None:
    pad = {a for a in Action if any(name.startswith("Num+") for name in DEFAULTS[a])}
    assert {Action.ACCEPT, Action.NEXT, Action.BACK, Action.SCRATCH, Action.NO_VALUE} <= pad


@pytest.mark.parametrize(
    ("key", "typed", "action"),
    [
        ("Num++", False, Action.NEXT),
        ("Num++", True, Action.ESTIMATE),
        ("Num+*", False, Action.SCRATCH),
        ("Num+*", True, Action.CLEAR),
        ("Num+/", True, None),
        ("Return", True, Action.ACCEPT),
        ("Q", False, None),
    ],
)
def test_key_means_what_the_entry_allows(key: str, typed: bool, action: Action | None) -> None:
    assert KeyMap().action(key, typed=typed) is action


@given(st.sampled_from(list(Action)), st.integers(0, 2), KEYS)
def test_settings_bring_the_keys_back(action: Action, place: int, key: str) -> None:
    keys = KeyMap().with_key(action, place, key)
    assert key in keys.keys[action]
    assert KeyMap.from_settings(keys.to_settings()) == keys


@given(st.sampled_from(list(Action)))
def test_taken_key_acts_no_more(action: Action) -> None:
    first = DEFAULTS[action][0]
    keys = KeyMap().with_key(action, 0, "")
    assert action not in keys.bound(first)
    assert KeyMap.from_settings(keys.to_settings()) == keys


def test_only_changes_are_kept() -> None:
    assert KeyMap().to_settings() == {}


def test_clash_needs_the_same_state() -> None:
    keys = KeyMap().with_key(Action.FLAG, 0, "F13")
    assert keys.clash(Action.NEXT, "F13") is Action.FLAG
    assert KeyMap().clash(Action.CLEAR, "F8") is None
    assert ACTS[Action.CLEAR] is When.TYPED


def test_keys_read_as_they_are_labelled() -> None:
    assert [plain_key(k) for k in ("Num++", "Num+Enter", "Return", "F13")] == [
        "pad +",
        "pad Enter",
        "Enter",
        "F13",
    ]


def test_bounce_is_ignored_for_400_ms() -> None:
    now = [10.0]
    lock_out = LockOut(lambda: now[0])
    assert not lock_out.bounces("next")
    now[0] = 10.399
    assert lock_out.bounces("next")
    now[0] = 10.401
    assert not lock_out.bounces("next")


def test_another_key_between_is_no_bounce() -> None:
    lock_out = LockOut(lambda: 10.0)
    assert not lock_out.bounces("accept")
    lock_out.other_key()
    assert not lock_out.bounces("accept")
    assert not lock_out.bounces("next")
