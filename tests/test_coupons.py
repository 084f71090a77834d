"""Coupons: bad files refused in a sentence, readings before guesses."""

import json
import math

import pytest

from kit.basics.errors import KitError
from kit.metal.bite import ILLUSTRATIVE, Etch, between, bitten, words
from kit.metal.coupons import FORMAT, LARGEST, MEASURED, MOST, Coupon, parsed

OLD = {"steel": "1084", "minutes": 10, "bath": "usual", "date": "2025-03-01"}
ROW = {**OLD, "reflectance": 0.12, "relief_um": 6.5, "note": "grey card, ½ hour"}


def coupon(**changes):
    return Coupon(**{**ROW, **changes})


def file(held):
    return held.encode() if isinstance(held, str) else json.dumps(held).encode()


def test_a_file_is_read():
    steels = ROW, {**OLD, "steel": "75Ni8", "relief_um": 2}, {**OLD, "reflectance": 0.1}
    found = parsed(file({"format": FORMAT, "coupons": list(steels)}))
    assert found[0] == coupon()
    assert found[1].steel == "15N20"  # one steel, two names
    assert (found[1].reflectance, found[2].relief_um) == (None, None)


def test_a_full_file_is_not_too_large():
    rows = [{**ROW, "note": "x" * 200}] * MOST
    text = json.dumps({"format": FORMAT, "coupons": rows}, indent=1)
    assert len(parsed(file(text))) == MOST


@pytest.mark.parametrize(
    "held",
    [
        "",
        "not JSON",
        "[" * 90_000,
        "[]",
        "{}",
        "3",
        {"format": "other", "coupons": []},
        {"format": FORMAT},
        {"format": FORMAT, "coupons": {}},
        {"format": FORMAT, "coupons": [], "more": 1},
        {"format": FORMAT, "coupons": [3]},
        {"format": FORMAT, "coupons": [OLD]},
        {"format": FORMAT, "coupons": [OLD] * (MOST + 1)},
        *(
            {"format": FORMAT, "coupons": [{**ROW, **change}]}
            for change in (
                {"steel": "X"},
                {"steel": 3},
                {"steel": ["1084"]},
                {"minutes": 0},
                {"minutes": "soon"},
                {"minutes": None},
                {"bath": "neat"},
                {"reflectance": 1.2},
                {"reflectance": math.nan},
                {"relief_um": -1},
                {"relief_um": math.inf},
                {"date": "yesterday"},
                {"date": 0},
                {"date": "a\nb"},
                {"date": "0"},
                {"date": "2025-02-30"},
                {"note": "x" * 201},
                {"note": None},
                {"colour": "grey"},
            )
        ),
        "x" * (LARGEST + 1),
    ],
)
def test_a_bad_file_gets_a_sentence(held):
    with pytest.raises(KitError) as caught:
        parsed(file(held))
    text = str(caught.value)
    assert text.endswith(".")
    assert "\n" not in text
    assert len(text) < 250


def test_bytes_that_are_no_text_get_a_sentence():
    with pytest.raises(KitError, match="must be text, saved as UTF-8"):
        parsed(b"\xff\xfe\x00\x80")


def test_a_reading_stands_before_the_guess():
    found = bitten(("1084", "15N20"), Etch(), [coupon()])
    assert found["1084"].tone == pytest.approx(0.12)
    assert found["1084"].depth == pytest.approx(6.5)
    guess = bitten(("1084", "15N20"), Etch())
    assert found["15N20"] == guess["15N20"]
    assert between(("1084", "15N20"), Etch(), [coupon()]).relief == pytest.approx(
        6.5 - guess["15N20"].depth
    )


def test_a_reading_is_of_its_bath_and_scaled_by_time():
    assert bitten(["1084"], Etch(strength="weak"), [coupon()])["1084"].measured == ()
    half = bitten(["1084"], Etch(minutes=5), [coupon()])["1084"]
    assert half.depth == pytest.approx(3.25)
    assert 0.12 < half.tone < 0.5
    assert bitten(["1084"], Etch(minutes=30), [coupon()])["1084"].tone == pytest.approx(
        0.12
    )


@pytest.mark.parametrize("grit", [220, 2000])
def test_a_bare_face_is_bare_whatever_was_read(grit):
    # ground or worn flat, a face is scratched alike all over: no coupon was bare steel
    pair, readings = ("1084", "15N20"), [coupon(steel="15N20")]
    for etch in (Etch(minutes=0, grit=grit), Etch(wear=100, grit=grit)):
        assert between(pair, etch, readings).contrast < 0.05
        read_of, guess = bitten(pair, etch, readings), bitten(pair, etch)
        assert read_of["15N20"].tone == pytest.approx(guess["15N20"].tone)


def test_the_newest_reading_counts():
    newer = coupon(date="2025-04-01", reflectance=0.2, relief_um=None)
    found = bitten(["1084"], Etch(), [newer, coupon()])["1084"]
    assert (found.depth, found.tone) == pytest.approx((6.5, 0.2))


def test_the_screen_says_what_was_measured():
    pair = ("1084", "15N20")
    both = [coupon(), coupon(steel="15N20", reflectance=0.7, relief_um=2)]
    assert words(bitten(pair, Etch())) == ILLUSTRATIVE
    assert words(bitten(pair, Etch(), both[:1])) == (
        f"1084: depth and tone {MEASURED}. {ILLUSTRATIVE}"
    )
    whole = words(bitten(pair, Etch(), both))
    assert whole.count("measured on your coupon") == 2
    assert "Illustrative" not in whole
    part = words(bitten(["1084"], Etch(), [coupon(relief_um=None)]))
    assert part == f"1084: tone {MEASURED}. {ILLUSTRATIVE}"
