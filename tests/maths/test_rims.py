"""Circles from their rims: printed examples, sympy's geometry, and fits that other methods agree with."""

import math

import numpy
import published
import pytest
import sympy
from hypothesis import assume, given, settings
from hypothesis import strategies as st
from scipy.optimize import minimize

from shoplib import MeasureError, ShapeError, chord, circle_through, fit_circle, measure, radius_from_chord
from shoplib.maths.rims import centre_and_radius, chord_of, plain_fit, radius_of, verdict

CLOSE = pytest.approx
sizes = st.floats(0.5, 5000)


def mm(points):
    return [tuple(f"{each:.6f} mm" for each in point) for point in points]


def rim(radius, centre, angles, off=()):
    """Points on a circle, each moved out by its own little amount."""
    off = off or [0.0] * len(angles)
    x, y = centre
    return [(x + (radius + out) * math.cos(a), y + (radius + out) * math.sin(a)) for a, out in zip(angles, off)]


def dataset(name):
    return [(float(row["x"]), float(row["y"])) for row in published.rows("circle_fit_points", dataset=name)]


# Chord and rise ---------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("number", "unit", "radius", "rise"), [("CG1", "in", "r", "h"), ("CG4", "cm", "R", "F")])
def test_chord_as_printed(number, unit, radius, rise):
    """Machinery's Handbook, 31st ed., p. 79 and p. 50 example 3."""
    row = published.row("circle_geometry", id=number)
    given = published.numbers(row["inputs"])
    found = chord(f"{given[radius]} {unit}", f"{given[rise]} {unit}").m_as(unit)
    assert found == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


def test_radius_as_printed():
    """Machinery's Handbook, 31st ed., p. 79."""
    row = published.row("circle_geometry", id="CG2")
    given = published.numbers(row["inputs"])
    found = radius_from_chord(f"{given['c']} in", f"{given['h']} in").m_as("in")
    assert found == CLOSE(float(row["printed_result"]), abs=float(row["tolerance"]))


@given(sizes, sizes)
def test_radius_by_the_old_handbooks_rules(chord, rise):
    """Lobben p. 200, r = (n^2 + h^2)/2h for half the chord; ICS Pocketbook, r = (c^2 + 4h^2)/8h."""
    assert published.row("circle_geometry", id="CG14")["inputs"] == "rule r=(n^2+h^2)/(2h)"
    assert published.row("circle_geometry", id="CG15")["inputs"].startswith("r=(c^2+4h^2)/(8h)")
    half = chord / 2
    assert radius_of(chord, rise) == CLOSE((half**2 + rise**2) / (2 * rise))
    assert radius_of(chord, rise) == CLOSE((chord**2 + 4 * rise**2) / (8 * rise))


@pytest.mark.parametrize("row", published.rows("circle_chords"), ids=lambda row: row["n_spaces"])
def test_chords_of_equal_spaces(row):
    """A chord table in the manner of Machinery's Handbook, 31st ed., p. 711, through the rise of one space."""
    n = int(row["n_spaces"])
    rise = (1 - math.cos(math.pi / n)) / 2
    assert chord_of(0.5, rise) == CLOSE(float(row["exact_6dp"]), abs=1e-6)


@given(sizes, st.floats(0.001, 1.999))
def test_chord_and_radius_undo_each_other(radius, share):
    rise = share * radius
    assert radius_of(chord_of(radius, rise), rise) == CLOSE(radius, rel=1e-6)


def test_one_formula_for_floats_quantities_arrays_and_symbols():
    c, h, r = sympy.symbols("c h r", positive=True)
    inches = [measure.quantity(size, "in") for size in (16.0, 6.0)]
    for formula, symbols in ((radius_of, (c, h)), (chord_of, (r, h))):
        found = formula(16.0, 6.0)
        assert formula(*inches).m_as("in") == CLOSE(found)
        assert formula(inches[0].to("cm"), inches[1].to("mm")).m_as("in") == CLOSE(found)
        assert formula(numpy.array([16.0, 16.0]), 6.0) == CLOSE([found, found])
        assert float(formula(*symbols).subs(dict(zip(symbols, (16, 6))))) == CLOSE(found)


