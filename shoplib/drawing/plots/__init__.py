"""Plots, where a reader would rather look than read: the year's seasons, an error budget, a class."""

from shoplib.drawing.plots.bars import plot_budget
from shoplib.drawing.plots.class_bars import plot_class
from shoplib.drawing.plots.plot import Plot
from shoplib.drawing.plots.year import plot_year

__all__ = ["Plot", "plot_budget", "plot_class", "plot_year"]
