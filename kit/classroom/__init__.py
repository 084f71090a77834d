"""Homework, paper, films and the show table: what a lesson becomes for a class."""

from importlib.metadata import PackageNotFoundError, version


def kit_version() -> str:
    """Give the version of the kit that is installed, for what it writes."""
    try:
        return version("pattern-welding-kit")
    except PackageNotFoundError:
        return "from a folder"
