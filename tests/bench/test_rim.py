"""The bench for a measured rim: typed by anybody, never silent, never a traceback."""

import re

import pytest
from pages import NASTY, check_nothing_typed_runs, reads, stands

from shoplib import MeasureError, RimBench, ShapeError, fit_circle
from shoplib.bench import rim as module
from shoplib.bench.rim import WAYS
from shoplib.drawing.rims import draw_rim

POINTS = [
    ("444.5 mm", "279.5 mm"), ("327 mm", "424 mm"), ("171 mm", "438 mm"), ("47.5 mm", "348 mm"),
    ("23.5 mm", "154.5 mm"), ("92.5 mm", "56.5 mm"), ("275 mm", "11 mm"), ("418.5 mm", "110.5 mm"),
]  # fmt: skip


@pytest.fixture
def bench():
    return RimBench(POINTS)


def type_in(bench, point, way, text):
    bench.hear({f"{WAYS[way]}.{point}": text})


def test_bench_tells_what_the_fit_tells(bench):
    found = fit_circle(POINTS)
    assert bench.circle == found
    assert dict(bench.results())["diameter"] == f"{2 * found.radius.m_as('mm'):.1f} mm" in reads(bench, "told")
    assert "No point stands out" in reads(bench, "told")
    assert bench.line().startswith("RimBench: 8 points") and "\n" not in bench.line()


def test_a_slip_is_named_and_put_right(bench):
    type_in(bench, 6, 1, "65.5 mm")
    assert "Point 6 looks wrong" in reads(bench, "told") and "looks wrong" in stands(bench, "picture")
    assert dict(bench.results())["furthest off the circle, point 6"] == "−7.6 mm"  # inside the others' circle
    type_in(bench, 6, 1, "56.5 mm")
    assert "wrong" not in reads(bench, "told") and "looks wrong" not in stands(bench, "picture")


def test_named_by_its_row_when_rows_above_are_empty(bench):
    type_in(bench, 6, 1, "70 mm")
    for way in (0, 1):
        type_in(bench, 2, way, "")
    assert bench.rows == [1, 3, 4, 5, 6, 7, 8]
    assert "Point 6 looks wrong" in reads(bench, "told") and "Point 6 looks wrong" in stands(bench, "picture")


@pytest.mark.parametrize("text", ["12", "abc", "3 kg", NASTY, "1,250 mm", "200 m"])
def test_what_cannot_be_read_is_said_at_its_point(bench, text):
    before = bench.drawing
    type_in(bench, 3, 0, text)
    assert reads(bench, "note.3").startswith("✗ Point 3:") and "No circle" in reads(bench, "picture")
    assert before in stands(bench, "picture")  # the last good drawing, greyed
    assert bench.line().startswith("RimBench: no circle. Point 3:")
    with pytest.raises(MeasureError, match="Point 3"):
        _ = bench.circle
    check_nothing_typed_runs(bench.widget)
    type_in(bench, 3, 0, "171 mm")
    assert reads(bench, "note.3") == "" and "No circle" not in reads(bench, "picture")


def test_half_a_point_is_missed(bench):
    type_in(bench, 9, 0, "50 mm")
    assert "the size up is missing" in reads(bench, "note.9")
    type_in(bench, 9, 0, " ")
    assert bench.problem is None


def test_points_in_a_line_and_too_few(bench):
    bench.set([("0 mm", "0 mm"), ("10 mm", "10 mm"), ("20 mm", "20 mm")])
    assert "in one line" in reads(bench, "picture")
    bench.set(POINTS[:2])
    assert "here are 2" in reads(bench, "picture") and reads(bench, "told") == ""
    bench.set(POINTS)
    assert bench.problem is None


def test_few_points_are_told_what_they_can_tell(bench):
    bench.set(POINTS[:3])
    assert "Three points always lie on a circle" in reads(bench, "told")
    bench.set(POINTS[:4])
    assert "four are too few" in reads(bench, "told")
    bench.set(POINTS[:6])
    assert "No point stands out" in reads(bench, "told")


