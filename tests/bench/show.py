"""Ten real minutes of children at the show page: does it stick, complain or grow.

python -m tests.bench.show 10
"""

import random
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path

from playwright.sync_api import CDPSession, Page, sync_playwright

from kit.classroom.show import page as show_page

SEED = 1
FLAGS = ["--no-sandbox", "--disable-gpu"]
KEYS = ("Numpad4", "Numpad6", "Numpad8", "Numpad2", *("NumpadEnter",) * 4, "Numpad0")
KEYS += ("ArrowUp", "ArrowLeft", "Tab", "Space", "Escape", "a", "Home", "End")
PAUSES = (0.02, 0.05, 0.1, 0.2, 0.5)  # seconds between deeds
STATE = "document.documentElement.dataset.state"


def main(minutes: float) -> int:
    """Let a seeded monkey play, and print what came of it a line a minute."""
    with tempfile.TemporaryDirectory() as folder, sync_playwright() as playwright:
        file = Path(folder) / "show.html"
        show_page.write(show_page.page(show_page.own_pieces(), idle=15), file)
        browser = playwright.chromium.launch(
            executable_path="/usr/bin/chromium", args=FLAGS
        )
        context = browser.new_context(
            viewport={"width": 1280, "height": 800}, has_touch=True
        )
        page = context.new_page()
        complaints: list[str] = []
        page.on(
            "console", lambda said: said.type == "error" and complaints.append(said.text)
        )
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto(file.as_uri())
        played = play(page, browser.new_browser_cdp_session(), minutes)
        print(f"states seen: {dict(played)}; complaints: {complaints or 'none'}")
        browser.close()
    return 1 if complaints or played["stuck"] else 0


def play(page: Page, system: CDPSession, minutes: float) -> Counter:
    """Touch, press and rest until the time is over."""
    session = page.context.new_cdp_session(page)
    dice, seen, deeds = random.Random(SEED), Counter(), 0  # noqa: S311
    began = told = time.monotonic()
    print("min   deeds   script MB   nodes   listeners   process MB")
    while time.monotonic() - began < 60 * minutes:
        deed(page, dice)
        deeds += 1
        seen[page.evaluate(STATE)] += 1
        if time.monotonic() - told > 60:
            rest(page, seen)
            told = time.monotonic()
            print(
                f"{(told - began) / 60:4.1f}  {deeds:6}  {measures(session, system)}",
                flush=True,
            )
    return seen


def rest(page: Page, seen: Counter) -> None:
    """Leave it alone: it must go back by itself, and start again on a touch."""
    idle = page.evaluate("settings.idle")  # the monkey may have set it
    page.wait_for_timeout((idle + 12) * 1000)
    back = page.evaluate(STATE)
    page.keyboard.press("Enter")
    started = page.evaluate(STATE)
    if (back, started) != ("attract", "predict"):
        seen["stuck"] += 1
        print(f"stuck after {idle + 12} s: {back}, then {started}")


def deed(page: Page, dice: random.Random) -> None:
    """Do something that a child might."""
    kind = dice.choices(("tap", "key", "hold", "drag"), (10, 16, 0.2, 2))[0]
    at = dice.randrange(1280), dice.randrange(800)
    if kind == "tap":
        page.touchscreen.tap(*at)
    elif kind == "key":
        page.keyboard.press(dice.choice(KEYS))
    elif kind == "hold":
        page.keyboard.down("m")
        page.wait_for_timeout(3200)
        page.keyboard.up("m")
    else:
        page.mouse.move(*at)
        page.mouse.down()
        page.mouse.move(dice.randrange(1280), dice.randrange(800))
        page.mouse.up()
    page.wait_for_timeout(1000 * dice.choice(PAUSES))


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
    sys.exit(main(float(sys.argv[1]) if len(sys.argv) > 1 else 10))
