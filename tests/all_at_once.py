"""One test over many small cases: each told apart when it fails, none run by itself."""

from collections.abc import Callable, Iterable
from functools import partial

import pytest


def _failure(test: Callable, case: tuple) -> str:
    try:
        test(*case)
    except pytest.skip.Exception:
        return ""
    except (Exception, pytest.fail.Exception) as error:  # noqa: BLE001  (all are told)
        return f"{case}: {type(error).__name__} {error}"
    return ""


def for_all(cases: Iterable[tuple]) -> Callable[[Callable], Callable]:
    """Try a test with every case; fail once, with all that failed."""
    cases = list(cases)
    assert cases

    def made(test: Callable) -> Callable:
        def law():
            failed = [*filter(None, map(partial(_failure, test), cases))]
            assert not failed, "\n".join(failed)

        law.__name__, law.__doc__, law.__module__ = (
            test.__name__,
            test.__doc__,
            test.__module__,
        )
        return law

    return made
