"""Handouts: a page for each student and topic, for those without a screen, and the key in a file of its own.

A page has the student's own questions, the lesson's drawing without its sizes, and room for working and answer. It is
put together as data in mm (a Plate) before it is drawn; the drawing is laid out once and kept once in the file.
"""

import datetime
from typing import NamedTuple

from shoplib import drawing
from shoplib.drawing.layout import lay_out
from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.drawing.timber import draw_boards
from shoplib.drawing.unsized import unsized
from shoplib.measure import MeasureError
from shoplib.paper.document import Entry, Form, Page, save_pdf
from shoplib.paper.files import Printout, named, paper_size
from shoplib.paper.imprint import UNITS, Imprint, mark
from shoplib.paper.key import key_pages
from shoplib.paper.part import Part
from shoplib.paper.words import LEADING, fitted, tied, wrapped
from shoplib.practice import known_topic, questions
from shoplib.practice.pictured import pictured

MARGIN, TEXT, SMALL, LABEL = 12.0, 3.3, 2.8, 2.5  # mm
NUMBER = 9.0  # mm, the student's number, read from where the teacher stands
DRAWN = 2.4  # mm, texts of the drawing
HEAD, CAPTION, GAP = 17.0, 6.0, 3.0
WORKING = 15.0  # mm high, the least room for working that a drawing is made smaller for
HIGHEST, LOWEST = 72.0, 42.0  # mm, the drawing
ANSWER = (64.0, 9.0)  # mm, the box for the answer
MOST_STUDENTS, LONGEST_NAME = 99, 60
PX = 960.0  # px across, a plate whose widths are those of the screen


class Handouts(NamedTuple):
    """The paths of saved handouts and of their key."""

    pages: Printout
    key: Printout

    def __repr__(self):
        return f"{self.pages!r}\n{self.key!r}"

    def _repr_html_(self):
        return self.pages._repr_html_() + self.key._repr_html_()


def save_handouts(
    topics, students, unit="mm", paper="A4", folder=None, date=None, progress=None, class_name="",
):  # fmt: skip
    """Write a page for each student and topic as one PDF, and the key for the teacher as another; returns both paths.

    `topics` are names such as "circle_jigs", `students` whole numbers from 1 to 99; neighbours get different sizes.
    `unit` is mm or in, `paper` A4 or Letter; by default all goes into the folder `printouts`. `progress(share)` is
    called after each page, `class_name` stands in each heading. Raises MeasureError (a ValueError) for another topic,
    student or unit, ValueError for another paper, and PrintoutError (an OSError) where nothing can be written.
    """
    paper_size(paper)
    topics, students = _each_once(topics, known_topic), _each_once(students, _number)
    imprint = _imprint(topics, students, unit, date, class_name)
    name = [imprint.part[:40].lower(), "handouts", imprint.mark, unit]
    done = _Progress(progress, len(topics) * (len(students) + 1))
    pages, outline = [], []
    for topic in topics:
        found = _of_topic(topic, students, unit, paper, imprint, done)
        pages += found
        under = tuple(Entry(f"Student {student}", page) for student, page in zip(students, found))
        outline.append(Entry(titled(topic), found[0], under))
    key, entries = key_pages(topics, students, unit, paper, imprint, done.step)
    title = imprint.title("Handouts")
    return Handouts(
        save_pdf(named([*name, f"{paper}.pdf"], folder), pages, title, outline),
        save_pdf(named([*name, f"key_{paper}.pdf"], folder), key, f"{title}: key for the teacher", entries),
    )


def titled(topic):
    """A topic's name as a heading.

    >>> titled("circle_jigs")
    'Circle jigs'
    """
    words = topic.replace("_", " ")
    return words[:1].upper() + words[1:]


def _each_once(given, read):
    """All that is given, each once, in its order; a single one may stand alone."""
    found = list(dict.fromkeys(map(read, [given] if isinstance(given, (str, int)) else given)))
    if not found:
        raise MeasureError("Handouts need at least one topic and one student.")
    return found


def _number(student):
    if isinstance(student, bool) or not isinstance(student, int) or not 1 <= student <= MOST_STUDENTS:
        raise MeasureError(f"A student number is a whole number from 1 to {MOST_STUDENTS}, not {str(student)[:20]!r}.")
    return student


def _imprint(topics, students, unit, date, class_name):
    """What all pages say of themselves; the mark stands for topics, students and unit."""
    if unit not in UNITS:
        raise MeasureError(f"Handouts come in mm or in in, not in {str(unit)[:20]!r}.")
    told = "".join(letter if letter.isprintable() else " " for letter in str(class_name))
    told = " ".join(told.split())[:LONGEST_NAME]
    letters = mark("handouts", unit, *topics, *map(str, students))
    return Imprint((), letters, unit, date or datetime.date.today(), told)


class _Progress:
    """Tells how far it is: a step for each page, and one for each topic of the key."""

    def __init__(self, tell, steps):
        self.tell, self.steps, self.made = tell, steps, 0

    def step(self):
        self.made += 1
        if self.tell:
            self.tell(self.made / self.steps)


