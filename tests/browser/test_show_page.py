"""The show page in a browser: by touch, by number pad, left alone, never stuck."""

import itertools
import random
import re

import pytest
from playwright.sync_api import CDPSession, expect
from show_tablet import STATES, at_rest, deed, depth, left_alone, shows, state, walk

SEED = 20_261_125
MOST_GROWTH = 3_000_000  # bytes of script memory, after it was tidied up
DRAWN = 300  # ms at the end of a wait in which every frame is drawn
HALF_A_MINUTE, AN_HOUR = 30_000, 3_600_000  # ms of show time


def test_all_the_way_by_touch(tablet):
    page = tablet()
    assert state(page) == "attract"
    page.touchscreen.tap(400, 300)
    assert state(page) == "predict"
    page.tap("#show-me", force=True)  # nothing chosen yet
    assert state(page) == "predict"
    assert page.locator("#hint").inner_text() == "Choose a picture first."
    page.locator("#tiles button").nth(3).tap()
    assert page.locator("#show-me").get_attribute("aria-disabled") == "false"
    page.tap("#show-me")
    assert state(page) == "observe"
    assert page.locator("#ghost-says").inner_text() == "You chose D."
    box = page.locator("#grind").bounding_box()
    end = box["x"] + box["width"] - 9, box["y"] + box["height"] / 2
    assert page.locator("#slider").inner_text() == "Grind it to the mark"
    page.touchscreen.tap(*end)  # it stops where it was asked, and says so
    assert "Stopped at the mark" in page.locator("#slider").inner_text()
    page.clock.run_for(3500)  # what is over is told no longer
    assert page.locator("#slider").inner_text() == "Go on as you like."
    assert page.locator("#said").inner_text() == "5.0\u00a0mm off"
    assert shows(page) == [4]
    assert "saw it coming" in page.locator("#verdict").inner_text()
    page.tap("#stage")  # people bang the picture: it answers
    assert shows(page) == [5]
    page.touchscreen.tap(*end)
    assert shows(page) == [8]  # stars: not what was asked, and that is said
    assert page.locator("#verdict").inner_text() == "At the mark it was D."
    assert not page.locator("#ghost").is_visible()
    page.tap("#to-why")
    assert page.locator("#number").inner_text() == "37°"
    page.tap("#to-card")
    assert page.locator("#bars li").count() == 3
    page.tap("#to-start")
    assert state(page) == "attract"
    page.keyboard.press("Enter")  # the next bar in turn, as it lies there
    expect(page.locator("#stage")).to_have_attribute("aria-label", re.compile("drilled"))
    assert shows(page) == [0]


@pytest.mark.parametrize(
    "keys",
    [
        {"next": "NumpadEnter", "more": "Numpad6", "choose": "Numpad2", "less": "Numpad4"},
        {"next": "Enter", "more": "ArrowRight", "choose": "ArrowDown", "less": "ArrowLeft"},
        {"next": "Enter", "more": "6", "choose": "2", "less": "4"},
    ],
    ids=["number pad", "arrows", "digits"],
)
def test_all_the_way_by_keys_alone(keys, tablet):
    page = tablet()
    page.keyboard.press(keys["next"])
    assert state(page) == "predict"
    page.keyboard.press(keys["choose"])
    page.keyboard.press(keys["choose"])
    assert page.locator('[aria-checked="true"]').inner_text().startswith("B")
    assert page.evaluate("document.activeElement.getAttribute('role')") == "radio"
    page.keyboard.press(keys["next"])
    assert state(page) == "observe"
    faces = [depth(page)]
    for _ in range(8):
        page.keyboard.press(keys["more"])
        faces.append(depth(page))
    assert len(set(faces)) == 9
    assert "stars" in faces[-1]
    page.keyboard.press(keys["more"])  # no further than the axis
    assert depth(page) == faces[-1]
    page.keyboard.press(keys["less"])
    assert depth(page) == faces[-2]
    page.keyboard.press(keys["next"])
    page.keyboard.press(keys["next"])
    assert state(page) == "card"
    page.keyboard.press(keys["next"])
    assert state(page) == "attract"


def test_the_right_tile_moves_on_with_every_visitor(tablet):
    page = tablet("recipe=0")
    places = []
    for visit in range(5):
        page.keyboard.press("Enter")
        alts = page.evaluate(
            "[...document.querySelectorAll('#tiles img')].map((i) => i.alt)"
        )
        places.append(next(at for at, alt in enumerate(alts) if "leaning 37" in alt))
        page.locator("#tiles button").nth(places[-1] if visit % 2 else 0).tap()
        letter = "ABCD"[places[-1] if visit % 2 else 0]
        assert page.locator("#hint").inner_text() == f"You chose {letter}."
        page.tap("#show-me")
        page.keyboard.press("ArrowRight")
        assert page.locator("#verdict").inner_text() == ""  # not there yet
        for _ in range(3):
            page.keyboard.press("ArrowRight")
        right = f"✗ It is {'ABCD'[places[-1]]}."
        wrong = page.locator("#verdict").inner_text()
        told = {"✓ You saw it coming."} if letter == "ABCD"[places[-1]] else {right}
        assert {wrong} == told
        page.tap("#to-why")
        assert {page.locator("#found").inner_text()} == told
        page.keyboard.press("Numpad0")
    assert len(set(places)) == 4


def test_space_begins_too(tablet):
    page = tablet()
    page.keyboard.press("Space")
    assert state(page) == "predict"


def test_0_starts_again_from_everywhere(tablet):
    page = tablet()
    for deep in range(5):
        walk(page, deep)
        page.keyboard.press("Numpad0")
        assert state(page) == "attract", deep


