"""What each lesson draws, counts, asks and answers. No widgets in here.

One module a lesson; `scene.py` and `drawing.py` are what they share.
"""
