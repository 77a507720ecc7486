"""The key to handouts: each student's answers with their tolerance, and what each slip would have come to."""

from shoplib.paper.document import Entry
from shoplib.paper.report import Report, printed
from shoplib.practice import questions

UNTOLD = "–"  # a slip too near the answer, or to another slip, to be told from it


def key_pages(topics, students, unit, paper, imprint, done):
    """The pages of the key and their outline; `done()` is called after each topic."""
    report, starts = Report(imprint, paper), []
    for topic in topics:
        starts.append(len(report.pages))
        words = topic.replace("_", " ")
        report.begin(f"Key: {words}")
        write_key(report, {student: questions(topic, student, unit) for student in students})
        done()
    report.number()
    pages = [printed(plate, picture, corner) for plate, picture, corner, _ in report.pages]
    names = [topic.replace("_", " ").capitalize() for topic in topics]
    return pages, [Entry(name, pages[start]) for name, start in zip(names, starts)]


def write_key(report, asked):
    """The answers of one topic, a row for each student; then the slips, a table for each question, told beside it."""
    head, rows = answers(asked)
    report.table("Answers", head, rows)
    report.told(
        f"Below, what each slip comes to with the same sizes. {UNTOLD} stands for a slip that cannot be told from the "
        "answer or from another slip."
    )
    for number, numbered in enumerate(zip(*asked.values()), 1):
        sentences, rows = slips(dict(zip(asked, numbered)))
        letters = [chr(ord("a") + place) for place in range(len(sentences))]
        told = [f"{letter}: {sentence}" for letter, sentence in zip(letters, sentences)]
        told.insert(0, f"Right: {numbered[0].why}")
        report.explained(f"Question {number}", ("student", "answer", *letters), rows, told)


def answers(asked):
    """Head and rows of the table of answers; under each question's number its tolerance, the same for every student."""
    numbered = list(zip(*asked.values()))
    within = [{each.within() for each in alike} for alike in numbered]
    head = ("student", *(str(place) for place in range(1, len(numbered) + 1)))
    tolerances = ("", *(each.pop() if len(each) == 1 else "" for each in map(set, within)))
    rows = [
        (str(student), *(
            each.tell(each.answer) + ("" if len(alike) == 1 else f", {each.within()}")
            for each, alike in zip(questions, within)
        ))
        for student, questions in asked.items()
    ]  # fmt: skip
    return head, [tolerances, *rows]


def slips(asked):
    """The sentences of one question's slips, and a row for each student: the answer, then what each slip comes to."""
    sentences = list(dict.fromkeys(said for question in asked.values() for _, said in question.told_slips()))
    rows = []
    for student, question in asked.items():
        told = {said: question.write(value) for value, said in question.told_slips()}
        rows.append((str(student), question.write(question.answer), *(told.get(each, UNTOLD) for each in sentences)))
    return sentences, rows
