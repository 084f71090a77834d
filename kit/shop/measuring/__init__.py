"""Measure a face: bands and spacings on a photograph or a picture, with how sure it is."""
