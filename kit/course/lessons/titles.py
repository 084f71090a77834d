"""What each lesson is called."""

TITLES = {
    "01": "Where the cut meets the layers",
    "02": "Folding multiplies",
    "03": "Steel is moved, not made",
    "04": "Stripes outside, stars inside",
    "05": "The pattern is a contour map",
    "06": "The blade is one long shallow cut",
    "07": "A core, a line, and how far off you may be",
    "08": "Carbon walks, nickel stands still",
    "09": "The etch develops it, the eye limits it",
    "10": "From the rack to the bar",
    "11": "Read it backwards, then make it to order",
}
