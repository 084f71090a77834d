"""From a slider to new pixels, as a person waits for it: headless Chromium, real kernels.

Each lesson is opened as a newcomer opens it, guessed and observed. Then its slider

* is put to another stop, one after another: milliseconds until the new picture is decoded
  and the browser's next frame begins; the processor's time that page and kernel take for
  each, which other work on the machine changes less;
* is let go: milliseconds until the picture is whole, a PNG;
* is put to a random stop at every frame of the browser: new pictures a second.

Needs playwright, and a chromium on the PATH. On a quiet machine; four minutes.
"""

import os
import shutil
import statistics
import tempfile
from contextlib import suppress
from pathlib import Path

from playwright.sync_api import CDPSession, Page, sync_playwright

from tests.bench.clock import summed, table
from tests.browser.launching import Server, launched
from tests.browser.start_button import HAS_RUN, START

ROOT = Path(__file__).parents[2]
STOPS = 40
LESSONS = tuple(f"{number:02}" for number in range(1, 12))
MEDIAN, P95, WHOLE, KERNEL = 40, 55, 300, 12  # ms, at most
FRAMES = {"01": 30, "02": 30}  # a second, at least
OTHER_FRAMES = 24
FLAGS = (
    "--no-sandbox", "--disable-gpu", "--disable-background-networking", "--no-first-run",
)  # fmt: skip
GUESS = "() => [...document.querySelectorAll('input[type=radio]')].find(x => !x.disabled)"
FIND = """
const slides = 'input[type=range]:not([disabled])';
const view = [...document.querySelectorAll('.kit-view')]
  .find((one) => one.querySelector('.kit-frame img') && one.querySelector(slides));
const image = view.querySelector('.kit-frame img');
const slider = view.querySelector(`.kit-main-control ${slides}`)
  ?? view.querySelector(slides);
const [low, high] = [Number(slider.min), Number(slider.max)];
const wait = (ms) => new Promise((done) => { setTimeout(done, ms); });
const put = (stop) => {
  slider.value = Math.round(stop);
  slider.dispatchEvent(new Event('input', { bubbles: true }));
};
const clean = () => image.src.startsWith('data:image/png');
// milliseconds until a picture that passes is shown, or nothing
const shown = (act, passes, patience = 3000) => new Promise((done) => {
  const start = performance.now();
  const watch = new MutationObserver(async () => {
    if (!passes()) return;
    watch.disconnect();
    await image.decode().catch(() => {});
    requestAnimationFrame(() => done(performance.now() - start));
  });
  watch.observe(image, { attributeFilter: ['src'] });
  setTimeout(() => { watch.disconnect(); done(null); }, patience);
  act();
});
"""
MOVED = f"""async (stops) => {{ {FIND}
  const times = [], count = high - low + 1;
  const stride = [7, 5, 3, 2, 1].find((apart) => count % apart); // no stop twice running
  for (let stop = 1; stop <= stops; stop += 1) {{
    const next = low + (stop * stride) % count;
    // where nothing changes, what came to rest before is no answer to it
    times.push(await shown(() => put(next), () => !clean(), 600));
    await wait(40);
  }}
  return times.filter((time) => time !== null);
}}"""
RESTED = f"""async () => {{ {FIND}
  const times = [];
  for (const share of [0.2, 0.8, 0.4]) {{
    times.push(await shown(() => put(low + (high - low) * share), clean));
    await wait(100);
  }}
  return times.filter((time) => time !== null);
}}"""
RANDOM = f"""async (seconds) => {{ {FIND}
  let pictures = 0;
  const watch = new MutationObserver(() => {{ pictures += 1; }});
  watch.observe(image, {{ attributeFilter: ['src'] }});
  const begin = performance.now();
  while (performance.now() - begin < 1000 * seconds) {{
    put(low + (high - low) * Math.random());
    await new Promise(requestAnimationFrame);
  }}
  watch.disconnect();
  return pictures / seconds;
}}"""


