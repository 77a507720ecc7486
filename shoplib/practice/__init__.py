"""Practice questions of every topic, as data: a page asks them, paper prints them."""

import importlib


def questions(topic, student):
    """A topic's questions with the sizes of one student.

    >>> questions("circle_jigs", 1)[0].write(questions("circle_jigs", 1)[0].answer)
    '161.0 mm'
    """
    return importlib.import_module(f"shoplib.practice.{topic}").questions(student)
