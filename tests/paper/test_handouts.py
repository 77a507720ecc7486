"""Handouts and their key: each student's own questions, a drawing that tells nothing, a key that is judged right."""

import datetime
import itertools
import re
import time
from functools import cache

import pypdfium2
import pytest
from asked import TOPICS, measures
from asked import asked as questions
from pages import NASTY
from paper.reading import page_size
from pypdf import PdfReader
from pypdf.generic import ContentStream

from shoplib import save_handouts
from shoplib.measure import MeasureError
from shoplib.paper import handouts, key
from shoplib.paper.boxes import holds, meet
from shoplib.paper.files import PAPERS, PrintoutError
from shoplib.paper.imprint import Imprint
from shoplib.paper.report import Report
from shoplib.practice import topics
from shoplib.practice.pictured import pictured

DAY = datetime.date(2031, 5, 7)
STUDENTS = tuple(range(1, 21))
PRINTED = [("mm", "A4"), ("in", "Letter")]
every_topic = pytest.mark.parametrize("topic", TOPICS)


def plain(text):
    return " ".join(text.split())


def texts_of(path):
    """The words of each page, as PDFium reads them."""
    with pypdfium2.PdfDocument(path) as document:
        return [plain(page.get_textpage().get_text_range()) for page in document]


@pytest.fixture(scope="module", params=PRINTED, ids=" ".join)
def printed(request, tmp_path_factory):
    """A class's handouts of all topics as printed, their texts, unit, paper and the seconds of processor they took."""
    unit, paper = request.param
    folder, shares, start = tmp_path_factory.mktemp("class"), [], time.process_time()
    saved = save_handouts(TOPICS, STUDENTS, unit, paper, folder, DAY, shares.append, "Class 9")
    spent = time.process_time() - start
    texts = texts_of(saved.pages)
    return saved, texts, unit, paper, spent, shares


def test_a_page_for_each_student_and_topic_with_his_questions(printed):
    saved, texts, unit, paper, _, _ = printed
    pages = PdfReader(saved.pages).pages
    assert len(texts) == len(TOPICS) * len(STUDENTS)
    for (topic, student), text, page in zip(itertools.product(TOPICS, STUDENTS), texts, pages):
        assert f"Class 9: {topic.replace('_', ' ')}" in text and f"Student {student} " in text + " "
        for number, question in enumerate(questions(topic, student, unit), 1):
            assert f"{number}. {plain(question.text)}" in text and f"Answer, {question.within()}" in text
        assert page_size(page) == pytest.approx(PAPERS[paper], abs=1e-3)


def test_pages_say_unit_date_and_mark_and_files_are_named_by_it(printed):
    saved, texts, unit, paper, _, _ = printed
    letters = re.search(r"Mark ([A-Z]{6})", texts[0])[1]
    told = {"mm": "Lengths in millimetres.", "in": "Lengths in inches."}[unit]
    assert all(f"{told} Printed on 7 May 2031. Mark {letters}." in text for text in texts)
    assert saved.pages.name == f"class-9_handouts_{letters}_{unit}_{paper}.pdf"
    assert saved.key.name == f"class-9_handouts_{letters}_{unit}_key_{paper}.pdf"
    assert repr(saved).count("Saved as ") == 2 and saved._repr_html_().count("✓ Saved as") == 2


def test_thirteen_topics_for_twenty_students_take_less_than_half_a_minute(printed):
    """On the processor, for a machine that is shared; and no more of the disk than some ten photographs' worth."""
    saved, _, _, _, spent, shares = printed
    assert spent < 30
    assert saved.pages.stat().st_size < 2e6 and saved.key.stat().st_size < 2e6
    assert shares == sorted(set(shares)) and shares[-1] == 1 and len(shares) >= len(TOPICS) * len(STUDENTS)


def test_no_two_neighbours_are_alike(printed):
    """Neither their pages nor, but for one answer (two where things are counted), their answers."""
    _, texts, unit, _, _, _ = printed
    for topic, at in zip(TOPICS, range(0, len(texts), len(STUDENTS))):
        mine = texts[at : at + len(STUDENTS)]
        for student, one, other in zip(STUDENTS, mine, mine[1:]):
            assert one.partition("1. ")[2] != other.partition("1. ")[2]
            pairs = zip(questions(topic, student, unit), questions(topic, student + 1, unit))
            assert sum(one.judge(other.write(other.answer))[0] for one, other in pairs) <= 2, (topic, student)


