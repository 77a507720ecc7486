"""Plots, where a reader would rather look than read: the year's seasons, and an error budget."""

from shoplib.drawing.plots.bars import plot_budget
from shoplib.drawing.plots.plot import Plot
from shoplib.drawing.plots.year import plot_year

__all__ = ["Plot", "plot_budget", "plot_year"]
