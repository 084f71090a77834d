"""From rack to bar and back: losses, cut list, clay twin."""
