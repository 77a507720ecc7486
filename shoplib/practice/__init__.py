"""Practice questions of every topic, as data: a page asks them, paper prints them."""

import importlib
import pkgutil
from functools import cache, lru_cache

from shoplib.measure import MeasureError
from shoplib.model import Facts


@cache
def topics():
    """The names of all topics that have questions.

    >>> "circle_jigs" in topics(), "question" in topics()
    (True, False)
    """
    names = [each.name for each in pkgutil.iter_modules(__path__)]
    return tuple(name for name in names if hasattr(importlib.import_module(f"shoplib.practice.{name}"), "questions"))


def known_topic(name):
    """A topic's name; MeasureError for any other."""
    if name not in topics():
        listed = ", ".join(topics())
        raise MeasureError(f"There are no questions on {str(name)[:30]!r}. The topics are: {listed}.")
    return name


def questions(topic, student, unit="mm"):
    """A topic's questions with the sizes of one student, in "mm" or in "in".

    >>> print(questions("stave_rings", 1)[0].text)
    A ring lies flat and has 9 staves. How far from a square cut is the saw set?
    """
    return _asked(known_topic(topic), student, unit)


@lru_cache(maxsize=1024)
def _asked(topic, student, unit):
    return importlib.import_module(f"shoplib.practice.{topic}").questions(student, unit)


def answer_sheet(topic, students, unit="mm"):
    """The answers for the teacher: a row for each student, a column for each question.

    >>> answer_sheet("circle_jigs", [1, 2], "in")
    student  question 1  2         3         4         5        6
    1        5 7/8 in    5 in      5.859 in  0.242 in  0.91 in  4
    2        6 1/4 in    4 7/8 in  6.219 in  0.488 in  1.16 in  5
    """
    rows = [(student, *(each.tell(each.answer) for each in questions(topic, student, unit))) for student in students]
    count = max(map(len, rows), default=1)
    return Facts(rows, head=("student", "question 1", *map(str, range(2, count))))
