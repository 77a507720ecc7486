"""Squareness by diagonals, and the finish that a piece takes."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Point

from shoplib import Finish, ShapeError, Squareness, seedling_stand

CLOSE = pytest.approx


def frame(length, width, lean):
    """Diagonals of a real parallelogram: its corners set out, its distances measured (shapely)."""
    across, up = width * math.sin(lean), width * math.cos(lean)
    corners = [Point(0, 0), Point(length, 0), Point(length + across, up), Point(across, up)]
    return corners[0].distance(corners[2]), corners[1].distance(corners[3])


@given(st.floats(150, 1500), st.floats(150, 1500), st.floats(-0.2, 0.2))
def test_a_frame_that_leans(length, width, lean):
    first, second = frame(length, width, lean)
    found = Squareness(*(f"{size:.9f} mm" for size in (length, width, first, second))).plain
    assert found.skew == CLOSE(lean, abs=1e-7)
    assert found.shift == CLOSE(width * math.sin(lean), abs=1e-4)
    assert found.mean_diagonal == CLOSE(found.target, abs=1e-5)
    assert found.target == CLOSE(math.hypot(length, width))
    longer = "first" if lean > 0 else "second"
    said = " ".join(caution.tell() for caution in found.worries())
    assert (f"The {longer} diagonal is too long" in said) == (abs(math.degrees(lean)) > 0.15)
    assert "A side is wrong" not in said


def test_the_demo_by_hand():
    """(510.5^2 - 507.7^2)/(4 x 360^2) = 0.0054996: 0.3151 deg, and 360 x 0.0054996 = 1.9798."""
    found = Squareness("360 mm", "360 mm", "510.5 mm", "507.7 mm").plain
    assert math.degrees(found.skew) == CLOSE(0.3151, abs=5e-5)
    assert found.shift == CLOSE(1.9798, abs=5e-5)
    assert found.target == CLOSE(509.1169, abs=5e-5)
    assert [caution.input for caution in found.worries()] == ["diagonal_1"]


@pytest.mark.parametrize(("out", "warned"), [(0.9, False), (1.1, True), (-1.1, True), (-3, True)])
def test_a_side_is_wrong_where_both_diagonals_are(out, warned):
    both = f"{math.hypot(360, 360) + out:.4f} mm"
    found = Squareness("360 mm", "360 mm", both, both)
    assert found.skew.m_as("deg") == 0
    assert [caution.input for caution in found.cautions] == (["length"] if warned else [])


def test_a_rectangle_is_square_too():
    assert not Squareness("400 mm", "300 mm", "500 mm", "500 mm").cautions
    assert Squareness("400 mm", "300 mm", "500 mm", "500 mm").target.m_as("mm") == CLOSE(500)


def test_diagonals_of_no_frame():
    with pytest.raises(ShapeError, match="do not belong to sides"):
        Squareness("100 mm", "100 mm", "300 mm", "100 mm")


class TestFinish:
    def test_by_hand(self):
        """3.6 m2 in two coats at 12 m2 a litre: 0.6 l on the wood; with a tenth lost 0.667 l."""
        found = Finish("3.6 m2", "12 m2").plain
        assert found.litres == CLOSE(0.6 / 0.9)
        assert found.each_coat == CLOSE(found.litres / 2)
        assert Finish("3.6 m2", "12 m2", 1, "0 %").plain.litres == CLOSE(0.3)

    def test_told_in_both_systems(self):
        found = Finish("38.75 ft2", "12 m2")
        assert found.tell("litres").rows == [("finish in all", "0.67 l")]
        assert found.tell("litres", unit="in").rows == [("finish in all", "22.5 fl oz")]

    def test_oily_rags_are_always_named(self):
        assert any("catch fire by themselves" in each.tell() for each in Finish("1 m2", "12 m2").cautions)

    def test_nothing_can_be_lost_altogether(self):
        with pytest.raises(ShapeError, match="less than 100"):
            Finish("1 m2", "12 m2", loss="100 %")

    def test_of_the_stand(self):
        stand = seedling_stand(finish_coats=3)
        assert stand.operation("finish").plain.litres == CLOSE(stand.plain.finish_area * 3 / 12 / 0.9)


def test_an_error_as_large_as_the_size_itself_is_counted_one_way():
    """At the slider's low end a litre may cover nothing at all: no finish covers that, so only the other way counts."""
    (covers,) = [share for share in Finish("1 m2", "2 m2").budget("litres").shares if share.input == "coverage"]
    assert covers.one_sided and covers.down is None