def test_chord_rise_and_radius_are_pythagoras():
    r, h = sympy.symbols("r h", positive=True)
    assert sympy.simplify((r - h) ** 2 + (chord_of(r, h) / 2) ** 2 - r**2) == 0
    assert sympy.simplify(radius_of(chord_of(r, h), h) - r) == 0


@pytest.mark.parametrize("rise", ["0 mm", "-1 mm", "200 mm", "201 mm"])
def test_rise_that_is_not_on_the_circle(rise):
    with pytest.raises(ShapeError, match=r"not on a circle.*less than 200\.0 mm"):
        chord("100 mm", rise)


@pytest.mark.parametrize(("sizes", "words"), [(("0 mm", "3 mm"), "chord"), (("3 mm", "-1 mm"), "rise")])
def test_nothing_of_a_chord(sizes, words):
    with pytest.raises(ShapeError, match=f"The {words} is .*more than nothing"):
        radius_from_chord(*sizes)
    with pytest.raises(ShapeError, match="more than nothing"):
        chord("0 mm", "1 mm")


@pytest.mark.parametrize("function", [chord, radius_from_chord])
@pytest.mark.parametrize("wrong", [440, "440", "3 kg", None, "x"])
def test_sizes_need_their_unit(function, wrong):
    with pytest.raises(MeasureError):
        function(wrong, "3 mm")


# Three points -----------------------------------------------------------------------------------------------


def test_hole_circle_read_backwards():
    """Machinery's Handbook, 31st ed., p. 711 example 3a: three printed holes give back their circle."""
    printed = [row["printed_result"].split(";") for row in published.rows("circle_geometry", id="CG12")]
    found = circle_through(*(tuple(f"{each} in" for each in point) for point in printed))
    row = published.row("circle_fit_results", dataset="HOLES3")
    for size, wanted in zip((*found.centre, found.radius), (row["xc"], row["yc"], row["r"])):
        assert size.m_as("in") == CLOSE(float(wanted), abs=1e-3)
    assert dataset("HOLES3") == [tuple(map(float, point)) for point in printed]


corner = st.tuples(st.integers(-500, 500), st.integers(-500, 500))


@settings(deadline=None, max_examples=60)
@given(corner, corner, corner)
def test_circle_as_sympys_geometry_finds_it(one, two, three):
    assume(not sympy.Point.is_collinear(sympy.Point(one), sympy.Point(two), sympy.Point(three)))
    circle = sympy.Circle(*map(sympy.Point, (one, two, three)))
    wanted = [float(each) for each in (*circle.center, circle.radius)]
    assume(wanted[2] < 1e5)
    assert centre_and_radius(one, two, three) == CLOSE(wanted, rel=1e-9, abs=1e-6)


def test_bisectors_cross_where_the_formula_says():
    points = [(12.0, 7.0), (80.0, -3.0), (33.0, 61.0)]
    one, two, three = (sympy.Point(*map(sympy.nsimplify, point)) for point in points)
    (crossing,) = sympy.Segment(one, two).perpendicular_bisector().intersection(
        sympy.Segment(two, three).perpendicular_bisector()
    )
    assert centre_and_radius(*points)[:2] == CLOSE([float(each) for each in crossing])


def test_three_points_on_quantities_and_symbols():
    plain = [(12.0, 7.0), (80.0, -3.0), (33.0, 61.0)]
    wanted = centre_and_radius(*plain)
    units = ("in", "cm", "m")
    inches = [tuple(measure.quantity(each, "mm").to(unit) for each in point) for point, unit in zip(plain, units)]
    assert [each.m_as("mm") for each in centre_and_radius(*inches)] == CLOSE(wanted)
    names = sympy.symbols("a b c d e f")
    formula = centre_and_radius(*zip(names[::2], names[1::2]))
    values = dict(zip(names, [each for point in plain for each in point]))
    assert [float(each.subs(values)) for each in formula] == CLOSE(wanted)


