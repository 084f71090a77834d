"""Every page of the kit under axe-core: what a machine can find of barriers."""

import pytest
from axe_playwright_python.sync_playwright import Axe
from conftest import ROOT, Lab
from lesson_page import pause
from playwright.sync_api import Page
from visits import VISITS

NOTEBOOKS = ROOT / "notebooks"
PAGES = {path.relative_to(NOTEBOOKS).as_posix() for path in NOTEBOOKS.rglob("*.ipynb")}
LESSONS = {visit.notebook for visit in VISITS}  # test_all_lessons looks at these
OURS = {"include": [[".kit-view"], [".jp-RenderedMarkdown"]]}  # JupyterLab's own: not ours
GRAVE = ("serious", "critical")


def grave(page: Page, context: object = None) -> list[str]:
    """Give what axe-core finds serious or critical, a line each."""
    found = Axe().run(page, context=context).response["violations"]
    return [
        f"{one['id']}: {node['html'][:160]}"
        for one in found
        if one["impact"] in GRAVE
        for node in one["nodes"]
    ]


def test_the_finder_finds(lab: Lab):
    page = lab.page
    page.set_content('<html lang="en"><body><main class="kit-view"><img src="x"></main>')
    assert grave(page, OURS), "a picture without words must be found"


def barriers(page: Page) -> list[str]:
    """Give what is grave on a page, indoors and in the sun, in small and in big type."""
    found = grave(page, OURS)
    sun = page.locator(".kit-bar label", has_text="sunlight")
    big = page.locator(".kit-bar label", has_text="big")
    if sun.count():
        sun.first.click()
        big.first.click()
        pause(page)
        found += grave(page, OURS)
    return found


@pytest.mark.parametrize("notebook", sorted(PAGES - LESSONS))
def test_no_grave_barrier(lab: Lab, notebook: str):
    lab.open(notebook)
    page = lab.start()
    assert barriers(page) == []
