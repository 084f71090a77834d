"""Ten real minutes of children at the show page: does it stick, complain or grow.

python -m tests.bench.show 10
"""

import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from playwright.sync_api import Browser, CDPSession, Page, sync_playwright

from tests.browser.show_tablet import deed, left_alone, tablets

SEED = 1
FLAGS = ["--no-sandbox", "--disable-gpu"]
IDLE = 15  # s, after which the page goes back by itself; the monkey may set it


def main(minutes: float) -> None:
    """Let a seeded monkey play, and print what came of it a line a minute."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        browser = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=FLAGS
        )
        with tablets(browser, Path(folder)) as tablet:
            page = tablet(f"idle={IDLE}", turned=False)
            print(f"states seen: {dict(play(page, browser, minutes))}; no complaints")
        browser.close()


def play(page: Page, browser: Browser, minutes: float) -> Counter:
    """Touch, press and rest until the time is over; AssertionError if it is stuck."""
    session, system = page.context.new_cdp_session(page), browser.new_browser_cdp_session()
    dice, seen = random.Random(SEED), Counter()  # noqa: S311
    began = told = time.monotonic()
    print("min   deeds   script MB   nodes   listeners   process MB")
    while time.monotonic() - began < 60 * minutes:
        deed(page, dice, page.wait_for_timeout, long=0)
        seen[page.evaluate("state")] += 1
        if time.monotonic() - told > 60:
            left_alone(page, page.wait_for_timeout)
            told = time.monotonic()
            past = f"{(told - began) / 60:4.1f}  {seen.total():6}"
            print(f"{past}  {measures(session, system)}", flush=True)
    return seen


def measures(session: CDPSession, system: CDPSession) -> str:
    """Give the memory of the page's script, tidied up, and of the browser's processes."""
    session.send("HeapProfiler.collectGarbage")
    session.send("Performance.enable")
    told = session.send("Performance.getMetrics")["metrics"]
    values = {one["name"]: one["value"] for one in told}
    script = values["JSHeapUsedSize"] / 1e6
    nodes, listeners = values["Nodes"], values["JSEventListeners"]
    processes = system.send("SystemInfo.getProcessInfo")["processInfo"]
    held = sum(map(_held, (one["id"] for one in processes if one["type"] == "renderer")))
    return f"{script:8.2f}  {nodes:8.0f}  {listeners:8.0f}  {held:8.0f}"


def _held(process: int) -> float:
    """Give the memory that is a process's own or its share, MB; 0 where none is told."""
    rollup = Path(f"/proc/{process}/smaps_rollup")
    if not rollup.exists():
        return 0.0
    return int(rollup.read_text().split("Pss:")[1].split()[0]) / 1024


if __name__ == "__main__":
    main(float(sys.argv[1]) if len(sys.argv) > 1 else 10)
