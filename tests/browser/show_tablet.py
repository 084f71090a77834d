"""A tablet with the show page on it, whose clock the test turns; and who plays with it."""

import random
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from functools import lru_cache
from pathlib import Path

from playwright.sync_api import Browser, Page

from kit.basics import files
from kit.classroom.show import page as show_page

STATES = ("attract", "predict", "observe", "why", "card")
SIZES = ((1280, 800), (800, 1280), (1024, 768), (768, 1024), (390, 844), (1024, 600))
SIZES += ((844, 390),)  # a telephone that lies
KEYS = ("Numpad4", "Numpad6", "Numpad8", "Numpad2", *("NumpadEnter",) * 6, "Numpad0")
KEYS += ("ArrowUp", "ArrowLeft", "Tab", "Space", "Escape", "a", "F2", "5", "Home", "End")
PAUSES = (20, 50, 100, 200, 500)  # ms between deeds
LONG = (200, 5_000, 32_000, 60_000)  # ms, now and then


@lru_cache(maxsize=1)
def _text() -> str:
    return show_page.page(show_page.own_pieces())


@contextmanager
def tablets(browser: Browser, folder: Path) -> Iterator[Callable[..., Page]]:
    """Give what opens the page, with settings in its address; no complaints allowed."""
    file = files.write(folder / "show.html", _text())
    contexts, complaints = [], []

    def opened(
        asked: str = "",
        size: tuple[int, int] = SIZES[0],
        *,
        turned: bool = True,
        **options: str,
    ) -> Page:
        context = browser.new_context(
            viewport={"width": size[0], "height": size[1]}, has_touch=True, **options
        )
        contexts.append(context)
        page = context.new_page()
        page.on(
            "console", lambda said: said.type == "error" and complaints.append(said.text)
        )
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.on(
            "request",
            lambda asked: (
                complaints.append(asked.url[:80])
                if not asked.url.startswith(("file:", "data:"))
                else None
            ),
        )
        if turned:
            page.clock.install()
        page.goto(f"{file.as_uri()}#{asked}")
        return page

    yield opened
    for context in contexts:
        context.close()
    assert complaints == []


def state(page: Page) -> str:
    """Say in which state the page is, and that no other is shown."""
    told = page.evaluate("state")
    shown = [
        name for name in STATES if page.locator(f"#{name}").get_attribute("hidden") != ""
    ]
    assert shown == [told]
    return told


def depth(page: Page) -> str:
    return page.locator("#stage").get_attribute("aria-label").replace("\u00a0", " ")


def at_rest(page: Page) -> dict:
    """Give what is seen of the loop now: the words, and the numbers of the knife."""
    return page.evaluate(
        """({ line: line.textContent.replace("\\n", " "), ...Object.fromEntries(
        ["hand", "along", "drawn", "apart"].map((one) =>
          [one, Number(knife.style.getPropertyValue(`--${one}`))])) })"""
    )


def shows(page: Page) -> list[int]:
    """Give the numbers of the frames that are to be seen."""
    return page.evaluate(
        """[...document.querySelectorAll("#strip img")]
        .flatMap((img, at) => img.style.visibility === "visible" ? [at] : [])"""
    )


def walk(page: Page, deep: int) -> None:
    """Go so many states on."""
    for _ in range(deep):
        if state(page) == "predict":
            page.keyboard.press("Numpad2")
        page.keyboard.press("Enter")


def maker(page: Page) -> None:
    page.keyboard.down("m")
    page.clock.run_for(3100)
    page.keyboard.up("m")
    assert page.locator("#maker").is_visible()


def deed(
    page: Page, dice: random.Random, wait: Callable[[float], object], *, long: float = 2
) -> None:
    """Do something that a child might; `wait` lets so many ms go by, by whatever clock."""
    kinds = ("tap", "key", "wait", "hold", "drag")
    kind = dice.choices(kinds, (10, 16, long, 1, 2))[0]
    at = dice.randrange(SIZES[0][0]), dice.randrange(SIZES[0][1])
    if kind == "tap":
        page.touchscreen.tap(*at)
    elif kind == "key":
        page.keyboard.press(dice.choice(KEYS))
    elif kind == "wait":
        wait(dice.choice(LONG))
    elif kind == "hold":
        page.keyboard.down("m")
        wait(3_200)
        page.keyboard.up("m")
    else:
        page.mouse.move(*at)
        page.mouse.down()
        page.mouse.move(dice.randrange(SIZES[0][0]), dice.randrange(SIZES[0][1]))
        page.mouse.up()
    wait(dice.choice(PAUSES))


def left_alone(page: Page, wait: Callable[[float], object]) -> None:
    """Wait as long as the settings say, and the warning: it is back, and starts again."""
    wait(1000 * (page.evaluate("settings.idle") + 11))
    assert state(page) == "attract"
    page.keyboard.press("Enter")
    assert state(page) == "predict"
