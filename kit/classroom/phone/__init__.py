"""Each lesson as one page for a telephone, without Python and without a network."""
