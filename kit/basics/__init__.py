"""What every room stands on.

Errors, declared numbers, units, files written whole, strangers' files read with bounds.
"""