def report() -> None:
    """Measure all lessons; say which of them keeps what was asked."""
    rows, passed = [], True
    with tempfile.TemporaryDirectory() as home, launched(ROOT, Path(home)) as kit:
        names = sorted(entry["name"] for entry in kit.ask("/api/contents")["content"])
        with sync_playwright() as play:
            browser = play.chromium.launch(
                executable_path=shutil.which("chromium"), args=list(FLAGS)
            )
            page = browser.new_page(viewport={"width": 1280, "height": 900})
            session = page.context.new_cdp_session(page)
            session.send("Performance.enable", {"timeDomain": "threadTicks"})
            for name in names:
                if name[:2] in LESSONS:
                    row, good = _lesson(page, session, kit, name)
                    rows.append(row)
                    passed &= good
            browser.close()
    rows.append(
        ("asked", f"{MEDIAN}", f"{P95}", f"{OTHER_FRAMES}, 01 and 02 {FRAMES['01']}",
         f"{WHOLE}", f"{KERNEL}", "", "all kept" if passed else "not all kept")
    )  # fmt: skip
    head = ("lesson", "middle ms", "95 of 100", "pictures/s", "whole ms", "kernel ms",
            "page ms", "")  # fmt: skip
    table("from a slider to new pixels", head, rows)


def _lesson(page: Page, session: CDPSession, kit: Server, name: str) -> tuple[tuple, bool]:
    page.goto(f"{kit.address}/doc/tree/{name}?token={kit.token}")
    page.wait_for_selector(".jp-Notebook .jp-RenderedMarkdown h1")
    page.click(START)
    page.wait_for_selector(HAS_RUN, timeout=90000)
    page.wait_for_timeout(500)
    page.evaluate(f"({GUESS})().click()")
    page.wait_for_timeout(300)
    page.get_by_role("button", name="Observe").first.click()
    page.wait_for_timeout(2500)
    kernel = _kernel(kit, name)
    spent, worked = _processor(kernel), _worked(session)
    times = page.evaluate(MOVED, STOPS)
    spent = (_processor(kernel) - spent) / len(times)
    worked = (_worked(session) - worked) / len(times)
    page.wait_for_timeout(600)
    whole = statistics.median(page.evaluate(RESTED))
    frames = page.evaluate(RANDOM, 3)
    took = summed(times)
    kept = {
        "middle": took.median <= MEDIAN,
        "95 of 100": took.p95 <= P95,
        "pictures": frames >= FRAMES.get(name[:2], OTHER_FRAMES),
        "whole": whole <= WHOLE,
        "kernel": spent <= KERNEL,
    }
    missed = ", ".join(what for what, good in kept.items() if not good)
    figures = took.median, took.p95, frames, whole, spent, worked
    words = f"missed: {missed}" if missed else "kept"
    row = (name.removesuffix(".ipynb"), *(f"{figure:.0f}" for figure in figures), words)
    return row, not missed


def _kernel(kit: Server, name: str) -> int:
    """Find the process of a lesson's kernel."""
    [key] = [one["kernel"]["id"] for one in kit.ask("/api/sessions") if one["path"] == name]
    for folder in Path("/proc").glob("[0-9]*"):
        with suppress(OSError):  # gone meanwhile
            if f"kernel-{key}".encode() in (folder / "cmdline").read_bytes():
                return int(folder.name)
    msg = f"The kernel of {name} is not there."
    raise RuntimeError(msg)


def _worked(session: CDPSession) -> float:
    """Give the processor's time that a page's scripts, styles and layout have taken, ms."""
    told = session.send("Performance.getMetrics")["metrics"]
    return 1000 * sum(one["value"] for one in told if one["name"] == "TaskDuration")


def _processor(process: int) -> float:
    """Give the processor's time that a process has taken, ms."""
    parts = Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()
    return 1000 * (int(parts[11]) + int(parts[12])) / os.sysconf("SC_CLK_TCK")
