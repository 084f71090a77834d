"""What a telephone's page says itself: in every language, in its place."""

import re
from html.parser import HTMLParser

import pytest
from PIL import ImageFont
from show_sentences import from_phone_page

from kit.basics.letters import BOLD
from kit.basics.told import kept
from kit.classroom.phone import page
from kit.classroom.phone.piece import CHECKS
from kit.classroom.show.piece import languages
from tests.test_phone import NARROW, one_page


class Spoken(HTMLParser):
    """Collects what is written on a page and its labels, each with its language."""

    def __init__(self):
        super().__init__()
        self.found, self.tags, self.within = [], [], []

    def handle_starttag(self, tag, attrs):
        """Go into an element, in its language or that around it."""
        names = dict(attrs)
        before = self.within[-1][1] if self.within else ""
        self.within.append((tag, names.get("lang", before)))
        self.handle_data(names.get("aria-label", ""))
        if tag in ("meta", "img", "input"):
            self.within.pop()

    def handle_endtag(self, tag):
        """Come out of it."""
        assert self.within.pop()[0] == tag

    def handle_data(self, words):
        """Note words with the language that they are said to be in."""
        tag, language = self.within[-1] if self.within else ("", "")
        self.found.append((words.strip(), language))
        self.tags.append(tag if words.strip() else "")


def test_a_page_has_no_words_of_its_own_that_no_language_could_say():
    text = (page.HERE / "page.html.jinja").read_text("utf-8")
    plain = re.sub(r"\{\{.*?\}\}|\{%.*?%\}", "", text)
    assert not re.findall(r'aria-label="[^"]*[a-z]', plain)
    assert not re.findall(r"[^\W\d_]{2,}", re.sub(r"<[^>]+>", "", plain))


@pytest.mark.parametrize("language", languages())
def test_a_page_speaks_the_tablets_languages_and_says_what_does_not(language):
    """The lesson stays English, and nothing is passed off as what it is not."""
    read = Spoken()
    read.feed(page.page(one_page()[0], language))
    words = languages()[language]["words"]
    own = {one: words.get(one, one).replace("{at}", "1") for one in from_phone_page()}
    stays = own.pop("Buttons and hints are translated; the lesson is in English.")
    assert len(own) > 15
    assert (stays in {said for said, _ in read.found}) == bool(words)
    for said in own.values():
        assert (kept(said), language) in read.found, said


@pytest.mark.parametrize("language", languages())
def test_the_steps_of_a_page_stand_in_one_line_of_a_small_telephone(language):
    """By the widths of the letters themselves, bold where one stands; see `phone.css`."""
    read = Spoken()
    read.feed(page.page(one_page()[0], language))
    steps = [words for words, tag in zip(read.found, read.tags, strict=True) if tag == "li"]
    letters = ImageFont.truetype(str(BOLD), 13)
    most = (NARROW - 4 * (len(steps) - 1)) / len(steps)
    assert len(steps) == 4 + CHECKS
    assert all(letters.getlength(words) <= most for words, _ in steps)
