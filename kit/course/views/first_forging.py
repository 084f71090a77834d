"""Start here's first forging: after every act the bench says what its page does next.

Whoever presses Start has the page's numbered steps above the screen: the sentence under
the picture, which screen readers read out, leads on. Who goes a way of their own is left
alone, and led on again after an undo.
"""

from kit.course.anvil.acts import name_of
from kit.course.anvil.desk import Desk
from kit.course.views.forge import Forge

STEPS = 4  # on the page; the bench numbers its own, so these are called by the page
PAGE = "Your first forging,"
FORGED = ("draw out", "fold", "draw out", "fold")  # thin and long it folds flat
UNEVEN = ("hammer unevenly", "draw out")
SHALLOW = 8.0  # degrees: from here on the cut shows the pattern well, ours
COUNT = "count the stripes on its end"
LAST = (
    "That is the pattern. Now go back to the stack above and make the second bar 1084 as "
    "well: what happens, and why?"
)

DONE = (
    "Your first forging is done: without a second steel there is no pattern to meet, but "
    "for faint weld lines, which are not drawn. Make the second bar what it was, and it is "
    "back."
)


def led(forge: Forge) -> Forge:
    """Have a forge lead through the first forging.

    Parameters
    ----------
    forge : Forge
        With the stack of the page on it, and nothing done yet.

    Returns
    -------
    Forge
        The same one.
    """

    def go_on() -> None:
        words = what_next(forge.desk)
        if words:
            forge.say(f"{forge.said} {words}")

    forge.followers.append(go_on)
    go_on()
    return forge


def what_next(desk: Desk) -> str:
    """Say what comes next; nothing if the forging is another, or its end is not shown."""
    acts = [name_of(act) for act in desk.history.acts]
    wanted = [*FORGED, *UNEVEN]
    alike = len(set(desk.history.source.steels)) == 1
    if alike and acts == wanted:
        return DONE
    if alike or acts != wanted[: len(acts)] or desk.at != len(acts):
        return ""
    if not acts:
        return f"{PAGE} 1 of {STEPS}: {COUNT}; then, at And then, choose {wanted[0]}."
    if len(acts) < len(wanted):
        step = 2 if len(acts) < len(FORGED) else 3
        return f"{PAGE} {step} of {STEPS}: at And then, choose {wanted[len(acts)]}."
    if desk.look.kind != "slant":
        return f"{PAGE} {STEPS} of {STEPS}: at Look at its, choose slant."
    steep = desk.look.angle > SHALLOW
    return f"{PAGE} {STEPS} of {STEPS}: pull the slider left to 6°." if steep else LAST