def test_left_alone_it_asks_and_then_starts_again(tablet):
    page = tablet()
    for deep in range(1, 5):
        walk(page, deep)
        here = state(page)
        page.clock.run_for(29_000)
        assert not page.locator("#still").is_visible(), deep
        page.clock.run_for(2_000)
        assert page.locator("#still").is_visible(), deep
        page.mouse.click(600, 5)  # any touch resumes
        page.clock.run_for(500)
        assert not page.locator("#still").is_visible(), deep
        assert state(page) == here
        page.clock.run_for(41_000)
        assert state(page) == "attract", deep
        assert not page.locator("#still").is_visible(), deep


def test_the_idle_time_is_a_setting(tablet):
    page = tablet("idle=15")
    walk(page, 2)
    page.clock.run_for(16_000)
    assert page.locator("#still").is_visible()
    page.clock.run_for(10_000)
    assert state(page) == "attract"


def test_nonsense_in_the_address_is_passed_over(tablet):
    page = tablet("idle=1e9&theme=</style>&dots=-3&recipe=7.5&units=ell&language=__proto__")
    assert page.evaluate("settings") == {
        "theme": "indoor", "units": "mm", "language": "en", "recipe": "turn", "idle": 30,
        "dots": 0, "cards": "table",
    }  # fmt: skip


def test_the_loop_ends_where_it_began(tablet):
    page = tablet()
    frames = page.evaluate(
        "Array.from({ length: 900 }, (_, at) => attractAt(at / 60, false))"
    )
    numbers = [
        [one[name] for name in ("hand", "along", "drawn", "apart")] for one in frames
    ]
    assert numbers[0] == [0, 0, 0, 0]  # a whole blade, and no hand
    for name in ("hand", "drawn", "apart"):
        assert frames[-1][name] == pytest.approx(0, abs=0.01)
    # slow: between two pictures of a 60 Hz screen never a jump
    jumps = [
        max(abs(one - other) for one, other in zip(now, then, strict=True))
        for now, then in itertools.pairwise(numbers)
    ]
    assert 0 < max(jumps) < 0.07


def test_attract_says_what_it_is_and_a_hand_cuts_it(tablet):
    page = tablet()
    seen = []
    for _ in range(15):
        page.clock.run_for(1000)
        seen.append(at_rest(page))
    assert page.locator("#start").inner_text().startswith("Touch to cut")  # all the while
    lines = list(dict.fromkeys(one["line"] for one in seen))
    assert lines == ["DAMASCUS STEEL", "WHAT LIES INSIDE?", "TOUCH TO CUT"]
    assert [one["line"] for one in seen if one["apart"] == 1][-1] == "TOUCH TO CUT"
    assert sum(one["hand"] == 1 for one in seen) > len(seen) / 2
    assert shows(page) == []


@pytest.mark.parametrize("bar", [0, 1, 2])
def test_the_blade_is_of_the_bar_that_is_asked_about(bar, tablet):
    """As it lies there, before it is cut: so it tells no answer either."""
    page = tablet(f"recipe={bar}")
    told = page.locator("#knife").get_attribute("aria-label")
    steel = {one.get_attribute("src") for one in page.locator("#knife img").all()}
    page.keyboard.press("Enter")
    assert page.locator("#stage").get_attribute("aria-label") == told
    assert {page.locator("#strip img").first.get_attribute("src")} == steel


def test_reduced_motion_moves_nothing(tablet):
    page = tablet(reduced_motion="reduce")
    seen = []
    for _ in range(30):
        page.clock.run_for(500)
        seen.append(at_rest(page))
    assert {(one["hand"], one["drawn"], one["apart"]) for one in seen} == {(1, 1, 1)}
    assert len({one["along"] for one in seen}) == 1
    assert len({one["line"] for one in seen}) == 3


@pytest.mark.parametrize(
    ("milliseconds", "long"),
    [(HALF_A_MINUTE, 0), pytest.param(AN_HOUR, 2, marks=pytest.mark.long)],
)
def test_a_monkey_can_not_get_it_stuck(milliseconds, long, tablet):
    page = tablet()
    session = page.context.new_cdp_session(page)
    dice, seen, gone = random.Random(SEED), set(), 0  # noqa: S311

    def wait(pause: float) -> None:
        nonlocal gone
        gone += pause
        page.clock.fast_forward(max(0, pause - DRAWN))
        page.clock.run_for(min(pause, DRAWN))

    for _ in range(20):
        deed(page, dice, wait, long=long)
    early, alone = held(session), AN_HOUR / 20
    while gone < milliseconds:
        deed(page, dice, wait, long=long)
        seen.add(page.evaluate("state"))
        if gone > alone:
            left_alone(page, wait)
            alone = gone + AN_HOUR / 20
    assert held(session) - early < MOST_GROWTH
    assert seen == set(STATES)
    left_alone(page, wait)


def held(session: CDPSession) -> float:
    """Give the bytes that the page's script holds, once they are tidied up."""
    session.send("HeapProfiler.collectGarbage")
    return session.send("Runtime.getHeapUsage")["usedSize"]


@pytest.mark.parametrize("cards", ["table", "none"])
def test_cards_are_promised_only_where_they_lie(cards, tablet):
    page = tablet(f"cards={cards}")
    page.evaluate("go('card')")
    assert page.locator("#paper").is_visible() == (cards == "table")
    assert page.locator("#down").is_visible() == (cards == "table")
    promised = "TAKE" in page.locator("#take").inner_text()
    assert promised == (cards == "table")
    assert page.locator("#take").inner_text().strip()
