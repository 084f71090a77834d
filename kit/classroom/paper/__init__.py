"""Printed pages at true scale, as vector PDF: the only place that knows matplotlib."""
