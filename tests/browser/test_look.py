"""The look of the page, as far as numbers can judge it."""

import re

import pytest
from conftest import ROOT

PAGE = ROOT / "kit" / "launch" / "page"
COLOUR = r"--steel-([\w-]+): (#[0-9A-F]{6})"
CSS = (PAGE / "steel-lessons" / "static" / "page.css").read_text("utf-8")


def _luminance(colour: str) -> float:
    def linear(part: float) -> float:
        return part / 12.92 if part <= 0.04045 else ((part + 0.055) / 1.055) ** 2.4

    red, green, blue = (linear(int(colour[i : i + 2], 16) / 255) for i in (1, 3, 5))
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _contrast(one: str, other: str) -> float:
    dark, light = sorted((_luminance(one), _luminance(other)))
    return (light + 0.05) / (dark + 0.05)


@pytest.mark.parametrize("light", ["indoors", "sunlight"])
@pytest.mark.parametrize("ground", ["page", "tint"])
@pytest.mark.parametrize(
    ("colour", "least"), [("ink", 7), ("accent", 7), ("accent-dark", 7), ("soft", 4.5)]
)
def test_colours_can_be_read(light: str, ground: str, colour: str, least: float):
    indoors, sunlight = CSS.split(".jp-NotebookPanel.kit-sunlight-page {")
    colours = dict(re.findall(COLOUR, indoors))
    if light == "sunlight":
        colours |= dict(re.findall(COLOUR, sunlight.split("}")[0]))
        assert colours["page"] == "#FFFFFF"
    assert _contrast(colours[colour], colours[ground]) >= least


def test_what_scrolls_within_a_page_goes_by_the_screen_or_by_its_letters():
    found = [
        rule
        for file in (ROOT / "kit").rglob("*.css")
        for rule in re.findall(r"[^{}]+\{[^{}]*\}", file.read_text("utf-8"))
        if re.search(r"overflow(-y)?: (auto|scroll)", rule)
        and re.search(r"[; {](max-)?height: \d+px", rule)
    ]
    assert found == []


def test_nothing_is_fetched_from_elsewhere():
    for file in PAGE.rglob("*.*"):
        text = file.read_text("utf-8")
        assert "http" not in text
        assert set(re.findall(r"url\(\W?(\w*)", text)) <= {"letters"}