def test_no_page_tells_an_answer_or_a_reason(printed):
    """What is neither question nor tolerance is the same for all, and has no size in it."""
    _, texts, unit, _, _, _ = printed
    for (topic, student), text in zip(itertools.product(TOPICS, STUDENTS), texts):
        for number, question in enumerate(questions(topic, student, unit), 1):
            assert question.why not in text
            text = text.replace(f"{number}. {plain(question.text)}", "").replace(f"Answer, {question.within()}", "")
        assert measures(text) == [], (topic, student)


# The key ----------------------------------------------------------------------------------------------------


class Remembered:
    """Takes what is written on a key."""

    def __init__(self):
        self.tables, self.sentences = [], []

    def explained(self, words, head, rows, sentences):
        self.table(words, head, rows)
        self.sentences += sentences

    def table(self, words, head, rows):
        self.tables.append((words, head, rows))

    def told(self, sentence):
        self.sentences.append(sentence)


@cache
def written(topic, unit):
    kept = Remembered()
    key.write_key(kept, {student: questions(topic, student, unit) for student in STUDENTS})
    return kept


@every_topic
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_each_answer_of_the_key_is_judged_right_by_its_question(topic, unit):
    _, head, (within, *rows) = written(topic, unit).tables[0]
    assert [row[0] for row in rows] == [str(student) for student in STUDENTS]
    for student, row in zip(STUDENTS, rows):
        asked = questions(topic, student, unit)
        assert head == ("student", *map(str, range(1, len(asked) + 1)))
        for question, answer, tolerance in zip(asked, row[1:], within[1:]):
            assert question.judge(answer.partition(" (")[0])[0], (student, question.text, answer)
            assert tolerance == question.within()


@every_topic
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_each_slip_of_the_key_is_told_its_sentence_by_its_question(topic, unit):
    kept = written(topic, unit)
    sentences = iter(kept.sentences[1:])
    for place, (_, head, rows) in enumerate(kept.tables[1:]):
        assert next(sentences) == f"Right: {questions(topic, STUDENTS[0], unit)[place].why}"
        letters = dict(next(sentences).split(": ", 1) for _ in head[2:])
        assert tuple(letters) == head[2:]
        for student, row in zip(STUDENTS, rows):
            question = questions(topic, student, unit)[place]
            assert question.judge(row[1])[0]
            told = [said for value, said in zip(row[2:], letters.values()) if value != key.UNTOLD]
            assert told == [said for said in letters.values() if said in dict((s, v) for v, s in question.told_slips())]
            for value, said in zip(row[2:], letters.values()):
                assert value == key.UNTOLD or question.judge(value) == (False, f"Not yet. {said}"), (student, value)


def test_an_answer_that_is_wrong_would_be_seen():
    first, other = questions("circle_jigs", 1)[0], questions("circle_jigs", 2)[0]
    assert not first.judge(other.write(other.answer))[0]


def test_printed_key_has_every_answer_of_every_student(printed):
    saved, _, unit, _, _, _ = printed
    reader = PdfReader(saved.key)
    texts = texts_of(saved.key)
    starts = [reader.get_destination_page_number(entry) for entry in reader.outline]
    assert len(starts) == len(TOPICS)
    for topic, start, end in zip(TOPICS, starts, [*starts[1:], len(texts)]):
        text = " ".join(texts[start:end])
        assert f"Class 9: key: {topic.replace('_', ' ')}" in text
        for student in STUDENTS:
            told = " ".join(each.tell(each.answer) for each in questions(topic, student, unit))
            assert f"{student} {told}" in text
        for question in questions(topic, 1, unit):
            told = {word for _, said in question.told_slips() for word in said.split()}
            assert told <= set(text.split())


def test_nothing_of_the_key_leaves_its_page_and_each_question_stands_whole_on_one(printed):
    saved, _, unit, paper, _, _ = printed
    width, height = PAPERS[paper]
    with pypdfium2.PdfDocument(saved.key) as document:
        for page in document:
            words = page.get_textpage()
            for place in range(words.count_rects()):
                left, bottom, right, top = (each * 25.4 / 72 for each in words.get_rect(place))
                assert left > 10 and right < width - 10 and bottom > 5 and top < height - 10
    asked = [(topic, number) for topic in TOPICS for number in range(1, len(questions(topic, 1, unit)) + 1)]
    found = [part for text in texts_of(saved.key) for part in re.split(r"(?<!\w)Question (?=\d student)", text)[1:]]
    assert len(found) == len(asked)
    for (topic, number), part in zip(asked, found):
        numbered = [questions(topic, student, unit)[number - 1] for student in STUDENTS]
        told = {plain(said) for question in numbered for _, said in question.told_slips()}
        assert part.startswith(f"{number} student answer a") and all(said in part for said in told), (topic, number)
        assert f"{STUDENTS[-1]} {numbered[-1].write(numbered[-1].answer)}" in part


