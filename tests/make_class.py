"""Makes the class whose hand-ins 00_start_here reads: eight students with known slips, one of them torn, one again.

    python tests/make_class.py
"""

import datetime
from pathlib import Path

from shoplib.practice import questions
from shoplib.practice.hand_in import written

FOLDER = Path(__file__).resolve().parent.parent / "notebooks" / "handed_in"
TOPIC, NOON = "circle_jigs", datetime.datetime(2031, 5, 7, 12, 0)
SLIPS = {1: {1: 0}, 2: {1: 0, 5: 0}, 3: {}, 4: {1: 0, 2: 1}, 5: {3: 0}, 6: {1: 1, 5: 0}, 7: {5: 0}, 8: {}}
OPEN = {(3, 6), (7, 6), (8, 4)}  # student and question


def answers(student, unit):
    """All right but the slips, the place of each among those that its question can tell."""
    found = []
    for number, question in enumerate(questions(TOPIC, student, unit), 1):
        place = SLIPS[student].get(number)
        value = question.answer if place is None else question.told_slips()[place][0]
        found.append("" if (student, number) in OPEN else question.write(value))
    return found


def files():
    """The name of each file and its bytes."""
    made = {}
    for student in SLIPS:
        unit = "in" if student % 3 == 0 else "mm"
        moment = NOON + datetime.timedelta(minutes=student)
        made[f"student_{student}.csv"] = written(TOPIC, student, unit, answers(student, unit), moment).encode()
    again = written(TOPIC, 5, "mm", ["155 mm"], NOON).encode()
    made["student_5_first_try.csv"] = again
    made["student_8.csv"] = made["student_8.csv"][:-70]
    return made


if __name__ == "__main__":
    FOLDER.mkdir(exist_ok=True)
    for name, data in files().items():
        (FOLDER / name).write_bytes(data)
