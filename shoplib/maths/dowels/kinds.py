"""A length that comes as a float in mm, or as a Quantity."""

from shoplib import measure


def in_mm(value):
    """A length as a float, whether it came as a float in mm or as a Quantity."""
    return value.m_as("mm") if hasattr(value, "m_as") else value


def like(value, mm):
    """So many mm, as a Quantity where `value` is one."""
    return measure.quantity(mm, "mm") if hasattr(value, "m_as") else mm
