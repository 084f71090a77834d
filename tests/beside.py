"""Words that stand beside the kit's modules, for the laws over all that is said."""

from pathlib import Path

import kit
from kit.course.worded import words_beside

ROOT = Path(kit.__path__[0])
FILES = sorted(path for path in ROOT.rglob("*.txt") if path.with_suffix(".py").exists())


def beside(module, *, unread=()):
    """Give each text beside a module, but under some keys, and what wrong reasons say."""
    if module.with_suffix(".txt") not in FILES:
        return
    for told in words_beside(str(module)).values():
        for key, text in told.items():
            wrong = text[2::2] if key == "reasons" and unread else ()
            texts = [text] if isinstance(text, str) else text
            if key not in unread:
                yield from (one for one in texts if one not in wrong)
