"""The show page under ten minutes of a child's touches: never stuck, memory level."""

import random

from playwright.sync_api import CDPSession, Page
from show_tablet import STATES, state

MONKEY = 450  # deeds, with about ten seconds each between them: an hour of show time
SEED = 20_261_125
MOST_GROWTH = 3_000_000  # bytes of script memory, after it was tidied up
KEYS = ("Numpad4", "Numpad6", "Numpad8", "Numpad2", *("NumpadEnter",) * 6, "Numpad0")
KEYS += ("ArrowUp", "ArrowLeft", "Tab", "Space", "Escape", "a", "F2", "5", "Home", "End")


def test_a_monkey_can_not_get_it_stuck(tablet):
    page = tablet()
    session = page.context.new_cdp_session(page)
    dice = random.Random(SEED)  # noqa: S311
    for _ in range(20):
        deed(page, dice)
    early = held(session)
    seen = set()
    for number in range(MONKEY):
        deed(page, dice)
        seen.add(page.evaluate("document.documentElement.dataset.state"))
        if number % 25 == 0:
            left_alone(page)
    assert held(session) - early < MOST_GROWTH
    assert seen == set(STATES)
    left_alone(page)


def left_alone(page: Page) -> None:
    """Wait as long as the settings say, and the warning: it is back, and starts again."""
    page.clock.run_for(1000 * (page.evaluate("settings.idle") + 11))
    assert state(page) == "attract"
    page.keyboard.press("Enter")
    assert state(page) == "predict"


def held(session: CDPSession) -> float:
    """Give the bytes that the page's script holds, once they are tidied up."""
    session.send("HeapProfiler.collectGarbage")
    return session.send("Runtime.getHeapUsage")["usedSize"]


def deed(page: Page, dice: random.Random) -> None:
    """Do something that a child might."""
    kind = dice.choices(("tap", "key", "wait", "hold", "drag"), (10, 16, 2, 1, 2))[0]
    at = dice.randrange(1280), dice.randrange(800)
    if kind == "tap":
        page.touchscreen.tap(*at)
    elif kind == "key":
        page.keyboard.press(dice.choice(KEYS))
    elif kind == "wait":
        page.clock.fast_forward(dice.choice((200, 5_000, 32_000, 60_000)))
    elif kind == "hold":
        page.keyboard.down("m")
        page.clock.fast_forward(3_200)
        page.keyboard.up("m")
    else:
        page.mouse.move(*at)
        page.mouse.down()
        page.mouse.move(dice.randrange(1280), dice.randrange(800))
        page.mouse.up()
    page.clock.run_for(300)
