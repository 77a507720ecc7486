"""The game of the order of work on the page: by touch and by keys, whatever is pressed, and run again."""

import random
import re

import pytest
from pages import NASTY, check_nothing_typed_runs, reads, said, stands

from shoplib import OrderGame
from shoplib.practice.order_of_work import OFFERED


@pytest.fixture
def game():
    return OrderGame()


def on_offer(game):
    """The buttons that can be seen: the step each holds, and its words."""
    places = [stands(game, f"pick.{k}") for k in range(OFFERED)]
    return {each["data-value"]: each["textContent"] for each in places if not each["hidden"]}


def press(game, name):
    game.hear({"pick": name})


def ready(game):
    return [name for name in on_offer(game) if not game.game.missing(name)]


def test_right_steps_fill_the_order_one_by_one(game):
    number = 0
    while game.game.left:
        (name, *_) = ready(game)
        words = on_offer(game)[name]
        press(game, name)
        number += 1
        assert f"✓ Right: {number}. {words}." in reads(game, "said")
        assert f"{number}. {words}" in reads(game, "order") and name not in on_offer(game)
    assert number == 38 and on_offer(game) == {} and "Done." in reads(game, "about")
    assert "in an order that cannot trap, and you met no trap" in reads(game, "said")
    assert len(game.rows()) == 38


def test_a_step_too_early_names_its_trap_and_stays(game):
    early = next(name for name in on_offer(game) if game.game.missing(name))
    before = on_offer(game)
    press(game, early)
    told = reads(game, "said")
    assert told.startswith("✗ Too early. ") and game.game.missing(early)[0][1] in told
    assert on_offer(game) == before and "Still empty" in reads(game, "order")
    assert "role='status'" in stands(game, "said")


def test_order_tells_what_each_step_waited_for(game):
    chance = random.Random(3)
    while game.game.left:
        press(game, chance.choice(ready(game)))
    numbers = {name: str(number) for number, name in enumerate(game.game.done, 1)}
    for (step, lesson, after), name in zip(game.rows(), game.game.done):
        wanted = [numbers[each] for each in game.game.after[name]]
        assert after == (", ".join(wanted) or "—") and all(int(each) < int(numbers[name]) for each in wanted)
        assert re.fullmatch(r"\d\d", lesson) and step.startswith(f"{numbers[name]}. ")


def test_a_button_pressed_twice_does_not_pick_what_came_into_it(game):
    (name, *_) = ready(game)
    press(game, name)
    before = dict(game.live.shown)
    press(game, name)
    assert game.game.traps == [] and game.live.shown == before


def test_another_student_gets_another_stand(game):
    about = reads(game, "about")
    game.hear({"student": "2"})
    assert game.game.student == 2 and reads(game, "about") != about
    assert "no pull bar and four casters" in reads(game, "about") and "Still empty" in reads(game, "order")


@pytest.mark.parametrize("text", ["0", "100", "-3", "1.5", "", "two", NASTY, "９"])
def test_rubbish_for_a_student_number_is_answered_and_changes_nothing(game, text):
    press(game, ready(game)[0])
    rows = game.rows()
    game.hear({"student": text})
    assert reads(game, "wrong") == "✗ A student number is a whole number from 1 to 99."
    assert game.rows() == rows
    check_nothing_typed_runs(game.widget)
    press(game, ready(game)[0])
    assert reads(game, "wrong") == ""


def test_start_again_begins_the_same_stand_anew(game):
    first = on_offer(game)
    press(game, ready(game)[0])
    game.hear({"again": ""})
    assert on_offer(game) == first and game.rows() == [] and reads(game, "said") == "0 of 38 steps are in order."


@pytest.mark.parametrize("name", [NASTY, "", "copes", "no_such_step"])
def test_what_is_not_on_offer_is_not_picked(game, name):
    before = dict(game.live.shown)
    if name not in on_offer(game):
        press(game, name)
        assert game.live.shown == before


def test_from_a_cell(game):
    assert game.pick("buy") == (
        "Right: 1. Buy the timber, let it rest, read its moisture. Mind: Timber that has not rested goes on moving: "
        "parts that were fitted fit no longer."
    )
    assert "1. Buy the timber" in reads(game, "order")
    assert game.line().endswith("1 of 38 steps are in order.")


def test_stored_page_tells_the_stand_and_the_steps(game):
    bundle = game._repr_mimebundle_()
    assert bundle["text/plain"] == game.line() and "\n" not in game.line()
    assert all(words in said(bundle["text/html"]) for words in on_offer(game).values())


def test_every_button_has_a_name_and_keeps_the_notebooks_keys_away(game):
    buttons = re.findall(r"<button[^>]*>", game.live.html)
    assert len(buttons) == OFFERED + 1
    assert all('data-lm-suppress-shortcuts="true"' in each and "title=" in each for each in buttons)
    assert all(stands(game, f"pick.{k}")["title"] == stands(game, f"pick.{k}")["textContent"] for k in range(OFFERED))


def test_a_failure_is_told_on_the_page(game, monkeypatch):
    monkeypatch.delenv("SHOPLIB_STRICT", raising=False)
    monkeypatch.setattr(game.game, "pick", lambda name: 1 / 0)
    press(game, ready(game)[0])
    assert "could not be worked out (ZeroDivisionError)" in reads(game, "wrong")


def test_order_for_the_teacher_is_folded(game):
    sheet = game.answers()
    assert repr(sheet).startswith("Student 1: a stand with two trays")
    page = sheet._repr_html_()
    assert page.startswith("<details") and "38. Casters in; check how it tips and lifts" in said(page)
    assert "a stand with two trays, rims of staves, no pull bar and four casters" in repr(game.answers(2))
