"""What a docstring must tell: more than the name does, and in which unit."""

import ast
import re
from functools import cache
from pathlib import Path

ROOT = Path(__file__).parents[1]
FILES = sorted(ROOT.glob("kit/**/*.py"))
TOLD = (*FILES, *(ROOT / name for name in ("DEVELOPERS.md", "README.md")))
FILE = re.compile(
    r"`((?:[\w.]+/)*[\w.]+\.(?:py|js|css|json|txt|jinja))`|\b(kit/[\w/]+\.\w+)"
)
PLACE = re.compile(r"\bkit((?:\.[a-zA-Z_]\w*)+)")
FUNCTIONS = (ast.FunctionDef, ast.AsyncFunctionDef)
# Words that add nothing to a name.
IDLE = frozenset(
    re.findall(
        r"\w+",
        """a all an and any are as asked at be build by can create declared do each every
        find for from get give given has have here how in into is it its list make may must
        new of off on one only or out own put return say set so some such take tell that the
        their them there they this to up use used wanted what when where whether which with
        work""",
    )
)
ENDINGS = ("ingly", "edly", "ing", "ied", "ies", "ed", "es", "s", "ly", "er", "e", "y")
# Names of what has a unit, and how a unit is named.
MEASURED = re.compile(
    r"(across|angle|celsius|deep|degrees|depth|diameter|distance|heat|height|high|hours|"
    r"kerf|lean|length|long|minutes|offset|pixel|radius|seconds|spacing|temperature|"
    r"thick|thickness|turn|wide|width)s?|layer"
)
UNIT = re.compile(
    r"\bmm(?![a-z])|\bm²|µm|[°%]|degree|radian|minute|second|hour|inch|pixel|point|share|fraction|"
    r"per cent|0 … 1|0 to 1|own unit"
)


@cache
def public(path):
    """Give the public functions of a file, each with the class that it belongs to."""

    def within(body, owner):
        for node in body:
            if getattr(node, "name", "_").startswith("_"):
                continue
            if isinstance(node, ast.ClassDef):
                yield from within(node.body, node.name)
            elif isinstance(node, FUNCTIONS) and ast.get_docstring(node):
                yield owner, node

    return list(within(ast.parse(path.read_text("utf-8")).body, ""))


def stems(text):
    """Give the words of a text or of a name, without their endings."""
    apart = re.sub(r"(?<=[a-z])(?=[A-Z])|_", " ", text).lower()
    words = set(re.findall(r"[a-z]+", apart)) - IDLE
    ends = re.compile(rf"(?<=...)({'|'.join(ENDINGS)})$")
    return {ends.sub("", word) for word in words}


def restates(owner, function):
    """Tell whether a docstring says no more than the names do."""
    given = [one.arg for one in (*function.args.args, *function.args.kwonlyargs)]
    names = " ".join((function.name, owner, *given))
    return stems(ast.get_docstring(function)) <= stems(names)


def unmeasured(function):
    """Give the measures that a function takes, or gives, if its docstring has no unit."""
    if UNIT.search(ast.get_docstring(function)):
        return []
    numbers = [
        *((one.arg, one.annotation) for one in function.args.args),
        *((one.arg, one.annotation) for one in function.args.kwonlyargs),
        (function.name, function.returns),
    ]
    return [
        name
        for name, kind in numbers
        if kind and "float" in ast.unparse(kind) and MEASURED.fullmatch(name)
    ]


def is_there(place):
    """Tell whether a module is there, and the name in it that is told of."""
    parts = place.strip(".").split(".")
    for size in range(len(parts), -1, -1):
        base = ROOT.joinpath("kit", *parts[:size])
        for source in (base.with_suffix(".py"), base / "__init__.py"):
            if source.is_file():
                named = parts[size] if size < len(parts) else ""
                return named.startswith("__") or named in source.read_text("utf-8")
    return False


@cache
def all_files():
    rooms = ("kit", "tests", "binder", ".ci")
    return [
        f"/{one.relative_to(ROOT)}" for room in rooms for one in (ROOT / room).rglob("*")
    ]


def lost(path):
    """Give the files and names that a text tells of and that are not there."""
    text = path.read_text("utf-8")
    if path.suffix == ".md":  # what a recipe writes is not there yet
        text = re.sub(r"```.*?```", "", text, flags=re.DOTALL)
    files = all_files()
    names = [one or other for one, other in FILE.findall(text)]
    gone = [name for name in names if not any(one.endswith(f"/{name}") for one in files)]
    gone += [f"kit{place}" for place in PLACE.findall(text) if not is_there(place)]
    return gone


def test_what_is_told_of_is_there():
    assert {path.name: gone for path in TOLD if (gone := lost(path))} == {}


def test_no_docstring_only_restates_the_name():
    said = [
        f"{path.name}: {one.name}"
        for path in FILES
        for owner, one in public(path)
        if restates(owner, one)
    ]
    assert said == [], "say what the name does not, or leave it out with the function"


def test_who_takes_or_gives_a_measure_says_its_unit():
    bare = {
        f"{path.name}: {one.name}": found
        for path in FILES
        for _, one in public(path)
        if (found := unmeasured(one))
    }
    assert bare == {}, "mm, degrees, °C, minutes …"


def test_these_laws_see_what_they_should(tmp_path):
    path = tmp_path / "sample.py"
    path.write_text(
        'def bar_width(bar) -> float:\n    """Give the widths of a bar."""\n'
        'def taper(length: float) -> float:\n    """Give what is left at the tip, mm."""\n'
        'class Bar:\n    def turned(self, angle: float):\n        """Lay it over."""\n',
        "utf-8",
    )
    found = public(path)
    assert [restates(owner, one) for owner, one in found] == [True, False, False]
    assert [unmeasured(one) for _, one in found] == [[], [], ["angle"]]
