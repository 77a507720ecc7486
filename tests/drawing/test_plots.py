"""The plots as a reader sees them: heights and lengths are measured in the picture and compared with the model."""

import base64
import html
import math
import os
import re
import subprocess
import sys
from fractions import Fraction
from xml.etree import ElementTree

import matplotlib
import numpy
import published
import pytest
from hypothesis import given
from hypothesis import strategies as st
from models import EXAMPLES

from shoplib import CircleJig, MeasureError, PanelScrew, PanelSeason, ShapeError, StaveRing, plot_budget, plot_year
from shoplib.drawing.plate import text_width
from shoplib.drawing.plots import plot
from shoplib.drawing.plots.year import inch_ticks, millimetre_ticks
from shoplib.maths.year import MONTHS, RoomYear
from shoplib.model import answer

CLOSE = pytest.approx
SVG = "{http://www.w3.org/2000/svg}"
PANEL = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred")
SCREW = PanelScrew(
    "50 mm", "20 mm", "19 mm", "40 mm", "4 mm", "2.8 mm", "8 mm", "6 mm", "12 mm", "75 mm", "Ash, white", "flat",
    "8 %", "6 %", "12 %", washer_thickness="1 mm", washer_diameter="10 mm",
)  # fmt: skip
JIG = CircleJig("440 mm", "12 mm", ring_width="20 mm")
YEARS = [model for cls in (PanelSeason, PanelScrew) for model in EXAMPLES[cls]]


class Seen:
    """A picture of a year, read with a rule: what stands at which height, by the marks beside it."""

    def __init__(self, shown):
        self.root = ElementTree.fromstring(shown.svg())
        self.sides = [self._marks(self.root.find(f".//*[@id='axes_{k}']")) for k in (1, 2)]

    @staticmethod
    def _marks(axes):
        """The texts beside an axis and how high each stands."""
        marks = [each for each in axes.iter() if (each.get("id") or "").startswith("ytick_")]
        tick = {"".join(mark.itertext()).strip(): mark for mark in marks}
        return {text: float(next(mark.iter(SVG + "use")).get("y")) for text, mark in tick.items()}

    def size(self, height, side):
        """What a height comes to on one side's scale, straight through its outermost marks, as all others must lie."""
        marks = sorted((height, read(text)) for text, height in self.sides[side].items())
        (low, first), (high, last) = marks[0], marks[-1]
        slope = (last - first) / (high - low)
        assert all(mark == CLOSE(first + slope * (at - low), abs=1e-3 * abs(last - first)) for at, mark in marks)
        return first + slope * (height - low)

    def dots(self):
        """Heights of the months' dots, January first."""
        return [y for _, y in self.dots_and_places()]

    def dots_and_places(self):
        """Where the months' dots stand, January first; the key has one more, below all others."""
        uses = [each for each in self.root.iter(SVG + "use") if plot.BLUE.lower() in (each.get("style") or "")]
        dots = sorted((float(dot.get("x")), float(dot.get("y"))) for dot in uses)
        key = max(y for _, y in dots)
        return [(x, y) for x, y in dots if y != key]

    def level_lines(self, colour, width):
        """Heights of the level lines of one pen inside the axes."""
        pen = f"stroke: {colour.lower()}; stroke-width: {width}"
        for path in self.root.find(".//*[@id='axes_1']").iter(SVG + "path"):
            heights = [y for _, y in corners(path)]
            if pen in (path.get("style") or "") and len(heights) == 2 and heights[0] == heights[1]:
                yield heights[0]


def read(text):
    """A number beside an axis: '-1 1/32' or '0.5'."""
    size = float(sum(map(Fraction, text.removeprefix("-").split())))
    return -size if text.startswith("-") else size


def corners(path):
    return [tuple(map(float, pair)) for pair in re.findall(r"[ML] (-?[\d.]+) (-?[\d.]+)", path.get("d") or "")]


def at(model, name, moisture):
    """The model's own result of a damp season with this moisture (a ratio), in mm."""
    changed = model.replace(dry=f"{100 * moisture:.12f} %", damp=f"{100 * moisture:.12f} %")
    return getattr(changed, name).m_as("mm")


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("model, name", [(PANEL, "gap_damp"), (SCREW, "move_damp")], ids=["panel", "screw"])
def test_each_dot_stands_where_the_model_says(model, name, unit):
    seen, year = Seen(plot_year(model, unit)), RoomYear(0.06, 0.12)
    heights = seen.dots()
    assert len(heights) == 12
    for month, height in zip(year.months(), heights):
        wanted = at(model, name, month.moisture)
        sizes = [seen.size(height, side) * (25.4 if (side == 0) == (unit == "in") else 1.0) for side in (0, 1)]
        assert sizes == CLOSE([wanted, wanted], abs=0.004), month.name


