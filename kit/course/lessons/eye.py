"""What a good eye can split at arm's length, as the lessons use it."""

from kit.metal.eye import EYE_300

__all__ = ["EYE_300"]
