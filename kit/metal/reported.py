"""What lessons, cards and pages tell of steel and its trade in words alone: no constant.

Declared once for all that tell it, in `reported.json`, and here each under its name. What
one card alone tells stands beside that card.
"""

from kit.basics.claim import beside

globals().update(beside(__file__))
