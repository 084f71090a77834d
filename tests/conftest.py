"""A run of one tier reads no file of the other, and looks for rubbish where it may be."""

import gc
import re
from pathlib import Path

import pytest
from fontTools.subset import Options

import kit  # noqa: F401  (before any test reads numpy: it says how numpy is to compute)

WHOLE = re.compile(r"^pytestmark = \[?\s*pytest\.mark\.(gate|long)\b", re.MULTILINE)
NEWCOMER = "not gate and not long"
BROWSER = Path(__file__).parent / "browser"
LESSON = "test_lesson_02.py"  # gone through in a browser in a newcomer's tier


# matplotlib cuts the letters of every printed file down to those it needs. How letters are
# set beside each other is in no use there, and to cut that down too takes most of the time.
Options._drop_tables_default += ["GDEF", "GPOS", "GSUB", "MATH"]


class Tier:
    """Leaves unread what its marks would leave out: here, in `kit` and in `notebooks`."""

    def pytest_ignore_collect(self, collection_path: Path, config: pytest.Config) -> object:
        """Leave a file unread if the tier that was chosen has nothing of it."""
        if collection_path.name == "conftest.py":  # two of one name; neither has doctests
            return True
        named = (Path(one.partition("::")[0]).resolve() for one in config.args)
        tier = config.option.markexpr
        if tier not in ("gate", "long", NEWCOMER) or not collection_path.is_file():
            return None
        if collection_path in named or collection_path.suffix not in (".py", ".ipynb"):
            return None
        text = collection_path.read_text("utf-8")
        ours = collection_path.parent == BROWSER and collection_path.name != LESSON
        if tier == NEWCOMER:
            return ours or bool(WHOLE.search(text)) or None
        whole = WHOLE.search(text)
        part = f"mark.{tier}" in text or (tier == "gate" and ours)
        return (whole[1] != tier if whole else not part) or None


def pytest_configure(config: pytest.Config) -> None:
    """Leave rubbish lying while files are read: all that is made then stays."""
    config.pluginmanager.register(Tier())
    gc.disable()


def pytest_collection_finish() -> None:
    """Look for rubbish from now on, but no more among what was read."""
    gc.freeze()
    gc.enable()


@pytest.fixture
def drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """Draw no state of a lesson twice: for tests of what is done with pictures."""
    from tests.lessons import draw_once

    draw_once(monkeypatch)
