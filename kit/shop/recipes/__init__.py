"""Recipes: a forging written down, to keep, to print and to hand on."""
