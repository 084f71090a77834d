"""The show page in a browser: by touch, by number pad, left alone, never stuck."""

import re

import pytest
from playwright.sync_api import expect
from show_tablet import depth, shows, state, walk


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
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] / 2)
    assert page.locator("#said").inner_text() == "5.0\u00a0mm off"
    assert shows(page) == [4]
    assert "saw it coming" in page.locator("#verdict").inner_text()
    page.tap("#stage")  # people bang the picture: it answers
    assert shows(page) == [5]
    page.tap("#to-why")
    assert page.locator("#number").inner_text() == "37°"
    page.tap("#to-card")
    assert page.locator("#bars li").count() == 3
    page.tap("#to-start")
    assert state(page) == "attract"
    # the next bar in turn; its picture comes with the next frame
    expect(page.locator("#stage")).to_have_attribute("aria-label", re.compile("drilled"))


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
        for _ in range(5):
            page.keyboard.press("ArrowRight")  # past it: the answer stays
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
        "dots": 0,
    }  # fmt: skip


def test_the_loop_ends_where_it_began(tablet):
    page = tablet()
    ends = page.evaluate("[0, 23.999].map((t) => attractAt(t, 8, false))")
    assert ends[0]["from"] == 0
    assert ends[0]["mix"] == pytest.approx(0)
    assert ends[1]["from"] == 0
    assert ends[1]["mix"] == pytest.approx(0, abs=1e-3)
    # slow: between two pictures of a 60 Hz screen never a jump
    worst = page.evaluate(
        """(() => { let worst = 0, was = null;
        for (let t = 0; t < 24; t += 1 / 60) { const now = attractAt(t, 8, false);
          const deep = now.from + now.mix;
          if (was !== null) worst = Math.max(worst, Math.abs(deep - was)); was = deep; }
        return worst; })()"""
    )
    assert 0 < worst < 0.07  # of a frame


def test_attract_moves_and_says_its_lines(tablet):
    page = tablet()
    seen = []
    for _ in range(24):
        page.clock.run_for(1000)
        seen.append((page.locator("#line").text_content().replace("\n", " "), *shows(page)))
    lines = list(dict.fromkeys(line for line, *_ in seen))
    assert lines == [
        "STRIPES OUTSIDE", "GRIND IT DOWN", "STARS INSIDE", "WHY?", "TOUCH TO CUT",
    ]  # fmt: skip
    assert {8} < {frame for _, *frames in seen for frame in frames}


def test_reduced_motion_moves_nothing(tablet):
    page = tablet(reduced_motion="reduce")
    frames = set()
    for _ in range(48):
        page.clock.run_for(500)
        frames |= set(shows(page))
        assert page.evaluate(
            "getComputedStyle(strip).getPropertyValue('--rolled').trim()"
        ) in {"", "0"}
        assert page.evaluate("hand.style.getPropertyValue('--come')") == "1"
    assert frames == {0, 4, 8}  # stills, each turning into the next
