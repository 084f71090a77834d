"""From a number in the forge's history to new pixels: headless Chromium, real kernels.

A bar of 20 steps, and one of 200, is opened from its recipe's file. At a step in the
middle and at the last one the depth of the hammer's waves is put to another stop, time
after time: milliseconds until

* the new picture is decoded and the browser's next frame begins;
* the row of the bar's ends is whole, drawn anew, once nothing moves;

and how many messages come from the kernel for each.

Needs playwright, and a chromium on the PATH. On a machine that others use, too: run it
some times, and believe the best.
"""

import shutil
import tempfile
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from kit.forge.billet import Billet
from kit.forge.stack import demo_stack
from kit.forge.steps import (
    Dent,
    DrawOut,
    Fold,
    Hammer,
    QuarterTurn,
    RoundUp,
    SquareUp,
    Twist,
)
from kit.shop.recipes.recipe import Recipe, to_json
from tests.bench.clock import summed, table
from tests.bench.slider import FIND, FLAGS
from tests.browser.launching import Server, launched
from tests.browser.start_button import HAS_RUN, START

ROOT = Path(__file__).parents[2]
MOVES, WHOLES = 24, 6
MIDDLE = {20: 60, 200: 250}  # ms until the picture, by the steps of its history
STRIP = 500  # ms until the row of ends is whole, with 20 steps
MOVED = f"""async (moves) => {{ {FIND}
  const times = [];
  for (let move = 0; move < moves; move += 1) {{
    const next = (high / 4) * (1 + ((move * 7) % moves)) / moves; // to what it was
    times.push(await shown(() => put(next), () => true, 3000));
    await wait(60);
  }}
  return times.filter((time) => time !== null);
}}"""
STRIPPED = f"""async (moves) => {{ {FIND}
  const row = view.querySelector('.kit-strip');
  const address = () =>
    getComputedStyle(row.querySelector('.kit-shown')).backgroundImage.slice(5, -2);
  const bytes = async () => new TextDecoder('latin1').decode(
    await (await fetch(address())).arrayBuffer());
  const whole = async (act) => {{
    const before = await bytes();
    return new Promise((done) => {{
      const start = performance.now();
      const watch = new MutationObserver(async () => {{
        if (await bytes().catch(() => before) === before) return;
        watch.disconnect();
        const ends = new Image();
        ends.src = address();
        await ends.decode().catch(() => {{}});
        requestAnimationFrame(() => done(performance.now() - start));
      }});
      watch.observe(row, {{ subtree: true, attributeFilter: ['style'] }});
      setTimeout(() => {{ watch.disconnect(); done(null); }}, 20000);
      act();
    }});
  }};
  const times = []; // to half of what it was, and back: its slider goes to four times that
  for (let move = 0; move < moves; move += 1) {{
    times.push(await whole(() => put(high / (move % 2 ? 2 : 8))));
    await wait(300);
  }}
  return times.filter((time) => time !== null);
}}"""


def bar(steps: int) -> Billet:
    """Forge a bar whose every tenth step, and last, is the hammer's."""
    billet = Billet(source=demo_stack())
    back = DrawOut(thickness=billet.size.thickness)
    for seed in range(4):
        billet = billet.then(Hammer(depth=1.5, spacing=20, seed=seed), Fold(), back)
    billet = billet.then(
        DrawOut(thickness=16, width=16),
        RoundUp(),
        Twist(turn_length=50),
        SquareUp(),
        DrawOut(thickness=10, width=24),
        Dent(way="cut and forged", across=8, depth=3, spacing=11, faces="top"),
        DrawOut(thickness=9),
    )
    while len(billet) < steps:
        turn = (QuarterTurn(),) if len(billet) > 19 else ()
        billet = billet.then(*turn, Hammer(depth=0.5, spacing=20, seed=len(billet)))
    return billet


def report() -> None:
    """Measure both bars."""
    rows, received = [], []
    with (
        tempfile.TemporaryDirectory() as home,
        launched(ROOT, Path(home)) as kit,
        sync_playwright() as play,
    ):
        browser = play.chromium.launch(
            executable_path=shutil.which("chromium"), args=list(FLAGS)
        )
        page = browser.new_page(viewport={"width": 1280, "height": 900})
        page.on(
            "websocket",
            lambda socket: socket.on("framereceived", lambda _f: received.append(1)),
        )
        _opened(page, kit)
        for steps in MIDDLE:
            _laid(page, steps, Path(home))
            rows += [_moved(page, steps, at, received) for at in (steps // 2, steps)]
        browser.close()
    head = (
        "bar", "at step", "middle ms", "95 of 100", "best", "asked", "row whole", "asked",
        "messages",
    )  # fmt: skip
    table("from a number of the forge's history to new pixels", head, rows)


def _opened(page: Page, kit: Server) -> None:
    page.goto(f"{kit.address}/doc/tree/forge.ipynb?token={kit.token}")
    page.wait_for_selector(".jp-Notebook .jp-RenderedMarkdown h1")
    page.click(START)
    page.wait_for_selector(HAS_RUN, timeout=90000)


def _laid(page: Page, steps: int, home: Path) -> None:
    """Open the recipe of a bar, as its maker would."""
    name = f"{steps} steps"
    file = home / f"{steps}.json"
    file.write_text(to_json(Recipe(name=name, billet=bar(steps))), "utf-8")
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Open a recipe").first.click()
    chooser.value.set_files(file)
    page.wait_for_function(
        f"document.querySelectorAll('.kit-strip li').length === {steps + 1}"
    )
    page.wait_for_timeout(3000)


def _moved(page: Page, steps: int, at: int, received: list) -> tuple:
    page.locator(".kit-strip button").nth(at).click()
    page.locator('.kit-strip [aria-current="step"]').nth(0).wait_for()
    page.wait_for_timeout(2000)
    page.locator('[data-kit-key="act:depth"]').click()
    page.wait_for_timeout(1500)
    before = len(received)
    took = summed(page.evaluate(MOVED, MOVES))
    messages = (len(received) - before) / MOVES
    page.wait_for_timeout(1500)
    whole = summed(page.evaluate(STRIPPED, WHOLES))
    asked = STRIP if steps == 20 else "-"
    return (
        f"{steps} steps", at, took.median, took.p95, took.best, MIDDLE[steps],
        whole.median, asked, messages,
    )  # fmt: skip