@pytest.mark.parametrize("points", [
    [(0, 0), (1, 1), (2, 2)], [(0, 0), (0, 0), (2, 1)], [(0, 0), (0, 0), (0, 0)], [(5, 3), (5, 90), (5, -400)],
    [(0, 0), (100, 0.001), (200, 0)], [(1000, 1000), (1000.1, 1000.1), (1000.2, 1000.2)],
])  # fmt: skip
def test_points_in_a_line(points):
    for find in (lambda points: circle_through(*points), fit_circle):
        with pytest.raises(ShapeError, match="in one line|not the same"):
            find(mm(points))


# Many points ------------------------------------------------------------------------------------------------


def test_geometric_fit_as_published():
    """W. Gander, G. Golub, R. Strebel, BIT 34 (1994) 558-578, section 3."""
    row = published.row("circle_fit_results", method="geometric least squares (Gauss-Newton)")
    found = plain_fit(dataset("GGS94"))
    assert (*found.centre, found.radius) == CLOSE([float(row[key]) for key in ("xc", "yc", "r")], abs=6e-5)


def algebraic(points):
    """The linear fit: x^2 + y^2 = 2 a x + 2 b y + c by numpy alone."""
    xy = numpy.array(points)
    (a, b, c), *_ = numpy.linalg.lstsq(numpy.c_[2 * xy, numpy.ones(len(xy))], (xy**2).sum(axis=1), rcond=None)
    return a, b, math.sqrt(c + a * a + b * b)


def test_it_is_not_the_algebraic_fit():
    row = published.row("circle_fit_results", status="computed")
    wanted = [float(row[key]) for key in ("xc", "yc", "r")]
    assert algebraic(dataset("GGS94")) == CLOSE(wanted, abs=6e-5)
    assert plain_fit(dataset("GGS94")).radius > wanted[2] + 0.5


little = st.lists(st.floats(-0.5, 0.5), min_size=7, max_size=12)


@settings(deadline=None, max_examples=40)
@given(little, st.floats(30, 400), st.floats(1.5, 2 * math.pi), corner)
def test_no_other_circle_fits_better(off, radius, arc, centre):
    """A simplex search that knows nothing of the first fit ends at the same sum of squares, never below."""
    points = rim(radius, centre, [arc * k / len(off) for k in range(len(off))], off)
    found = plain_fit(points)

    def squares(circle):
        return sum((math.hypot(x - circle[0], y - circle[1]) - circle[2]) ** 2 for x, y in points)

    here = squares((*found.centre, found.radius))
    assert here == CLOSE(sum(each**2 for each in found.residuals), abs=1e-9)
    to_the_last = {"xatol": 1e-9, "fatol": 1e-12, "maxiter": 2000}
    other = minimize(squares, (*centre, radius), method="Nelder-Mead", options=to_the_last)
    assert here <= other.fun * (1 + 1e-6) + 1e-9


@settings(deadline=None, max_examples=40)
@given(st.integers(3, 12), st.floats(5, 2000), st.floats(0.3, 2 * math.pi), corner)
def test_true_circles_are_found_again(count, radius, arc, centre):
    points = rim(radius, centre, [arc * k / count for k in range(count)])
    found = plain_fit(points)
    assert (*found.centre, found.radius) == CLOSE((*centre, radius), rel=1e-6, abs=1e-4)
    assert algebraic(points) == CLOSE((*found.centre, found.radius), rel=1e-4, abs=1e-2)
    assert max(map(abs, found.residuals)) < 1e-5 and found.suspect is None


def test_three_points_are_fitted_as_the_circle_through_them():
    points = mm([(12, 7), (80, -3), (33, 61)])
    through, fitted = circle_through(*points), fit_circle(points)
    assert fitted.radius.m_as("mm") == CLOSE(through.radius.m_as("mm"))
    assert [each.m_as("mm") for each in fitted.centre] == CLOSE([each.m_as("mm") for each in through.centre])


