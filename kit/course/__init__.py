"""The lessons, what they ask, the question cards, and the widgets that show them."""
