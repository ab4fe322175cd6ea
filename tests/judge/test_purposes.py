"""Declared purposes, as a file and as shares."""

import pytest

from benchlog.errors import ResourceFault
from benchlog.judge.purposes_file import load_purposes
from benchlog.judge.rules import ValueKind
from benchlog.judge.scores import scoring
from benchlog.trade.attribute import Support
from benchlog.trade.component import Component
from tests.judge.bench_of import SHIPPED

HEADING = """
[purposes]
version = "1"
sequences = ["spin_on"]
"""
PRICE = """
[criterion.price]
kind = "piecewise"
anchors = [[2, 10], [40, 0]]
support = "opinion"
source = "invented"
reason = "invented"
"""
OWN = """
[purpose.own]
label = "Own"
weights = { media = 3, price = 1 }
left_open = ["can", "thread"]
open_share = 0.2
support = "opinion"
source = "invented"
reason = "invented"
"""


def written(tmp_path, *parts):
    folder = tmp_path / "judging"
    folder.mkdir(exist_ok=True)
    (folder / "own.toml").write_text("".join(parts), encoding="utf-8")
    return load_purposes("own", tmp_path)


def test_shipped_purposes_are_those_promised():
    purposes = {purpose.key: purpose for purpose in load_purposes()}
    assert {"long_interval", "cold_starts", "price", "first_fill"} <= set(purposes)
    for purpose in purposes.values():
        assert sum(purpose.share(key) for key in purpose.asks) == pytest.approx(1.0)
        assert purpose.support is Support.OPINION
        assert purpose.source
        assert purpose.reason


def test_shipped_purposes_ask_what_can_be_scored():
    for purpose in load_purposes():
        own = {rule.subject for rule in purpose.criteria}
        for key in purpose.asks:
            assert key in own or scoring(SHIPPED, Component(key)), (purpose.key, key)


def test_nothing_is_put_first_anywhere():
    (purpose,) = [p for p in load_purposes() if p.key == "nothing_put_first"]
    assert purpose.open_share == 1.0
    assert purpose.weights == ()
    scored = {c.value for c in Component if scoring(SHIPPED, c)}
    assert set(purpose.left_open) == scored


def test_shares_follow_weights_and_what_is_open(tmp_path):
    (own,) = written(tmp_path, HEADING, PRICE, OWN)
    assert own.asks == ("media", "price", "can", "thread")
    assert [own.share(key) for key in own.asks] == pytest.approx([0.6, 0.2, 0.1, 0.1])
    assert own.share("gasket") == 0.0


def test_criterion_is_a_rule_of_its_own(tmp_path):
    (own,) = written(tmp_path, HEADING, PRICE, OWN)
    (price,) = own.criteria
    assert (price.subject, price.kind, price.weight) == ("price", ValueKind.PIECEWISE, 1)
    (without,) = written_without_price(tmp_path)
    assert without.criteria == ()


def written_without_price(tmp_path):
    load_purposes.cache_clear()
    return written(tmp_path, HEADING, PRICE, OWN.replace(", price = 1", ""))


@pytest.mark.parametrize(
    ("old", "new", "field", "what"),
    [
        ("media = 3", "medium = 3", "weights", "'medium' is not one of: whole filter"),
        ("media = 3", "media = 0", "weights", "above 0"),
        ('"can", ', '"cam", ', "left_open", "'cam' is not one of"),
        ('"can", ', '"thread", ', "left_open", "names one twice"),
        ('"can", ', '"media", ', "left_open", "has a weight already"),
        ("open_share = 0.2", "open_share = 1.2", "open_share", "from 0 to 1"),
        ("open_share = 0.2", "open_share = 0", "open_share", "more than 0 where"),
        ("open_share = 0.2", "open_share = 1", "weights", "all of it is left open"),
        ('label = "Own"', 'label = " "', "label", "wants words"),
        ('support = "opinion"', 'support = "proof"', "support", "proof"),
        ('label = "Own"', 'label = "Own"\ncolour = 1', "colour", "not a known field"),
    ],
)  # fmt: skip
def test_unsound_purpose_is_named(tmp_path, old, new, field, what):
    with pytest.raises(ResourceFault) as caught:
        written(tmp_path, HEADING, PRICE, OWN.replace(old, new, 1))
    told = str(caught.value)
    assert "own.toml" in told
    assert "own" in told
    assert field in told
    assert what in told


@pytest.mark.parametrize(
    ("old", "new", "what"),
    [
        ('kind = "piecewise"\nanchors = [[2, 10], [40, 0]]', 'kind = "none"', "a kind that scores"),
        ("[[2, 10], [40, 0]]", "[[2, 10]]", "anchors"),
        ("[criterion.price]", "[criterion.prize]", "neither an attribute nor a figure"),
    ],
)
def test_unsound_criterion_is_named(tmp_path, old, new, what):
    with pytest.raises(ResourceFault, match=what):
        written(tmp_path, HEADING, PRICE.replace(old, new), OWN)


def test_purposes_without_a_version_are_refused(tmp_path):
    for heading in (HEADING.replace('"1"', '" "'), HEADING.replace('version = "1"\n', "")):
        with pytest.raises(ResourceFault, match="version"):
            written(tmp_path, heading, PRICE, OWN)


def test_file_without_purposes_is_refused(tmp_path):
    with pytest.raises(ResourceFault, match="one purpose or more"):
        written(tmp_path, HEADING)
    with pytest.raises(ResourceFault, match="cannot be read"):
        load_purposes("nowhere", tmp_path)