@pytest.mark.parametrize("topic", ["coping", "timber"])
def test_no_words_of_the_key_meet_where_fractions_are_long(topic):
    report = Report(Imprint((), "BCDFGH", "in", DAY, "Class 9"), "Letter")
    report.begin("Key")
    key.write_key(report, {student: questions(topic, student, "in") for student in STUDENTS[:10]})
    for plate, *_ in report.pages:
        boxes = [text.box() for text in plate.texts]
        assert not any(meet(one, other) for one, other in itertools.combinations(boxes, 2))


def test_tolerances_that_differ_stand_beside_their_answers():
    asked = {student: questions("circle_jigs", student)[:1] for student in (1, 2)}
    asked[2] = (type(asked[2][0])(**{**vars(asked[2][0]), "tolerance": 0.1}),)
    _, (within, first, second) = key.answers(asked)
    assert within == ("", "") and first[1].endswith(", within 0.3 mm") and second[1].endswith(", within 0.1 mm")


# The page ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("unit", ["mm", "in"])
@every_topic
def test_nothing_on_a_page_meets_anything_else_and_there_is_room_to_work(topic, unit, paper):
    imprint = Imprint((), "BCDFGH", unit, DAY, "Class 9")
    asked = {student: questions(topic, student, unit) for student in (1, 2, 20, 99)}
    down = handouts.picture_height(asked.values(), paper)
    width, height = PAPERS[paper]
    assert down >= handouts.LOWEST
    for student, numbered in asked.items():
        plate = handouts.compose(topic, student, numbered, paper, imprint, down)
        boxes = [text.box() for text in plate.texts]
        assert not any(meet(one, other) for one, other in itertools.combinations(boxes, 2))
        assert all(holds((10, 10, width - 10, height - 10), box) for box in boxes)
        rooms = [shape.points() for shape in plate.shapes if shape.layer == "room"]
        assert len(rooms) == len(numbered)
        assert all(max(y for _, y in room) - min(y for _, y in room) > 11 for room in rooms), student
        picture = (handouts.MARGIN, handouts.MARGIN + handouts.HEAD, width - handouts.MARGIN,
                   handouts.MARGIN + handouts.HEAD + down)  # fmt: skip
        assert not any(meet(box, picture) for box in boxes)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_no_line_ends_between_a_number_and_its_unit_and_the_student_is_seen_from_afar(unit):
    imprint, broken = Imprint((), "BCDFGH", unit, DAY, ""), re.compile(r"\d / ?(?:\d+/\d|mm\b|in\b|deg\b|kg\b|lb|%)")
    for topic in TOPICS:
        for student in (1, 8, 99):
            numbered = questions(topic, student, unit)
            plate = handouts.compose(topic, student, numbered, "Letter", imprint, 60.0)
            lines = [text.text for text in plate.texts if text.size == handouts.TEXT]
            assert len(lines) >= len(numbered) and not broken.search(" / ".join(lines)), (topic, student)
            assert next(text.size for text in plate.texts if text.text == f"Student {student}") >= 9


@every_topic
def test_drawing_is_the_lessons_and_has_no_size(topic):
    plate = handouts.picture_plate(topic, 186.0, 60.0)
    assert plate.shapes and plate.texts and not any("in the list" in text.text for text in plate.texts)
    assert not any(measures(text.text) for text in plate.texts)
    shown, views = pictured(topic)
    titles = [text.text for text in plate.texts if text.bold]
    assert len(titles) >= len(views)
    boxes = [text.box() for text in plate.texts]
    assert not any(meet(one, other) for one, other in itertools.combinations(boxes, 2))


@every_topic
def test_drawing_shows_what_the_lesson_has_on_a_bench(topic):
    from normal_form import lessons

    lesson = next(path for path in lessons() if path.stem[3:] == topic)
    name = {"SawPlan": "SawBench", "Stand": "StandBench"}.get(type(pictured(topic).shown).__name__)
    assert (name or type(pictured(topic).shown).__name__) in lesson.read_text(encoding="utf-8")


def test_a_drawing_is_kept_once_in_the_file(tmp_path):
    saved = save_handouts("rebates", range(1, 21), folder=tmp_path, date=DAY)
    forms = {page["/Resources"]["/XObject"]["/form0"].indirect_reference.idnum for page in PdfReader(saved.pages).pages}
    assert len(forms) == 1
    for page in PdfReader(saved.pages).pages:
        drawn = [name for _, name in ContentStream(page.get_contents(), page.pdf).operations if name == b"Do"]
        assert len(drawn) == 1
    one = save_handouts("rebates", 1, folder=tmp_path, date=DAY)
    assert saved.pages.stat().st_size < 3 * one.pages.stat().st_size