def test_units_may_be_mixed_and_every_answer_has_one():
    found = fit_circle([("0 mm", "0 in"), ("4 in", "0 mm"), ("10.16 cm", "3 in"), (measure.length("0 mm"), "76.2 mm")])
    assert found.radius.m_as("in") == CLOSE(2.5)
    assert [each.m_as("in") for each in found.centre] == CLOSE([2, 1.5])
    assert all(each.check("[length]") for each in found.residuals)


def test_residuals_are_positive_outside():
    points = rim(100, (0, 0), [k * math.pi / 4 for k in range(8)], [2, 0, 0, 0, 0, 0, 0, 0])
    found = plain_fit(points)
    assert found.residuals[0] == max(found.residuals) > 0.5


ANGLES = [0.2 + k * math.pi / 4 for k in range(8)]
NOISE = [0.2, -0.3, 0.1, 0.25, -0.2, 0.0, -0.1, 0.3]


@pytest.mark.parametrize("slip", [5.0, -5.0, 30.0])
@pytest.mark.parametrize("which", range(8))
def test_the_slipped_point_is_named(slip, which):
    off = [each + (slip if place == which else 0.0) for place, each in enumerate(NOISE)]
    assert plain_fit(rim(220, (230, 226), ANGLES, off)).suspect == which + 1
    assert f"point {which + 1} looks wrong" in repr(fit_circle(mm(rim(220, (230, 226), ANGLES, off))))


def test_a_careful_rim_accuses_nobody():
    assert plain_fit(rim(220, (230, 226), ANGLES, NOISE)).suspect is None
    assert "wrong" not in repr(fit_circle(mm(rim(220, (230, 226), ANGLES, NOISE))))


@pytest.mark.parametrize("count", [5, 6, 7])
@pytest.mark.parametrize("slip", [9.0, -9.0])
def test_leave_one_out_tells_with_few_points_too(count, slip):
    """Five, six or seven points round the rim, one of them bad, the others within a tenth or two of a millimetre."""
    angles = [0.2 + 2 * math.pi * k / count for k in range(count)]
    for which in range(count):
        off = [0.15 * each / 0.3 + (slip if place == which else 0.0) for place, each in enumerate(NOISE[:count])]
        points = rim(220, (230, 226), angles, off)
        found = plain_fit(points)
        assert found.suspect == which + 1
        said = verdict(points, found)
        assert said.warns and said.startswith(f"Point {which + 1} looks wrong")
        assert ("outside" in said) == (slip > 0) and "one or two more points" in said


@pytest.mark.parametrize("count", [5, 6, 7, 8, 12])
def test_named_from_the_lessons_limits_on(count):
    """A slip that grows is named once it lies five times as far off the others as any of them, and once leaving out
    any other point leaves the rest three times worse; numpy's linear fit tells how well they agree."""
    angles = [0.2 + 2 * math.pi * k / count for k in range(count)]
    noise = [0.4 * math.cos(2 * angle) + 0.2 * math.sin(3.3 * angle) for angle in angles]
    told, wanted = [], []
    for slip in [0.15 * k for k in range(60)]:
        points = rim(220, (230, 226), angles, [noise[0] + slip, *noise[1:]])
        told.append(plain_fit(points).suspect == 1)
        (agreed, off), *others = (leave_out(points, which) for which in range(count))
        wanted.append(off > 5 * agreed and min(worse for worse, _ in others) > 3 * agreed)
    assert sum(one != other for one, other in zip(told, wanted)) <= 1, "at the limit itself the two fits may differ"
    assert {*told} == {True, False}


def leave_out(points, which):
    """How far the others are off their algebraic circle at most (a tenth at least), and how far this one is."""
    others = points[:which] + points[which + 1 :]
    x, y, radius = algebraic(others)
    off = [abs(math.dist(point, (x, y)) - radius) for point in (*others, points[which])]
    return max(0.1, *off[:-1]), off[-1]


def test_six_points_on_an_arc_and_one_bad():
    points = rim(220, (230, 226), ANGLES[:6], [0, 0, 9, 0, 0, 0])
    assert plain_fit(points).suspect == 3
    assert "440.0 mm across, and it lies 9.0 mm outside" in verdict(points, plain_fit(points))


