"""Every sentence of the show page and a telephone's, taken from the code that says it."""

import ast
import re
from html.parser import HTMLParser
from pathlib import Path

from kit.classroom import phone
from kit.classroom.show import page

SHOW, PHONE = page.HERE, Path(phone.__file__).parent
SAYS = {
    "voice": 0,
    "self": 0,
    "phrase": 0,
    "taken_off": 1,
}  # which argument is the sentence
JS_SAYS = re.compile(r'say\(\s*"((?:[^"\\]|\\.)*)"')


class Marked(HTMLParser):
    """Collects what the template marks for translation."""

    def __init__(self) -> None:
        super().__init__()
        self.found, self.open = [], False

    def handle_starttag(self, _tag: str, attrs: list) -> None:
        """Note a label; an element whose words are said is open until its end."""
        names = dict(attrs)
        self.open = "data-say" in names
        if "data-label" in names:
            self.found.append(names["aria-label"])

    def handle_data(self, words: str) -> None:
        """Note the words of an element that is marked."""
        if self.open:
            self.found.append(words)
            self.open = False


def from_python() -> set[str]:
    found = set()
    for file in SHOW.glob("*.py"):
        for node in ast.walk(ast.parse(file.read_text("utf-8"))):
            if isinstance(node, ast.Call) and isinstance(node.func, ast.Name):
                at = SAYS.get(node.func.id)
                if at is not None and isinstance(node.args[at], ast.Constant):
                    found.add(node.args[at].value)
    return found


def from_scripts() -> set[str]:
    files = (*page.SCRIPTS, PHONE / "phone.js")
    return {found for file in files for found in JS_SAYS.findall(file.read_text("utf-8"))}


def from_phone_page() -> set[str]:
    return set(JS_SAYS.findall((PHONE / "page.html.jinja").read_text("utf-8")))


def from_template() -> set[str]:
    marked = Marked()
    marked.feed((SHOW / "show.html.jinja").read_text("utf-8"))
    return set(marked.found)


def sentences() -> set[str]:
    return from_python() | from_scripts() | from_template() | from_phone_page()
