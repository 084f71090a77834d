"""What the acid does: tones, bath, bite, and a bought bar etched again.

Here are the tones, which every picture needs; the rest is asked for by its own name.
"""

from kit.metal.etch.tone import ILLUSTRATIVE, reflectance, tone_of, tones

__all__ = ["ILLUSTRATIVE", "reflectance", "tone_of", "tones"]