# What is given and typed ------------------------------------------------------------------------------------


def test_same_class_gives_the_same_bytes_and_another_one_another_mark(tmp_path):
    one = save_handouts(["rebates"], [3, 4, 3], folder=tmp_path / "a", date=DAY)
    same = save_handouts("rebates", (3, 4), folder=tmp_path / "b", date=DAY)
    other = save_handouts("rebates", (3, 5), folder=tmp_path / "b", date=DAY)
    assert one.pages.read_bytes() == same.pages.read_bytes() and one.key.read_bytes() == same.key.read_bytes()
    assert one.pages.name == same.pages.name != other.pages.name
    assert len(PdfReader(one.pages).pages) == 2


@pytest.mark.parametrize("name", [NASTY, "../../" * 9, "(a\\", "a\nb\x00\x1b[31m", "x" * 500, "ю" * 40, "  "])
def test_a_typed_name_cannot_break_out(tmp_path, name):
    saved = save_handouts("rebates", 1, folder=tmp_path / "in", date=DAY, class_name=name)
    assert sorted(tmp_path.rglob("*.pdf")) == sorted([saved.pages, saved.key])
    assert saved.pages.parent == tmp_path / "in"
    reader = PdfReader(saved.pages)
    assert len(reader.pages) == 1 and "Student 1" in reader.pages[0].extract_text()
    assert "<script" not in saved._repr_html_() and "<img" not in saved._repr_html_()
    assert set(reader.trailer["/Root"]) == set(PdfReader(printed_plainly(tmp_path)).trailer["/Root"])


INJECTED = [
    ") Tj ET Q q 1 0 0 rg 0 0 600 800 re f Q q BT (", "> Tj ET 1 0 0 rg 0 0 600 800 re f BT <", "a\\)(\\051 Tj %",
    "endstream endobj 9 0 obj << /S /JavaScript /JS (x) >> endobj",
]  # fmt: skip


def operators(page, reader):
    """The operators of a page in their order, colours with what they are given."""
    return [
        (name, [float(each) for each in operands] if name in (b"rg", b"RG") else len(operands))
        for operands, name in ContentStream(page.get_contents(), reader).operations
    ]


@pytest.mark.parametrize("name", INJECTED)
def test_a_typed_name_is_no_operator_and_no_object_of_the_pdf(tmp_path, name):
    """Pages and key draw what they draw for a plain name; the words come back as words."""
    saved = save_handouts("rebates", 1, folder=tmp_path / "nasty", date=DAY, class_name=name)
    plainly = save_handouts("rebates", 1, folder=tmp_path / "plain", date=DAY, class_name="Class 9")
    for nasty, usual in ((saved.pages, plainly.pages), (saved.key, plainly.key)):
        one, other = PdfReader(nasty), PdfReader(usual)
        assert len(one.pages) == len(other.pages) and len(one.xref[0]) == len(other.xref[0])
        for page, same in zip(one.pages, other.pages):
            assert operators(page, one) == operators(same, other)
        told = " ".join(name.split())[: handouts.LONGEST_NAME]
        assert one.metadata.title.startswith(f"{told}: ") and f"{told}: " in texts_of(nasty)[0]


def printed_plainly(folder):
    return save_handouts("rebates", 1, folder=folder / "plain", date=DAY).pages


@pytest.mark.parametrize("given", [
    dict(topics="lathes"), dict(topics="question"), dict(topics="../bench"), dict(topics=[]), dict(students=0),
    dict(students=[1, 100]), dict(students=[True]), dict(students=["1"]), dict(students=[]), dict(unit="cm"),
    dict(paper="A3"),
])  # fmt: skip
def test_what_cannot_be_printed_is_refused_in_a_sentence(tmp_path, given):
    with pytest.raises(ValueError) as refused:
        save_handouts(**{"topics": "rebates", "students": 1, "folder": tmp_path / "none"} | given)
    assert str(refused.value).endswith(".") and not (tmp_path / "none").exists()
    assert isinstance(refused.value, MeasureError) or "paper" in given


def test_a_folder_that_cannot_be_written_is_told_and_what_was_there_stays(tmp_path):
    (tmp_path / "file").write_text("in the way")
    with pytest.raises(PrintoutError):
        save_handouts("rebates", 1, folder=tmp_path / "file" / "folder", date=DAY)
    assert (tmp_path / "file").read_text() == "in the way"


def test_topics_are_those_that_there_are():
    assert sorted(topics()) == sorted(TOPICS)
