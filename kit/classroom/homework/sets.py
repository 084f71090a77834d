"""The five sets of homework."""

from kit.basics.errors import KitError
from kit.classroom.homework.h1 import H1
from kit.classroom.homework.h2 import H2
from kit.classroom.homework.h3 import H3
from kit.classroom.homework.h4 import H4
from kit.classroom.homework.h5 import H5
from kit.classroom.homework.paper import Homework

SETS: dict[str, Homework] = {one.code: one for one in (H1, H2, H3, H4, H5)}


def homework(code: object) -> Homework:
    """Give a set by its code, such as "H1"; `KitError` if there is none."""
    if not isinstance(code, str) or code not in SETS:
        msg = f"There is no set {str(code)[:20]!r}. There are: {', '.join(SETS)}."
        raise KitError(msg)
    return SETS[code]
