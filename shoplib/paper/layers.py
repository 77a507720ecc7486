"""The layers of a drawing as they are on paper, and those that only paper has."""

from shoplib.drawing.sheet import LAYERS, Layer

LAYERS_ON_PAPER = LAYERS | {
    "frame": Layer("edge of a page", 0.8, (), "#9a9a9a"),
    "target": Layer("register mark", 0.0, (), "#000000", "#000000"),
    "here": Layer("this page", 1.4, (), "#003b5c", "#cfe8f7", "slant"),
    "mark": Layer("register mark", 1.1, (), "#000000"),
    "rule": Layer("check ruler", 1.1, (), "#000000"),
    "grid": Layer("line of a table", 0.7, (), "#8a8a8a"),
    "room": Layer("room to work in", 0.6, (), "#8a8a8a", "#ffffff"),
    "box": Layer("box to tick", 1.0, (), "#333333", "#ffffff"),
}