def test_each_dot_stands_over_its_month_and_what_its_wood_has_come_to():
    seen = Seen(plot_year(PANEL, driest="July"))
    places = [x for x, _ in seen.dots_and_places()]
    texts = [(each.text, float(each.get("x") or 0)) for each in seen.root.iter(SVG + "text")]
    for month, place in zip(RoomYear(0.06, 0.12, "July").months(), places):
        under = [text for text, x in texts if x == CLOSE(place, abs=0.01)]
        assert under == [month.name[:3], f"{100 * month.moisture:.1f}"]


@pytest.mark.parametrize("model, wood", [(PANEL, [(-9, 0)]), (SCREW, [(-9, -1), (1, 9)])], ids=["panel", "screw"])
def test_what_is_hatched_is_wood(model, wood):
    seen, found = Seen(plot_year(model)), []
    for path in seen.root.find(".//*[@id='axes_1']").iter(SVG + "path"):
        if "fill: url(#" in (path.get("style") or ""):
            sizes = [seen.size(y, 0) for _, y in corners(path)]
            found.append((min(sizes), max(sizes)))
    assert len(found) == len(wood)
    for (low, high), (least, most) in zip(sorted(found), wood):
        assert low == CLOSE(least, abs=0.004) if least > -9 else low < most
        assert high == CLOSE(most, abs=0.004) if most < 9 else high > least


def test_the_two_seasons_are_those_of_the_model():
    rows = {month: told for month, *_, told in plot_year(PANEL).table.rows}
    assert rows["February"] == f"{PANEL.gap_dry.magnitude:.2f} mm"
    assert rows["August"] == f"too large by {-PANEL.gap_damp.magnitude:.2f} mm"
    rows = {month: told for month, *_, told in plot_year(SCREW, "in", "July").table.rows}
    assert rows["July"] == f"{-SCREW.move_dry.m_as('inch'):.3f} in inward"
    assert rows["January"] == f"{SCREW.move_damp.m_as('inch'):.3f} in outward"


def test_the_gap_from_printed_tables_alone():
    """Wood Handbook Table 4-2 (70 °F) and Table 13-5: white ash, 0.274 % of its width for 1 %; from 8 %, 418 mm."""
    cells = published.rows("emc", temp_F="70")
    table = [float(cell["humidity"]) for cell in cells], [float(cell["moisture"]) for cell in cells]
    seen = Seen(plot_year(PANEL))
    for month, height in zip(RoomYear(0.06, 0.12).months(), seen.dots()):
        content = numpy.interp(100 * month.humidity, *table)
        gap = (420 - 418 * (1 + 0.00274 * (content - 8))) / 2
        assert seen.size(height, 0) == CLOSE(gap, abs=0.06), month.name


def test_limits_stand_at_their_place():
    seen = Seen(plot_year(PANEL))
    assert [seen.size(y, 0) for y in seen.level_lines(plot.BLACK, 2.6)] == CLOSE([0.0], abs=0.002)
    seen = Seen(plot_year(SCREW))
    sides = sorted(seen.size(y, 0) for y in seen.level_lines(plot.BLACK, 2.6))
    assert sides == CLOSE([-1.0, 1.0], abs=0.002), "hole 6 mm, shank 4 mm"


def test_the_last_lap_is_a_limit_where_the_panel_comes_near_it():
    near, far = PANEL.replace(rebate_width="6 mm"), PANEL.replace(rebate_width="10 mm")
    seen = Seen(plot_year(near))
    assert sorted(seen.size(y, 0) for y in seen.level_lines(plot.BLACK, 2.6)) == CLOSE([0.0, 3.0], abs=0.004)
    assert "no lap left" in near_text(near) and "no lap left" not in near_text(far)


def near_text(model):
    return " ".join(ElementTree.fromstring(plot_year(model).svg()).itertext())


