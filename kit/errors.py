"""The one error a user can meet: a plain sentence about an impossible wish."""


class KitError(ValueError):
    """Something that cannot be forged, cut or read.

    The text is one plain sentence (or two): what was wrong, what was given,
    what is allowed. Views show it in their status line and keep the old picture, a
    notebook's cell shows it alone; every other exception is a fault of the kit and is
    left to be seen.
    """

    def _render_traceback_(self) -> list[str]:
        """Show the sentence alone in a notebook: IPython asks for this by that name."""
        return [str(self)]
