"""The practice questions of every topic as tests look at them: what stands in a text, what a student types."""

import importlib
import pkgutil
import re
from functools import cache

import shoplib.practice
from shoplib import measure

TOPICS = [
    each.name for each in pkgutil.iter_modules(shoplib.practice.__path__)
    if hasattr(importlib.import_module(f"shoplib.practice.{each.name}"), "questions")
]  # fmt: skip
STUDENTS = range(1, 100)
UNITS = ("mm", "in")
KINDS = {"mm": "length", "in": "length", "deg": "angle", "kg": "mass", "lb": "mass", "%": "percent", "N": "force",
         "lbf": "force", "MPa": "stress", "psi": "stress", "m²": "surface", "ft²": "surface", "l": "volume",
         "fl oz": "volume"}  # fmt: skip

NUMBER = r"\d+ \d+/\d+|\d+/\d+|\d+(?:\.\d+)?"
MEASURE = re.compile(rf"({NUMBER}) ?({'|'.join(map(re.escape, KINDS))})(?![a-z])")


@cache
def asked(topic, student, unit="mm"):
    return shoplib.practice.questions(topic, student, unit)


def everyone(topic, students=STUDENTS):
    """All students' questions in both units."""
    return [(student, unit, asked(topic, student, unit)) for unit in UNITS for student in students]


@cache
def measures(text):
    """The measures in a text, in order: (kind, value in the kind's base unit)."""
    return [(KINDS[unit], measure.plain(KINDS[unit], f"{number} {unit}")) for number, unit in MEASURE.findall(text)]


def units_in(text):
    """The units that a text uses."""
    return {unit for _, unit in MEASURE.findall(text)}


@cache
def bare_numbers(text):
    """The numbers in a text that have no unit."""
    return [float(number) for number in re.findall(r"\d+(?:\.\d+)?", MEASURE.sub(" ", text))]


def typed(question, value, unit=None):
    """A value as a careful student types it."""
    if question.kind == "count":
        return str(value)
    if question.kind == "length":
        unit = unit or question.unit
        return measure.write(value, "length", unit, "0.01 mm" if unit == "mm" else "0.0001 in")
    unit = {"angle": "deg", "mass": "kg", "percent": "percent", "force": "N", "stress": "MPa",
            "volume": "l"}[question.kind]
    return measure.write(value, question.kind, unit, f"0.01 {unit}")
