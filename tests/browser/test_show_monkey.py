"""The show page under an hour of a child's touches: never stuck, memory level."""

import random

import pytest
from playwright.sync_api import CDPSession
from show_tablet import STATES, deed, left_alone

pytestmark = pytest.mark.long
MONKEY = 450  # deeds, with some seconds between them: an hour of show time
SEED = 20_261_125
MOST_GROWTH = 3_000_000  # bytes of script memory, after it was tidied up
DRAWN = 300  # ms at the end of a wait in which every frame is drawn


def test_a_monkey_can_not_get_it_stuck(tablet):
    page = tablet()
    session = page.context.new_cdp_session(page)
    dice, seen = random.Random(SEED), set()  # noqa: S311

    def wait(milliseconds: float) -> None:
        page.clock.fast_forward(max(0, milliseconds - DRAWN))
        page.clock.run_for(min(milliseconds, DRAWN))

    for _ in range(20):
        deed(page, dice, wait)
    early = held(session)
    for number in range(MONKEY):
        deed(page, dice, wait)
        seen.add(page.evaluate("document.documentElement.dataset.state"))
        if number % 25 == 0:
            left_alone(page, wait)
    assert held(session) - early < MOST_GROWTH
    assert seen == set(STATES)
    left_alone(page, wait)


def held(session: CDPSession) -> float:
    """Give the bytes that the page's script holds, once they are tidied up."""
    session.send("HeapProfiler.collectGarbage")
    return session.send("Runtime.getHeapUsage")["usedSize"]
