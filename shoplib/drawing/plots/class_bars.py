"""A class report as bars: of each question how many were right, made the commonest slip, or left it open."""

from shoplib.drawing.plate import text_width
from shoplib.drawing.plots.plot import BLACK, HEADING, ORANGE, POINT, SKY, TEXT, WIDE, Plot, axes_at, text_at

ROW, HEAD, FOOT = 30, 84, 14  # px
TITLE = "How each question went"
KINDS = (  # what a piece of a bar stands for, its colour and its hatch
    ("right", SKY, ""), ("commonest slip", ORANGE, "//"), ("wrong in another way", "#ffffff", "xx"),
    ("left open", "#ffffff", ""),
)  # fmt: skip


def plot_class(report):
    """Show a class report as bars, a row for each question; how many were right stands beside it.

    Each bar is as long as its whole class, so that classes of any size look alike.
    """
    return Plot(TITLE, _spoken(report), report.table, HEAD + ROW * len(report.counted) + FOOT, _painter(report))


def pieces(each):
    """How many were right, made the commonest slip (of several one), were wrong in another way, left it open.

    >>> from collections import Counter
    >>> from shoplib.practice.class_report import Counted
    >>> pieces(Counted("rebates", 1, asked=20, right=9, open=2, slips=Counter({"a": 5, "b": 1})))
    (9, 5, 4, 2)
    """
    return each.right, each.times(), each.asked - each.right - each.open - each.times(), each.open


def _spoken(report):
    told = "; ".join(f"{each.name()}, {each.right} of {each.asked} right" for each in report.counted)
    return f"Bars, a row for each question: {told or 'none'}."


def _painter(report):
    return lambda figure: _paint(figure, report.counted)


def _paint(figure, counted):
    text_at(figure, 12, 10, TITLE, fontsize=HEADING, fontweight="bold")
    _key(figure)
    labels = [each.name() for each in counted]
    told = [f"{each.right} of {each.asked}" for each in counted]
    left = 24 + max((text_width(label, TEXT / POINT) for label in labels), default=0)
    right = 24 + max((text_width(text, TEXT / POINT, bold=True) for text in told), default=0)
    axes = axes_at(figure, left, HEAD, WIDE - left - right, ROW * max(1, len(counted)))
    axes.set_xlim(0, 1)
    axes.set_ylim(max(1, len(counted)) - 0.5, -0.5)
    axes.set_axis_off()
    for place, each in enumerate(counted):
        start = 0.0
        for size, (_, colour, hatch) in zip(pieces(each), KINDS):
            share = size / each.asked
            if size:
                axes.barh(
                    place, share, left=start, height=0.66, color=colour, edgecolor=BLACK, hatch=hatch, linewidth=1.2,
                    clip_on=False,
                )  # fmt: skip
            start += share
        for at, words, side, weight in ((0, labels[place], "right", "normal"), (1, told[place], "left", "bold")):
            axes.annotate(
                words, (at, place), xytext=(-7 if side == "right" else 7, 0), textcoords="offset points", ha=side,
                va="center", fontweight=weight,
            )


def _key(figure):
    """What each kind of piece stands for, in a row under the title."""
    from matplotlib.patches import Rectangle

    wide, high = figure.get_size_inches() * 72 / POINT
    x, y = 12.0, 56.0
    for words, colour, hatch in KINDS:
        figure.add_artist(Rectangle(
            (x / wide, 1 - (y + 9) / high), 30 / wide, 18 / high, facecolor=colour, edgecolor=BLACK, hatch=hatch,
            linewidth=1.2, transform=figure.transFigure,
        ))  # fmt: skip
        figure.text((x + 38) / wide, 1 - y / high, words, va="center")
        x += 38 + text_width(words, TEXT / POINT) + 26