def test_seasons_and_the_day_it_was_made_are_marked():
    seen = Seen(plot_year(PANEL))
    seasons = ((plot.VERMILION, PANEL.gap_dry), (plot.GREEN, PANEL.gap_damp), (plot.BLACK, PANEL.gap_as_made))
    for colour, wanted in seasons:
        assert [seen.size(y, 0) for y in seen.level_lines(colour, 2.4)] == CLOSE([wanted.magnitude], abs=0.004)


def test_the_spoken_text_names_the_months_past_the_limit():
    page = plot_year(PANEL)._repr_html_()
    spoken = html.unescape(re.search(r'<img alt="([^"]*)"', page)[1])
    assert "invented room" in spoken and "February 2.15 mm" in spoken and "August too large by 1.29 mm" in spoken
    assert spoken.endswith("Past its limit in June, July, August, September and October.")
    pressed = [month.name for month in RoomYear(0.06, 0.12).months() if at(PANEL, "gap_damp", month.moisture) < 0]
    assert pressed == list(MONTHS[5:10])
    assert plot_year(SCREW).description.endswith("Within its limits all year.")
    jammed = SCREW.replace(from_fixed="110 mm")
    assert plot_year(jammed).description.endswith("Past its limit in July, August and September.")


# ---- error budgets --------------------------------------------------------------------------------------------------


def bars(shown):
    """All bars of a picture from the top down, each with its left end and its length, in px of the picture."""
    found = []
    for path in ElementTree.fromstring(shown.svg()).find(".//*[@id='axes_1']").iter(SVG + "path"):
        if len(corners(path)) == 4 and "stroke: #000000" in (path.get("style") or ""):
            xs, ys = zip(*corners(path))
            found.append((round(min(ys)), min(xs), max(xs) - min(xs)))
    return sorted(found)


@pytest.mark.parametrize("unit", ["mm", "in"])
@pytest.mark.parametrize("model, name", [(JIG, "inner_pivot"), (PANEL, "gap_damp"), (SCREW, "spare")])
def test_bars_are_as_long_as_the_shares(model, name, unit):
    budget = model.budget(name, unit=unit)
    found, count = bars(plot_budget(budget)), len(budget.shares)
    assert len(found) == 2 * count + 1
    scale = found[-1][2] / budget.root_sum_square.magnitude
    shares = [share.effect.magnitude * scale for share in budget.shares]
    assert [length for *_, length in found[:count]] == CLOSE(shares, abs=0.01)
    assert shares == sorted(shares, reverse=True), "largest first"
    end_to_end = found[count:-1]
    assert [length for *_, length in end_to_end] == CLOSE(shares, abs=0.01)
    assert end_to_end[-1][1] + end_to_end[-1][2] - found[0][1] == CLOSE(budget.worst_case.magnitude * scale, abs=0.01)
    assert all(left == CLOSE(found[0][1]) for _, left, _ in [*found[: count + 1], found[-1]])


def test_worst_case_and_root_sum_square_are_marked_through_the_bars():
    budget = PANEL.budget("gap_damp")
    shown = plot_budget(budget)
    left, scale = bars(shown)[-1][1], bars(shown)[-1][2] / budget.root_sum_square.magnitude
    marks = {}
    for path in ElementTree.fromstring(shown.svg()).find(".//*[@id='axes_1']").iter(SVG + "path"):
        if "stroke-dasharray" in (path.get("style") or ""):
            (one, _), (other, _) = corners(path)
            assert one == other, "upright"
            marks[path.get("style").split("stroke-dasharray: ")[1].split(";")[0]] = one
    dashed, dotted = (marks[dashes] for dashes in sorted(marks, key=lambda each: -float(each.split(",")[0])))
    assert dashed == CLOSE(left + budget.worst_case.magnitude * scale, abs=0.01)
    assert dotted == CLOSE(left + budget.root_sum_square.magnitude * scale, abs=0.01)


@pytest.mark.parametrize("unit", ["mm", "in"])
def test_bars_carry_the_table_s_own_texts(unit):
    budget = JIG.budget("inner_pivot", unit=unit)
    texts = [each.text for each in ElementTree.fromstring(plot_budget(budget).svg()).iter(SVG + "text")]
    for words, out, moved, _ in budget.table.rows[:-2]:
        assert {words, out, moved} <= set(texts)
    assert {row[2] for row in budget.table.rows[-2:]} <= set(texts)
    assert repr(budget.table) in repr(plot_budget(budget))


