"""The one error a user can meet: a plain sentence about an impossible wish."""

MOST_LETTERS = 600  # of a sentence; of a longer one its middle is left out
END = 200  # of its letters, what is allowed, are kept


class KitError(ValueError):
    """Something that cannot be forged, cut or read.

    The text is one plain sentence (or two): what was wrong, what was given,
    what is allowed. Views show it in their status line and keep the old picture, a
    notebook's cell shows it alone; every other exception is a fault of the kit and is
    left to be seen.
    """

    def __init__(self, words: str = "") -> None:
        # a stranger's name of a file may have lines, and a line that was typed no end
        plain = words
        if not words.isprintable():
            plain = "".join(sign if sign.isprintable() else "?" for sign in words)
        if len(plain) > MOST_LETTERS:
            plain = f"{plain[: MOST_LETTERS - END]} … {plain[-END:]}"
        super().__init__(plain)

    def _render_traceback_(self) -> list[str]:
        """Show the sentence alone in a notebook: IPython asks for this by that name."""
        return [str(self)]
