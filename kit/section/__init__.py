"""The cut.

Planes, blocks and blades through a bar, and what every pixel of them shows
(sectioning).
"""
