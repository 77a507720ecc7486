"""An error budget as bars: what each measurement moves a result by, largest first."""

from shoplib.drawing.plate import text_width
from shoplib.drawing.plots.plot import BLACK, HEADING, ORANGE, POINT, SKY, TEXT, WIDE, Plot, axes_at, text_at

ROW, HEAD, FOOT = 46, 50, 14  # px
APART = 0.3  # of a row, between the shares and what they make together
ALL = ("worst case: all at once,\neach the bad way", "root-sum-square: as\nindependent errors add up")


def plot_budget(budget):
    """Show an error budget as bars, largest first; below them what all make together.

    The worst case is made of all bars, end to end. Root-sum-square, what independent errors are likely to make
    together, is marked through all of them, and so is the worst case. Unit and figures are those of the budget's table.

    >>> from shoplib import CircleJig
    >>> plot_budget(CircleJig("440 mm", "12 mm").budget("outer_pivot"))
    Error budget: outside cut, pivot, moved by
    measurement                    out by     outside cut, pivot, moved by
    outside diameter               ± 0.50 mm  0.25 mm                       both ways
    cutter diameter                ± 0.05 mm  0.03 mm                       both ways
    all at once, each the bad way             0.28 mm                       worst case
    as independent errors add up              0.25 mm                       root-sum-square
    """
    title = f"Error budget: {budget.table.head[2]}"
    high = HEAD + ROW * (len(budget.table.rows) + APART) + FOOT
    return Plot(title, _spoken(budget), budget.table, high, lambda figure: _paint(figure, title, budget))


def _spoken(budget):
    *rows, worst, likely = budget.table.rows
    shares = "; ".join(f"{words}, out by {out}, {moved}, {ways}" for words, out, moved, ways in rows)
    return f"Bars, largest first: {shares or 'none'}. Worst case {worst[2]}; root-sum-square {likely[2]}."


def _size(effect):
    """The length of a bar: all effects of a budget are in one unit."""
    return float(getattr(effect, "magnitude", effect))


def _paint(figure, title, budget):
    *rows, worst, likely = budget.table.rows
    sizes = [_size(share.effect) for share in budget.shares]
    labels = [f"{words}\n{out}" for words, out, *_ in rows] + list(ALL)
    told = [moved if ways == "both ways" else f"{moved}, {ways}" for _, _, moved, ways in rows]
    told += [worst[2], likely[2]]
    ends = [*sizes, _size(budget.worst_case), _size(budget.root_sum_square)]
    places = [*range(len(sizes)), len(sizes) + APART, len(sizes) + 1 + APART]
    axes = _axes(figure, labels, told, places, ends)
    for place, (size, share) in enumerate(zip(sizes, budget.shares)):
        _bar(axes, place, size, one_sided=share.one_sided)
    _end_to_end(axes, places[-2], sizes, budget.shares)
    axes.barh(places[-1], ends[-1], height=0.62, color="#ffffff", edgecolor=BLACK, linewidth=2.5, zorder=2)
    for place, end, text in zip(places, ends, told):
        axes.annotate(
            text, (end, place), xytext=(7, 0), textcoords="offset points", va="center", fontweight="bold",
            bbox={"facecolor": "white", "edgecolor": "none", "pad": 1.5}, zorder=4,
        )
    _marks(axes, places, ends)
    text_at(figure, 12, 12, title, fontsize=HEADING, fontweight="bold")


def _axes(figure, labels, told, places, ends):
    """Bars from left to right, the first on top; room on the left for the longest label, on the right for a text."""
    left = 24 + max(text_width(line, TEXT / POINT) for label in labels for line in label.split("\n"))
    longest = max(ends) or 1.0
    right = max(text_width(text, TEXT / POINT, bold=True) for text in told) + 24
    axes = axes_at(figure, left, HEAD, WIDE - left - right, ROW * (places[-1] + 1))
    axes.set_xlim(0, longest)
    axes.set_ylim(places[-1] + 0.5, -0.5)
    axes.set_yticks([])
    axes.set_xticks([])
    for place, label in zip(places, labels):
        for line, rise in zip(label.split("\n"), (2.5, -13)):
            axes.annotate(line, (0, place), xytext=(-8, rise), textcoords="offset points", ha="right", va="baseline")
    axes.spines[["top", "right", "bottom"]].set_visible(False)
    axes.spines["left"].set_linewidth(2)
    return axes


def _bar(axes, place, size, left=0.0, one_sided=False):
    """A share's bar, another colour and hatch where only one side can be made."""
    colour, hatch = (ORANGE, "\\\\") if one_sided else (SKY, "//")
    axes.barh(place, size, left=left, height=0.62, color=colour, edgecolor=BLACK, hatch=hatch, linewidth=1.5, zorder=2)


def _end_to_end(axes, place, sizes, shares):
    """The worst case, made of all shares one after the other."""
    left = 0.0
    for size, share in zip(sizes, shares):
        _bar(axes, place, size, left, share.one_sided)
        left += size


def _marks(axes, places, ends):
    """What all make together, marked through the bars above; and a line between those and these."""
    through = {"color": BLACK, "linewidth": 1.8, "clip_on": False, "zorder": 3}
    axes.plot([ends[-2]] * 2, [-0.5, places[-2] - 0.31], linestyle=(0, (6, 3)), **through)
    axes.plot([ends[-1]] * 2, [-0.5, places[-1] - 0.31], linestyle=(0, (1, 2)), **through)
    axes.axhline(places[-2] - 0.5 - APART / 2, color="#555555", linewidth=1.0)