def test_six_points_name_the_bad_one(bench):
    bench.set([POINTS[0], POINTS[1], ("171 mm", "447 mm"), *POINTS[3:6]])
    assert "⚠ Point 3 looks wrong" in reads(bench, "told") and "looks wrong" in stands(bench, "picture")
    type_in(bench, 3, 1, "438 mm")
    assert "⚠" not in reads(bench, "told")


def test_a_warning_sign_only_where_there_is_something_to_see(bench):
    assert "⚠" not in reads(bench, "told")
    type_in(bench, 6, 1, "65.5 mm")
    assert "⚠ Point 6" in reads(bench, "told")
    assert "Without point 6: found" in reads(bench, "told") and "diameter with point 6 too" in reads(bench, "told")
    assert dict(bench.results())["diameter"] == "439.9 mm"
    assert "without point 6: centre across" in bench.line()
    bench.set([*POINTS[:3], ("47.5 mm", "360 mm")])
    assert "Without" not in reads(bench, "told")
    assert "⚠" in reads(bench, "told") and "Nobody can tell which" in reads(bench, "told")
    assert repr(bench.verdict()) == bench.verdict()


def test_units_change_what_is_told_not_what_was_typed(bench):
    bench.hear({"unit": "inches"})
    assert "in" in dict(bench.results())["diameter"] and "mm" not in reads(bench, "told")
    assert stands(bench, "across.1") == "444.5 mm"
    type_in(bench, 1, 0, "17 1/2 in")
    assert bench.problem is None and fit_circle([("17 1/2 in", "279.5 mm"), *POINTS[1:]]) == bench.circle


def test_one_setting_redraws_once(bench, monkeypatch):
    drawn = []
    monkeypatch.setattr(module, "draw_rim", lambda *given: drawn.append(1) or draw_rim(*given))
    bench.set(POINTS[1:])
    assert len(drawn) == 1


def test_back_to_the_first_points(bench):
    line = bench.line()
    bench.set(POINTS[:4])
    bench.hear({"back": ""})
    assert bench.line() == line


def test_still_picture_has_words_and_no_ids_by_chance(bench):
    bundle = bench._repr_mimebundle_()
    assert bundle["text/plain"] == bench.line()
    assert bundle["text/html"].startswith('<img alt="Circle through a measured rim.')
    assert RimBench(POINTS)._repr_mimebundle_()["text/html"] == bundle["text/html"]
    assert RimBench(POINTS).prefix != bench.prefix


def test_walk_prints_a_line_for_each_point_and_slip_and_comes_back(bench, capsys):
    line = bench.line()
    bench.walk(no_unit="444.5", two_sizes="1 mm 2 mm")
    printed = capsys.readouterr().out.splitlines()
    assert len(printed) == len(POINTS) + 2 and printed[-2].startswith("no unit: RimBench: no circle.")
    assert bench.line() == line


def test_failure_is_shown_and_raised_under_test(bench, monkeypatch):
    monkeypatch.setattr(module, "plain_fit", lambda points: 1 / 0)
    with pytest.raises(ZeroDivisionError):
        type_in(bench, 1, 0, "444 mm")
    assert "could not work this out" in reads(bench, "picture") and "Traceback" not in stands(bench, "picture")


def test_points_of_quantities_and_refusals():
    from shoplib import measure

    bench = RimBench([tuple(map(measure.length, point)) for point in POINTS], unit="in")
    assert stands(bench, "across.1") == "17.500 in"
    with pytest.raises(ShapeError, match="room for 12"):
        RimBench(POINTS * 2)
    with pytest.raises(MeasureError, match="Point 1"):
        RimBench([(1, 2), (3, 4), (5, 7)])
    with pytest.raises(ShapeError, match="here are 2"):
        RimBench(POINTS[:2])


def test_every_box_is_named_for_a_screen_reader(bench):
    names = re.findall(r'<input [^>]*aria-label="([^"]*)"', bench.live.html)
    assert len(set(names)) == len(names) == 24 and names[0] == "Point 1, across"
