"""`python -m kit` opens the lessons in the browser."""

import argparse
import sys
from importlib import import_module
from pathlib import Path
from typing import NoReturn

from kit.basics.errors import KitError
from kit.basics.terminal import plainly
from kit.launch import DEFAULT_PORT, open_lessons
from kit.launch.command import COMMANDS


class OneSentence(argparse.ArgumentParser):
    """A parser that answers a mistyped option with one sentence."""

    def error(self, message: str) -> NoReturn:
        """Turn argparse's usage block and code 2 into the kit's one kind of error."""
        told = message[0].upper() + message[1:]
        msg = f"{told}. See what is allowed: {self.prog} --help"
        raise KitError(msg)


def _parser() -> OneSentence:
    parser = OneSentence(
        prog="python -m kit",
        allow_abbrev=False,
        description="Open the lessons about pattern-welded steel in your browser. "
        "Everything runs on this computer; nothing is sent anywhere.",
        epilog="To stop: press Ctrl and C together in this window. Other commands: "
        + "; ".join(f"{name}: {words}" for name, words in COMMANDS.items())
        + ". Each has its own --help.",
    )
    parser.add_argument(
        "--lesson",
        metavar="02",
        help="the lesson to open first, by its number or name (otherwise: the start)",
    )
    parser.add_argument(
        "--no-browser",
        action="store_true",
        help="do not open a browser; print the address to open instead",
    )
    parser.add_argument(
        "--port",
        metavar="N",
        help="the number at the end of the address, 1024 to 65535 "
        f"(otherwise: {DEFAULT_PORT}, or the next free one)",
    )
    parser.add_argument(
        "--folder",
        metavar="DIR",
        type=Path,
        help="open another folder of notebooks; they are treated as a stranger's, "
        "so Start asks before it runs anything",
    )
    parser.add_argument(
        "--edit",
        action="store_true",
        help="open the lessons' own files and keep what is changed (for those who "
        "build on the kit); otherwise every launch begins with a fresh copy",
    )
    return parser


def _command(name: str, arguments: list[str]) -> int:
    """Do one thing and stop."""
    command = import_module(f"kit.launch.command.{name}")
    parser = OneSentence(
        prog=f"python -m kit {name}", allow_abbrev=False, description=COMMANDS[name]
    )
    command.add(parser)
    options = parser.parse_args(arguments)
    for option, why in command.idle(options).items():
        if getattr(options, option) != parser.get_default(option):
            msg = f"--{option.replace('_', '-')} changes nothing here: {why}"
            raise KitError(msg)
    sys.stdout.write(command.run(options) + "\n")
    return 0


def main(arguments: list[str] | None = None) -> int:
    """
    Open the lessons and stay until the user stops them.

    Parameters
    ----------
    arguments : list of str, optional
        What was typed after ``python -m kit``; by default the real command line.

    Returns
    -------
    int
        0 if all went well, 1 after a mistake, which was told in one sentence.
    """
    typed = sys.argv[1:] if arguments is None else arguments
    plainly(sys.stdout)
    plainly(sys.stderr)
    try:
        if typed and typed[0] in COMMANDS:
            return _command(typed[0], typed[1:])
        options = _parser().parse_args(arguments)
        open_lessons(
            port=options.port,
            lesson=options.lesson,
            folder=options.folder,
            browser=not options.no_browser,
            edit=options.edit,
        )
    except KitError as mistake:
        sys.stderr.write(f"{mistake}\n")
        return 1
    except KeyboardInterrupt:
        sys.stderr.write("Stopped before it was done.\n")
        return 1
    return 0


if __name__ == "__main__":
    sys.exit(main())
