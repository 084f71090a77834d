"""Looped films and posters of a forging, for a screen on the table and for the wall."""