def test_a_share_of_one_side_only_says_so_and_looks_so():
    budget = StaveRing("440 mm", "400 mm", 12).budget("closing_gap")
    assert any(share.one_sided for share in budget.shares), "the example has a kink"
    picture = plot_budget(budget).svg()
    assert "one side only" in picture and plot.ORANGE.lower() in picture


# ---- what holds for all of them -------------------------------------------------------------------------------------


def shown():
    for model in YEARS:
        for unit, driest in (("mm", "February"), ("in", "July")):
            yield plot_year(model, unit, driest)
    for models in EXAMPLES.values():
        for model, place, unit in ((models[0], 0, "mm"), (models[-1], -1, "in")):
            results = model.results().items()
            names = [name for name, item in results if not item.plan and not answer(model.plain, name)[1]]
            yield plot_budget(model.budget(names[place], unit=unit))


SHOWN = list(shown())


@pytest.mark.parametrize("each", SHOWN, ids=lambda each: each.title)
def test_texts_are_large_and_stay_on_the_white_ground(each):
    root = ElementTree.fromstring(each.svg())
    left, top, wide, high = map(float, root.get("viewBox").split())
    assert (left, top, wide) == (0, 0, 820 * 0.75) and high == CLOSE(each.high * 0.75)
    ground = next(root.iter(SVG + "path"))
    assert ground.get("style") == "fill: #ffffff"
    assert corners(ground) == [(0, high), (wide, high), (wide, 0), (0, 0)]
    texts = list(root.iter(SVG + "text"))
    assert len(texts) >= 7
    for text in texts:
        size = float(re.search(r"font-size: ([\d.]+)px", text.get("style"))[1])
        assert size >= 12.0, "16 px on the page"
        assert _inside(text, size, wide, high), text.text


def _inside(text, size, wide, high):
    style, place = text.get("style"), text.get("transform") or ""
    x, y = (float(text.get(each) or 0.0) for each in "xy")
    moved = re.match(r"translate\(([-\d.]+) ([-\d.]+)\)", place)
    if moved:
        x, y = float(moved[1]), float(moved[2])
    long = text_width(text.text, size, bold="font-weight: 700" in style)
    share = 0.5 if "middle" in style else 1.0 if "text-anchor: end" in style else 0.0
    left = x - share * long
    return left >= 0 and left + long <= wide and size * 0.8 <= y <= high - 2


def test_never_by_colour_alone():
    """Okabe and Ito's colours beside black, white and greys; and each line has dashes of its own."""
    ours = {plot.BLACK, plot.ORANGE, plot.SKY, plot.GREEN, plot.BLUE, plot.VERMILION, plot.PURPLE}
    pictures = [plot_year(PANEL).svg(), plot_year(SCREW, "in").svg(), plot_budget(PANEL.budget("gap_damp")).svg()]
    for picture in pictures:
        found = {colour.upper() for colour in re.findall(r"#[0-9a-fA-F]{6}\b", picture)}
        plain = {each for each in found if len({each[1:3], each[3:5], each[5:]}) == 1}
        assert found - plain - {each.upper() for each in ours} <= {"#FAEEF5"}
    axes = ElementTree.fromstring(pictures[0]).find(".//*[@id='axes_1']")
    dashes = [re.search(r"stroke-dasharray: ([\d., ]+)", path.get("style") or "") for path in axes.iter(SVG + "path")]
    assert len({each[1] for each in dashes if each}) == 3
    assert "<pattern" in pictures[0] and "<pattern" in pictures[2]


def test_it_fits_the_page_and_carries_its_own_picture():
    each = plot_year(PANEL)
    page = each._repr_html_()
    assert "max-width:820px" in page and page.count("<img") == page.count('<img alt="') == 1
    assert base64.b64decode(re.search(r'base64,([^"]*)"', page)[1]).decode() == each.svg()
    assert repr(each) == f"{each.title}\n{each.table}"


FRESH = """
import sys
from shoplib import PanelSeason, plot_year
panel = PanelSeason("420 mm", "1 mm", "Ash, white", "flat", "8 %", "6 %", "12 %", ring="mitred")
assert "matplotlib" not in sys.modules
page = plot_year(panel)._repr_html_()
assert "matplotlib.pyplot" not in sys.modules
sys.stdout.write(page)
"""