def _of_topic(topic, students, unit, paper, imprint, done):
    """The pages of one topic, with its drawing kept once."""
    asked = {student: questions(topic, student, unit) for student in students}
    down = picture_height(asked.values(), paper)
    form, pages = picture(topic, paper_size(paper)[0] - 2 * MARGIN, down), []
    for student, numbered in asked.items():
        plate = compose(topic, student, numbered, paper, imprint, down)
        pages.append(Page(plate.width, plate.height, f"{titled(topic)}, {student}"))
        Part(plate, (0.0, 0.0, plate.width, plate.height)).draw(pages[-1])
        pages[-1].show(form, MARGIN, MARGIN + HEAD)
        done.step()
    return pages


# The drawing -------------------------------------------------------------------------------------------------


def picture(topic, across, down):
    """A topic's drawing without its sizes, as a Form of this size in mm."""
    plate = picture_plate(topic, across, down)
    form = Form(across, down)
    scale = min(across / plate.width, down / plate.height)
    wide, high = scale * plate.width, scale * plate.height
    Part(plate, ((across - wide) / 2, (down - high) / 2, wide, high), pen=_pen(plate, scale)).draw(form)
    return form


def _pen(plate, scale):
    """A px of the screen on this plate, so that all lines are as wide on paper as on a card."""
    return 186.0 / PX / scale


def picture_plate(topic, across, down):
    """The same laid out: the views that the topic names, side by side."""
    shown, views = pictured(topic)
    if not views:
        return unsized(draw_boards(shown, width=PX, listed=False))
    sheet = drawing.draw(shown)
    sheet.views = [view for title in views for view in sheet.views if view.title.startswith(title)]
    shares = [_share(view) for view in sheet.views]
    for place, view in enumerate(sheet.views):
        view.cell = (sum(shares[:place]) / sum(shares), 0.0, shares[place] / sum(shares), 1.0)
    return unsized(lay_out(sheet, across, down, text=DRAWN))


def _share(view):
    """How wide a view is for its height; its texts need room on either side."""
    left, low, right, high = view.bounds()
    return min(2.0, max(0.7, (right - left) / (high - low)))


def picture_height(asked, paper):
    """How high the drawing may be, alike for all students of a topic: their questions need the rest."""
    across, high = paper_size(paper)
    room = high - 2 * MARGIN - HEAD - CAPTION
    needed = max(
        sum(_text_height(each, across - 2 * MARGIN) + WORKING + GAP for each in _numbered(numbered))
        for numbered in asked
    )
    return max(LOWEST, min(HIGHEST, room - needed))


# The page ----------------------------------------------------------------------------------------------------


def _numbered(numbered):
    return [tied(f"{number}. {each.text}") for number, each in enumerate(numbered, 1)]


def _text_height(text, across):
    return TEXT * LEADING * len(wrapped(text, TEXT, across)) + 1.0


def compose(topic, student, numbered, paper, imprint, down):
    """One page as a Plate: its head, room for the drawing, and each question with room for working and answer."""
    plate = Plate(*paper_size(paper), titled(topic), f"Questions on {topic.replace('_', ' ')} for student {student}.")
    right, across = plate.width - MARGIN, plate.width - 2 * MARGIN
    _head(plate, imprint, titled(topic), f"Student {student}")
    y = MARGIN + HEAD + down + 2.0
    told = (
        "The lesson's drawing. Its lines are for your sizes: write in what your questions give. "
        "More room for working is on the back."
    )
    plate.texts.append(Text(MARGIN, y, told, LABEL, "start"))
    y += CAPTION - 2.0
    texts = _numbered(numbered)
    heights = [_text_height(text, across) for text in texts]
    room = (plate.height - MARGIN - y - sum(heights)) / len(texts) - GAP
    for text, question in zip(texts, numbered):
        for line in wrapped(text, TEXT, across):
            plate.texts.append(Text(MARGIN, y + TEXT * LEADING / 2, line, TEXT, "start"))
            y += TEXT * LEADING
        y += 1.0
        _room(plate, (MARGIN, y, right, y + room), question)
        y += room + GAP
    return plate


def _head(plate, imprint, title, student):
    """Title and student number; unit, date and mark; a line for the name."""
    right = plate.width - MARGIN
    room = plate.width - 2 * MARGIN - text_width(student, NUMBER, bold=True) - 6
    title = imprint.title(title)
    plate.texts.append(Text(MARGIN, MARGIN + 3, title, fitted(title, 6.0, room, bold=True), "start", bold=True))
    plate.texts.append(Text(right, MARGIN + 3, student, NUMBER, "end", bold=True))
    told = f"Handout. {imprint.stamp()}"
    plate.texts.append(Text(MARGIN, MARGIN + 11, told, LABEL, "start"))
    start = MARGIN + max(text_width(told, LABEL) + 6, 0.55 * (right - MARGIN))
    plate.texts.append(Text(start, MARGIN + 11, "Name", SMALL, "start"))
    plate.lines.append(Line("grid", (start + text_width("Name", SMALL) + 1, MARGIN + 12.5), (right, MARGIN + 12.5)))


def _room(plate, box, question):
    """A frame to work in, with the box for the answer in its lower right corner."""
    left, top, right, bottom = box
    wide, high = ANSWER
    plate.shapes.append(Area("room", (rectangle(left, top, right, bottom),)))
    plate.shapes.append(Area("box", (rectangle(right - wide, bottom - high, right, bottom),)))
    plate.texts.append(Text(left + 1.5, top + 2.5, "Working", LABEL, "start"))
    told = f"Answer, {question.within()}"
    plate.texts.append(Text(right - wide + 1.5, bottom - high + 2.2, told, LABEL, "start"))
