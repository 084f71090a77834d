"""The commands: `python -m kit render`, `plan`, `paper`, `measure`, and so on.

Each command does what the notebooks do, through the same functions. It lives in the
module of its name, which is fetched only when it is asked for: `add` declares its options,
`idle` names those that change nothing as the others stand, and why, `run` does it.
"""

COMMANDS = {
    "render": "draw a forged bar: as a solid, its face, its end, or a cut at any angle",
    "plan": "plan a billet backwards through every loss: what to saw, what it weighs",
    "bought": "how thick to buy a bar for a blade, and what is left of its pattern",
    "paper": "print handouts, cards and templates at true size, as PDF",
    "measure": "count bands and spacings on a photograph of a face",
    "mark": "mark a folder of homework; answer keys and papers for a roster",
    "film": "make a looped film: step by step, or ground deeper and deeper",
    "claims": "list what the kit takes for true, how each thing is known, and count",
    "pages": "make each lesson one page for any telephone, without Python or a network",
    "show": "make one page for a tablet on a show table: guess, grind, see why",
}