@pytest.mark.parametrize("seed", ["1", "2"])
def test_same_bytes_in_any_process_whatever_a_user_has_set(seed, tmp_path):
    (tmp_path / "matplotlibrc").write_text("font.size: 31\nsvg.fonttype: path\nsavefig.bbox: tight\n", encoding="utf-8")
    surroundings = os.environ | {"PYTHONHASHSEED": seed, "MPLCONFIGDIR": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", FRESH], capture_output=True, text=True, env=surroundings)
    assert done.returncode == 0, done.stderr
    page = plot_year(PANEL)._repr_html_()
    assert done.stdout == page == plot_year(PANEL)._repr_html_()
    assert "<dc:date>" not in plot_year(PANEL).svg()


def test_matplotlib_says_nothing_on_a_page(tmp_path):
    """Where its folder cannot be used it has a remark to make, and makes it to the page."""
    (tmp_path / "no_folder").touch()
    surroundings = os.environ | {"MPLCONFIGDIR": str(tmp_path / "no_folder")}
    run = {"capture_output": True, "text": True, "env": surroundings}
    assert subprocess.run([sys.executable, "-c", "import matplotlib.font_manager"], **run).stderr
    done = subprocess.run([sys.executable, "-c", FRESH], **run)
    assert (done.returncode, done.stderr, done.stdout) == (0, "", plot_year(PANEL)._repr_html_())


def test_a_user_s_settings_are_left_as_they_are():
    with matplotlib.rc_context({"font.size": 31.0, "savefig.bbox": "tight"}):
        before = dict(matplotlib.rcParams)
        picture = plot_year(PANEL).svg()
        assert dict(matplotlib.rcParams) == before
    assert picture == plot_year(PANEL).svg()


@pytest.mark.parametrize("missing", ["matplotlib", "numpy"])
def test_without_matplotlib_the_table_stands_for_it(missing, monkeypatch):
    monkeypatch.setitem(sys.modules, "matplotlib" if missing == "matplotlib" else "matplotlib.figure", None)
    for each in (plot_year(PANEL), plot_budget(JIG.budget("inner_pivot"))):
        page = each._repr_html_()
        assert "matplotlib is not installed here, so the plot is shown as its table." in page
        assert each.table._repr_html_() in page and "<img" not in page


def test_what_has_no_year_is_refused():
    for other in (JIG, "a panel"):
        with pytest.raises(ShapeError, match="PanelSeason"):
            plot_year(other)
    with pytest.raises(MeasureError, match="no month"):
        plot_year(PANEL, driest="winter")
    with pytest.raises(ShapeError, match="No air of 21 °C makes wood as damp as 26.0 %"):
        plot_year(PANEL.replace(damp="26 %"))


# ---- the scales -----------------------------------------------------------------------------------------------------

spans = st.tuples(st.floats(-60, 60), st.floats(0.02, 200))


@given(spans)
def test_marks_of_both_scales(span):
    low, high = span[0], span[0] + span[1]
    for ticks, inch in ((millimetre_ticks(low, high), 1.0), (inch_ticks(low, high), 25.4)):
        assert 1 <= len(ticks) <= 9
        sizes = [size for size, _ in ticks]
        assert low - 1e-9 <= sizes[0] and sizes[-1] <= high + 1e-9
        assert len({text for _, text in ticks}) == len(ticks)
        assert [read(text) * inch for _, text in ticks] == CLOSE(sizes, abs=1e-6)


@pytest.mark.parametrize("low, high, wanted", [
    (-1.0, 2.2, ["-1/32", "0", "1/32", "1/16"]),
    (0.0, 0.4, ["0.000", "0.002", "0.004", "0.006", "0.008", "0.010", "0.012", "0.014"]),
    (0.0, 50.8, ["0", "1/4", "1/2", "3/4", "1", "1 1/4", "1 1/2", "1 3/4", "2"]),
])  # fmt: skip
def test_inches_read_as_on_a_rule(low, high, wanted):
    assert [text for _, text in inch_ticks(low, high)] == wanted


def test_a_mark_is_a_round_number():
    assert [text for _, text in millimetre_ticks(-1.3, 2.3)] == ["-1.0", "-0.5", "0.0", "0.5", "1.0", "1.5", "2.0"]
    assert all(math.isfinite(size) for size, _ in millimetre_ticks(-500.0, 1500.0))
