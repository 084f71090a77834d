"""The bar.

Steels, the stack, the forging steps, and the billet that remembers them (folding,
twisting).
"""
