"""One typeface everywhere, and a sign for everything that the kit says.

A sign is missing? Add it to RANGES, install Debian's `fonts-dejavu-extra`, and for each
file in `kit/basics/letters`:

    pyftsubset /usr/share/fonts/truetype/dejavu/$file
        --unicodes=$RANGES --layout-features=kern,mark,mkmk,ccmp --hinting
        --output-file=kit/basics/letters/$file
"""

import base64
import html
import io
import re

import pytest
from fontTools.ttLib import TTFont

from kit.basics.letters import BOLD, CODE, CODE_FAMILY, FAMILY, REGULAR
from kit.classroom.paper.page import FAMILIES, Page
from kit.classroom.show.page import letters_as_css
from kit.course.pages import PACKAGE
from kit.launch.house import PAGE
from kit.section.picture import _font

RANGES = (
    "U+0020-007E,U+00A0-017F,U+0192,U+0218-021B,U+02C6-02DD,U+0370-03FF,U+2010-2027,"
    "U+202F-205E,U+2070-209F,U+20AC,U+2103,U+2109,U+2116,U+2122,U+2126,U+2150-215F,"
    "U+2189-2199,U+21D0-21D5,U+2200-22FF,U+2580-25FF,U+2713-2718"
)
KINDS = (".py", ".txt", ".js", ".css", ".jinja", ".json")
FILES = [
    *(path for path in PACKAGE.rglob("*.*") if path.suffix in KINDS),
    *(PACKAGE.parent / "notebooks").rglob("*.ipynb"),
]
STRANGERS = {  # told apart when read, never said
    "files.py": set("＋－＝＠"),
    "typed.py": {"⁄"},
    "terminal.py": {"⁄"},
}
ESCAPED = re.compile(r"\\(?:u([0-9a-fA-F]{4})|x([0-9a-fA-F]{2}))")
STYLES = (
    "course/views/look.css",
    "classroom/show/show.css",
    "classroom/phone/phone.css",
    "classroom/show/check.html.jinja",
)


def said(path):
    """Give every sign in a file beyond a typewriter's, however it is written there."""
    text = ESCAPED.sub(
        lambda found: chr(int(found[1] or found[2], 16)), path.read_text("utf-8")
    )
    signs = {sign for sign in html.unescape(text) if sign.isprintable() and sign > "~"}
    return signs - STRANGERS.get(path.name, set())


def lacking(font):
    """Give the signs of all files that a font has no glyph for, by file."""
    known = set(map(chr, font.getBestCmap()))
    left = {path.name: sorted(said(path) - known) for path in FILES}
    return {name: signs for name, signs in left.items() if signs}


@pytest.mark.parametrize("file", [REGULAR, BOLD, CODE], ids=["regular", "bold", "code"])
def test_every_sign_that_the_kit_says_has_a_glyph(file):
    font = TTFont(file)
    assert lacking(font) == {}
    for table in font["cmap"].tables:
        table.cmap.pop(ord("→"), None)
    assert lacking(font)  # one taken away is missed


def test_pages_pictures_tablet_and_print_have_one_typeface():
    assert _font(20).path == str(REGULAR)
    paper = Page(title="A sheet")
    assert FAMILIES[0] == FAMILY
    assert {text.get_fontfamily()[0] for text in paper.axes.texts} == {FAMILY}
    page = (PAGE / "steel-lessons/static/page.css").read_text("utf-8")
    assert f'font-family: "{FAMILY}", ' in page
    for file in (REGULAR, BOLD, CODE):
        assert f'url("letters/{file.name}")' in page
    assert f'--jp-code-font-family: "{CODE_FAMILY}", ' in page
    for name in STYLES:
        assert f'"{FAMILY}", ' in (PACKAGE / name).read_text("utf-8")


@pytest.mark.parametrize("path", [*PACKAGE.rglob("*.css"), *PACKAGE.rglob("*.jinja")])
def test_every_font_that_is_named_is_the_kit_s_own(path):
    """Or the page's, told in the one place; words and code were once the host's."""
    named = re.findall(r"font(?:-family)?: ([^;}]*)", path.read_text("utf-8"))
    for font in named:
        first = re.sub(r"\([^()]*,[^()]*\)", "", font).split(",")[0].strip()
        own = (f'"{FAMILY}"', f'"{CODE_FAMILY}"', "inherit", "var(--jp-ui-font-family)")
        assert first.endswith(own), font


def test_the_tablet_carries_its_letters_and_their_capitals():
    css = letters_as_css("größer → ⅛")
    files = re.findall(r"base64,([^\"]+)", css)
    assert len(files) == 2
    for data in files:
        known = TTFont(io.BytesIO(base64.b64decode(data))).getBestCmap()
        assert {ord(sign) for sign in "GRÖẞßER→⅛ö"} - {0x1E9E} <= set(known)
    assert len(css) < 60_000