@pytest.mark.parametrize("count", [3, 4])
def test_three_and_four_points_accuse_nobody(count):
    """Whichever of four is left out, the other three agree: no rule can tell them apart."""
    points = rim(220, (230, 226), [1.6 * k for k in range(count)], [9, 0, 0, 0][:count])
    found = plain_fit(points)
    assert found.suspect is None
    said = verdict(points, found)
    assert "looks wrong" not in said and said.endswith("Measure more.") and said.warns == (count == 4)


def test_an_oval_is_told_but_no_point_is_blamed():
    oval = [3 * math.cos(2 * angle) for angle in ANGLES]
    points = rim(220, (230, 226), ANGLES, oval)
    found = plain_fit(points)
    assert found.suspect is None
    said = verdict(points, found)
    assert said.warns and "no single point" in said.lower() and "2.8 mm off" in said


@pytest.mark.parametrize("count", [4, 5, 6, 8])
def test_nothing_to_see_carries_no_warning(count):
    points = rim(220, (230, 226), ANGLES[:count], [0.3 * each for each in NOISE[:count]])
    said = verdict(points, plain_fit(points))
    assert not said.warns and "wrong" not in said


def test_a_verdict_names_rows_and_tells_inches():
    points = rim(220, (230, 226), ANGLES, [0, 9, 0, 0, 0, 0, 0, 0])
    said = verdict(points, plain_fit(points), [1, 3, 4, 5, 6, 7, 8, 9], "in")
    assert said.startswith("Point 3 looks wrong") and "17 21/64 in (17.323) across" in said
    assert "one or two more" not in said and repr(said) == said


@pytest.mark.parametrize("count", [5, 6, 7, 8])
def test_careful_rims_accuse_hardly_anybody(count):
    """Readings out by a quarter of a millimetre at random: of sixty rims hardly one is doubted."""
    random = numpy.random.default_rng(7)
    angles = [0.2 + 2 * math.pi * k / count for k in range(count)]
    rims = [rim(220, (230, 226), angles, list(random.normal(0, 0.25, count))) for _ in range(60)]
    assert sum(plain_fit(points).suspect is not None for points in rims) <= 3


def test_a_circle_shows_itself_in_words():
    found = fit_circle(mm(rim(220, (230, 226), ANGLES, [0, 9, 0, 0, 0, 0, 0, 0])))
    assert "point 2 lies off it by" in found._repr_html_() and "looks wrong" in found._repr_html_()
    three = circle_through(("0 mm", "0 mm"), ("4 mm", "0 mm"), ("0 mm", "3 mm"))
    assert "centre across" in three._repr_html_() and "2.50 mm" in three._repr_html_() and "lies off" not in repr(three)


@pytest.mark.parametrize(("points", "words"), [
    ([("0 mm", "0 mm"), ("4 mm", "0"), ("0 mm", "3 mm")], "Point 2: .*unit"),
    ([("0 mm", "0 mm"), ("4 mm",), ("0 mm", "3 mm")], "Point 2: .*pair"),
    ([("0 mm", "0 mm"), "4 mm, 3 mm", ("0 mm", "3 mm")], "Point 2: .*pair"),
    ([("0 mm", "0 mm"), 5, ("0 mm", "3 mm")], "Point 2: .*pair"),
    ([(1, 2), (3, 4), (5, 7)], "Point 1: .*unit"),
    ([("0 mm", "0 mm"), ("4 mm", "1 kg"), ("0 mm", "3 mm")], "Point 2: .*mass"),
])  # fmt: skip
def test_points_that_cannot_be_read(points, words):
    with pytest.raises(MeasureError, match=words):
        fit_circle(points)
    with pytest.raises(MeasureError, match=words):
        circle_through(*points)


@pytest.mark.parametrize("points", [[], [("1 mm", "2 mm")], [("1 mm", "2 mm"), ("3 mm", "4 mm")]])
def test_too_few_points(points):
    with pytest.raises(ShapeError, match=f"here are {len(points)}: measure more"):
        fit_circle(points)
