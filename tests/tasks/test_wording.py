"""Words that a bench cannot support are found as they are typed, and nothing else is."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from benchlog.errors import ResourceFault
from benchlog.tasks.wording import flagged, load_wording

ENTRY = """
[wording.fits]
said = ["fits"]
offered = "no difference found"
why = "fit was not tested"
support = "opinion"
source = "invented"
"""


def found(text: str) -> list[str]:
    return [flag.said for flag in flagged(text)]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("This one filters better than that.", ["filters better"]),
        ("It HOLDS  more\ndirt, surely", ["HOLDS  more\ndirt"]),
        ("flows better and is stronger", ["flows better", "stronger"]),
        ("orange silicone flap", ["silicone"]),
        ("fully synthetic media", ["fully synthetic"]),
        ("it leaks past the end cap", ["leaks past the end cap"]),
        ("fits the same engines", ["fits the same engines"]),
        ("the winner", ["winner"]),
        ("this one is best and superior", ["is best", "superior"]),
        ("a counterfeit, or some fake", ["counterfeit", "fake"]),
        ("protects your engine", ["protects your engine"]),
        ("I claimed it filters better", ["filters better"]),
        ("we claimed all along that it holds more dirt", ["holds more dirt"]),
        ("He claimed to know; it flows better", ["flows better"]),
        ("lasts 20000 km", ["lasts 20000 km"]),
        ("it lasts 20 000 km, surely", ["lasts 20 000 km"]),
        ("Lasting 20,000km!", ["Lasting 20,000km"]),
        ("lasts 12k miles", ["lasts 12k miles"]),
        ("it lasts for 2 years", ["lasts for 2 years"]),
        ("good for 15 000 km", ["good for 15 000 km"]),
        ("will outlast the other", ["outlast"]),
        ("100% efficient", ["100% efficient"]),
        ("100 % efficiency", ["100 % efficiency"]),
        ("99.5 percent efficient", ["99.5 percent efficient"]),
        ("99,5 per cent efficiency", ["99,5 per cent efficiency"]),
        ("an efficiency of 98 %", ["efficiency of 98 %"]),
        ("filters 99% of it", ["filters 99%"]),
        ("filters out 99 % of it", ["filters out 99 %"]),
        ("filters down to 5 microns", ["filters down to 5"]),
        ("catches 98 % at 25 µm", ["catches 98 %"]),
        ("highly efficient paper", ["highly efficient"]),
        ("filters much better", ["filters much better"]),
        ("filtered a lot better", ["filtered a lot better"]),
        ("flows far better", ["flows far better"]),
        ("better at filtering", ["better at filtering"]),
        ("The maker says 99 % efficient, but it filters better", ["filters better"]),
        ("The maker claims much, and I say it holds more dirt", ["holds more dirt"]),
    ],
)
def test_unsupported_words_are_found(text: str, said: list[str]) -> None:
    assert found(text) == said


@pytest.mark.parametrize(
    "text",
    [
        "",
        "benefits and outfits",
        "the flap is orange; its rubber was not tested",
        "more exposed media of the same kind",
        "passed 40 mL at 300 mm head, 1.4 times the other",
        "thicker by 0.08 mm and stiffer by hand",
        "a gap was seen at the upper cap",
        "pleats even, seam glued through",
        "the bestseller",
        "the maker claims …; not tested here",
        "Claimed by the maker: 99 % efficient at 25 µm",
        "The box claims 20 000 km; no distance was tested",
        "the maker claimed it lasts 20000 km",
        "As claimed on the box, 98 % efficiency; not tested",
        "it is claimed that it filters better",
        "too close to call; different, not better",
        "no difference was found in what we measured",
        "the last 20 km on the post were rough",
        "60 % of the score hangs on the media",
        "40 % open area in the tube",
        "covers 98 % of the cap",
        "at last 3 pleats were even",
        "the blast left 20 marks",
        "10 mL of oil in 300 s",
        "the filter weighs 287.4 g",
        "lasted the whole film",
        "the drip lasted for 20 s",
        "the test lasted 12 hours",
        "its markings differ from those of the other",
    ],
)
def test_plain_remarks_are_left_alone(text: str) -> None:
    assert found(text) == []


def test_flag_offers_other_words_and_says_why() -> None:
    (flag,) = flagged("so it fits, I say")
    assert "so it fits, I say"[flag.start : flag.end] == flag.said == "fits"
    assert flag.offered == "no difference was found in what was measured"
    assert "handbook" in flag.why
    assert flag.allowed_when == ""
    (flag,) = flagged("stronger")
    assert "burst" in flag.allowed_when


@pytest.mark.parametrize("entry", load_wording(), ids=lambda entry: entry.key)
def test_every_phrase_is_found_and_no_offer_is_flagged(entry) -> None:
    for phrase in entry.said:
        plain = " ".join(word.split("|")[0] for word in phrase.split())
        typed = plain.replace("*", "s").replace("#", "20")
        (flag,) = flagged(f"({typed})")
        assert (flag.start, flag.said) == (1, typed)
    assert flagged(entry.offered) == ()


def test_claim_told_as_a_claim_is_left_alone() -> None:
    assert found("The maker claims it filters better; not tested here") == []
    assert found("The box says synthetic. It is stronger.") == ["stronger"]
    assert found("It filters better, the maker claims") == ["filters better"]


PIECES = st.sampled_from(
    [" ", ", ", "fits", "silicone", "filters better", "better", "synthetic media", "x", "ö", "\n"]
)


@given(st.lists(PIECES | st.text(max_size=5), max_size=12).map("".join))
def test_flags_are_in_order_and_never_overlap(text: str) -> None:
    flags = flagged(text)
    assert all(text[f.start : f.end] == f.said and f.said for f in flags)
    ends = [place for f in flags for place in (f.start, f.end)]
    assert ends == sorted(ends)


@given(st.sampled_from(["filters better", "fits", "silicone"]), st.text(max_size=10))
def test_typing_on_keeps_what_was_flagged(said: str, more: str) -> None:
    assert flagged(f"{said} {more}")[0].start == 0


def written(root: Path, text: str) -> Path:
    (root / "judging").mkdir()
    (root / "judging" / "wording.toml").write_text(text, encoding="utf-8")
    return root


def test_own_file_is_read(tmp_path: Path) -> None:
    (flag,) = flagged("it fits; silicone", written(tmp_path, ENTRY))
    assert (flag.said, flag.offered) == ("fits", "no difference found")


@pytest.mark.parametrize(
    ("text", "field", "told"),
    [
        (ENTRY.replace('["fits"]', "[]"), "said", "one phrase or more"),
        (ENTRY.replace('["fits"]', '["fits", " * "]'), "said", "one phrase or more"),
        (ENTRY.replace('"fit was not tested"', '" "'), "why", "wants words"),
        (ENTRY.replace('source = "invented"', ""), "source", "missing"),
        (ENTRY.replace("opinion", "rumour"), "support", "not one of"),
        (ENTRY + "colour = 3\n", "colour", "not a known field"),
    ],
)
def test_faulty_entry_is_named(tmp_path: Path, text: str, field: str, told: str) -> None:
    with pytest.raises(ResourceFault, match=told) as fault:
        load_wording(written(tmp_path, text))
    assert (fault.value.entry, fault.value.field) == ("fits", field)
    assert fault.value.line
