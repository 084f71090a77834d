"""Measurements, printed as tables with ratios: `python -m tests.bench`. No test."""
