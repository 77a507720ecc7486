"""Places one view in its cell: its scale, its dimensions in rows beside it, its notes in columns."""

import math

from shoplib.drawing.plate import Text, text_width
from shoplib.drawing.rows import clear_place, rows
from shoplib.drawing.sheet import Arc, Area, Circle, EndGrain, Line

SMALLER = (1.0, 0.9, 0.8, 0.7)  # shares of the largest scale, tried in turn until all texts have their room
NOTHING = 1e-6  # so that the last digit of a sine, which differs between computers, decides nothing


def _between(middle, half, low, high, lowest, highest):
    """The middle of a text moved in between low and high; one too long for that, within the outermost."""
    if high - low < 2 * half:
        middle, low, high = (low + high) / 2, lowest, highest
    return min(max(middle, low + half), high - half)


def _box_between(start, end):
    (x1, y1), (x2, y2) = start, end
    return min(x1, x2), min(y1, y2), max(x1, x2), max(y1, y2)


class Placing:
    """The placing of one view in its cell."""

    def __init__(self, plate, view, text):
        self.plate, self.view, self.text = plate, view, text
        self.row = text * 1.75
        self.rows = {side: 0 for side in ("below", "above", "left", "right")}
        for each in view.dimensions:
            self.rows[each.side] = max(self.rows[each.side], each.row + 1)
        self.columns = {side: self._column(side) for side in ("left", "right")}
        self.along = list(zip(view.dimensions, rows(view, text, text_width)))
        self.bounds = view.bounds()
        self.reaches, self.lines, self.texts = {}, [], []

    def _column(self, side):
        """Width of the notes on one side."""
        lines = [line for note in self.view.notes if note.side == side for line in note.text.split("\n")]
        return max((text_width(line, self.text) for line in lines), default=-1.6 * self.text) + 1.6 * self.text

    def _bands(self):
        """Room for the rows of dimensions on each side, and for the title."""
        band = {side: n * self.row + (0.9 * self.text if n else 0.0) for side, n in self.rows.items()}
        return band, 2.1 * self.text if self.view.title else 0.0

    def needed(self, scale):
        """Width and height of a cell that holds the view at this scale with all its texts."""
        band, title = self._bands()
        _, low_y, _, high_y = self.bounds
        left, right = self._reach(scale)
        across = right - left + band["left"] + band["right"]
        foot, head = low, high = scale * low_y - band["below"], scale * high_y + band["above"]
        for each, row in self.along:
            if each.side in ("left", "right"):
                low, high = row.moved_apart(scale, low, high)
        tall = head - foot + 2 * max(foot - low, high - head)  # the view stands in the middle
        upright = self._longest("left", "right")
        width = max(across, text_width(self.view.title, self.text, bold=True)) + sum(self.columns.values())
        return width, title + max(tall, upright, *map(self._notes_height, ("left", "right")))

    def _longest(self, *sides):
        return max((2 * row.half for each, row in self.along if each.side in sides), default=0.0)

    def _reach(self, scale):
        """How far left and right the view runs at this scale with its level dimensions and their texts."""
        if scale not in self.reaches:
            self.reaches[scale] = self._find_reach(scale)
        return self.reaches[scale]

    def _level(self):
        return [row for each, row in self.along if each.side in ("below", "above")]

    def _arrow_reach(self, scale):
        """How far left and right the view runs with its level dimensions, their texts left out."""
        ends = [scale * self.bounds[0], scale * self.bounds[2]]
        for row in self._level():
            tail = 0.0 if scale * (row.high - row.low) >= 2.2 * self.text else 1.1 * self.text
            ends += [scale * row.low - tail, scale * row.high + tail]
        return min(ends), max(ends)

    def _find_reach(self, scale):
        low, high = self._arrow_reach(scale)
        more = max(0.0, self._longest("below", "above") - (high - low)) / 2
        low, high = low - more, high + more
        leftward = self.rows["right"] > 0 and not self.rows["left"]
        for row in self._level():
            low, high = row.moved_apart(scale, low, high, leftward)
        return low, high

    def _notes_height(self, side):
        lines = [note.text.count("\n") + 1 for note in self.view.notes if note.side == side]
        return self.text * (1.25 * sum(lines) + 0.5 * len(lines))

    def place(self, x, y, w, h, scale=None):
        band, title = self._bands()
        left, right = x + self.columns["left"] + band["left"], x + w - self.columns["right"] - band["right"]
        top, bottom = y + title + band["above"], y + h - band["below"]
        _, low_y, _, high_y = self.bounds
        if scale is None:
            foot, head = self._overhang(self._fitting(right - left, bottom - top))
            top, bottom = top + head, bottom - foot
            scale = self._fitting(right - left, bottom - top)
        self.scale = scale
        self.dx = self._middle(left, right)
        self.dy = (top + bottom) / 2 + scale * (low_y + high_y) / 2
        self.cell, self.below_title, self.room = (x, y, x + w, y + h), y + title, (top, bottom)
        reach_left, reach_right = self._reach(scale)
        self.left, self.right = max(left, self.dx + reach_left), min(right, self.dx + reach_right)
        self.top, self.bottom = self.dy - scale * high_y, self.dy - scale * low_y
        self.plate.scales.append(scale)
        self._place_title(x, y)
        self.plate.shapes += [self._moved(shape) for shape in self.view.shapes]
        for side in ("left", "right"):
            self._place_notes(side)
        for each, row in sorted(self.along, key=lambda both: both[0].side in ("left", "right")):
            self._place_dimension(each, row)

    def _fitting(self, across, down):
        """The largest scale at which the view fits, smaller where texts beside their dimensions have room only then."""
        low_x, low_y, high_x, high_y = self.bounds
        wide, tall = max(high_x - low_x, 1e-9), max(high_y - low_y, 1e-9)
        largest = min(across / wide, down / tall)
        across += sum(self.columns[side] for side in ("left", "right") if not self.rows[side])  # under the notes
        for share in SMALLER:
            left, right = self._reach(share * largest)
            if right - left <= across + NOTHING:
                return share * largest
        return largest

    def _overhang(self, scale):
        """How far arrowheads of short upright dimensions, which point inward, reach over the view's foot and head."""
        ends = [(row.low, row.high) for each, row in self.along if each.side in ("left", "right")]
        short = [(low, high) for low, high in ends if scale * (high - low) < 2.2 * self.text]
        tail, band = 1.1 * self.text, self._bands()[0]
        foot = max((tail - scale * (low - self.bounds[1]) for low, _ in short), default=0.0) - band["below"]
        head = max((tail - scale * (self.bounds[3] - high) for _, high in short), default=0.0) - band["above"]
        return max(foot, 0.0), max(head, 0.0)

    def _middle(self, left, right):
        """How far right the view moves: its reach with all texts in the middle, but shapes and arrows in the room."""
        low, high = self._reach(self.scale)
        middle = (left + right) / 2 - (low + high) / 2
        low, high = self._arrow_reach(self.scale)
        return max(min(middle, right - high), left - low)

    def _place_title(self, x, y):
        """The title over the view, smaller where it would be wider than the cell."""
        if self.view.title:
            fits = (self.cell[2] - x) / text_width(self.view.title, 1.0, bold=True)
            size = min(self.text, fits)
            self.plate.texts.append(Text(x, y + 0.7 * self.text, self.view.title, size, "start", bold=True))

    def at(self, point):
        return (self.dx + self.scale * point[0], self.dy - self.scale * point[1])

    def _moved(self, shape):
        if isinstance(shape, Line):
            return Line(shape.layer, self.at(shape.start), self.at(shape.end), shape.arrow)
        if isinstance(shape, Circle):
            return Circle(shape.layer, self.at(shape.centre), self.scale * shape.radius)
        if isinstance(shape, Arc):
            radius = self.scale * shape.radius
            return Arc(shape.layer, self.at(shape.centre), radius, -shape.start, -shape.end, shape.arrow)
        grain = EndGrain(self.at(shape.grain.pith)) if isinstance(shape.grain, EndGrain) else shape.grain
        return Area(shape.layer, tuple(self._outline(each) for each in shape.outlines), grain)

    def _outline(self, outline):
        if isinstance(outline, Circle):
            return self._moved(outline)
        return tuple(map(self.at, outline))

    def _place_dimension(self, each, row):
        """Extension lines out to the row, the dimension line with arrowheads, the text above it."""
        (x1, y1), (x2, y2) = self.at(each.start), self.at(each.end)
        gap = self.text * 0.35
        if each.side in ("below", "above"):
            out = 1 if each.side == "below" else -1
            y = (self.bottom if out > 0 else self.top) + out * (each.row + 1) * self.row
            self._extension((x1, y1 + out * gap), (x1, y + out * gap))
            self._extension((x2, y2 + out * gap), (x2, y + out * gap))
            self._arrows((x1, y), (x2, y))
            self._dimension_text(each, row, (x1, x2), y)
        else:
            out = 1 if each.side == "right" else -1
            x = (self.right if out > 0 else self.left) + out * (each.row + 1) * self.row
            self._extension((x1 + out * gap, y1), (x + out * gap, y1))
            self._extension((x2 + out * gap, y2), (x + out * gap, y2))
            self._arrows((x, y1), (x, y2), (0.0, 1.0))
            self._dimension_text(each, row, (y1, y2), x)

    def _extension(self, start, end):
        self.plate.lines.append(Line("dimension", start, end))

    def _arrows(self, start, end, way=(1.0, 0.0)):
        """A dimension line with an arrowhead at both ends, from outside where there is no room between."""
        (x1, y1), (x2, y2) = start, end
        span = math.hypot(x2 - x1, y2 - y1)
        if span >= 2.2 * self.text:
            middle = ((x1 + x2) / 2, (y1 + y2) / 2)
            self.plate.lines += [Line("dimension", middle, start, True), Line("dimension", middle, end, True)]
            return
        ux, uy = ((x2 - x1) / span, (y2 - y1) / span) if span else way
        tail = 1.1 * self.text
        self.plate.lines += [
            Line("dimension", start, end),
            Line("dimension", (x1 - ux * tail, y1 - uy * tail), start, True),
            Line("dimension", (x2 + ux * tail, y2 + uy * tail), end, True),
        ]

    def _dimension_text(self, each, row, ends, line):
        """The text by its line: between its extension lines, or beside them where they would run through it."""
        turn, beside = 90 * (each.side in ("left", "right")), line - self.text * 0.68
        place = self._place_along(row, sum(ends) / 2, beside, turn)
        self._lengthen(ends, place, row.half, line, turn)
        x, y = (beside, place) if turn else (place, beside)
        text = Text(x, y, each.text, self.text, turn=turn)
        self.plate.texts.append(text)
        tail, (low, high) = 1.2 * self.text, sorted(ends)
        arrows = (line, low - tail, line, high + tail) if turn else (low - tail, line, high + tail, line)
        self.texts.append(text.box())
        self.lines.append(arrows)

    def _place_along(self, row, middle, beside, turn):
        """Where along its row a text stands: in the middle, at the nearest clear place, or just on the plate."""
        inner, outer = self._row_limits(turn)
        if row.is_clear(self.scale) and inner[0] <= middle - row.half and middle + row.half <= inner[1]:
            return middle
        passing, lines, texts = self._taken(row, beside, turn)
        for spans in (passing + lines + texts, lines + texts, texts):  # on an extension line rather than on a text
            for limits in (inner, outer):
                place = clear_place(middle, row.half, spans, limits)
                if place is not None:
                    return place
        whole = outer if outer[1] - outer[0] >= 2 * row.half else self.cell[turn > 0 :: 2]
        return _between(middle, row.half, *inner, *whole)

    def _row_limits(self, turn):
        """How far along a row a text may reach: better within the first limits, at most within the second."""
        left, _, right, bottom = self.cell
        if turn:
            return self.room, (self.below_title, bottom)
        free = (self.left if self.rows["left"] else left, self.right if self.rows["right"] else right)
        notes = left + max(0.0, self.columns["left"]), right - max(0.0, self.columns["right"])
        return (max(free[0], notes[0]), min(free[1], notes[1])), free

    def _taken(self, row, beside, turn):
        """Spans along a row that a text keeps clear of: passing extension lines, other lines and texts before it."""
        rim, axis, low, high = row.rim, 1 if turn else 0, beside - self.text / 2, beside + self.text / 2
        passing = [self.at((end, end))[axis] for end in row.passing]
        spans = [[(place - rim, place + rim) for place in passing]]
        for boxes in (self.lines, self.texts):
            crossing = (box for box in boxes if box[1 - axis] < high and low < box[3 - axis])
            spans.append([(box[axis] - rim, box[axis + 2] + rim) for box in crossing])
        return spans

    def _lengthen(self, ends, place, half, line, turn):
        """Draw the dimension line on to the far end of a text that stands beside it."""
        low, high = sorted(ends)
        start, end = (high, place + half) if place - half > high else (low, place - half)
        if place - half > high or place + half < low:
            points = ((line, start), (line, end)) if turn else ((start, line), (end, line))
            self.plate.lines.append(Line("dimension", *points))

    def _place_notes(self, side):
        """Notes in a column beside the view, from the top down in the order of what they point at."""
        notes = sorted(
            (note for note in self.view.notes if note.side == side), key=lambda note: self.at(note.at)[1]
        )
        line = 1.25 * self.text
        heights = [line * (note.text.count("\n") + 1) for note in notes]
        tops = self._spread([self.at(note.at)[1] - height / 2 for note, height in zip(notes, heights)], heights)
        for note, top, height in zip(notes, tops, heights):
            self._place_note(note, top, height, line)

    def _spread(self, tops, heights):
        """Push the notes apart until none overlaps and all stay in the cell."""
        gap = 0.5 * self.text
        low = self.cell[1] + (2.2 * self.text if self.view.title else 0.0)
        placed = []
        for top, height in zip(tops, heights):
            placed.append(max(top, low))
            low = placed[-1] + height + gap
        high = self.cell[3]
        for index in range(len(placed) - 1, -1, -1):
            placed[index] = min(placed[index], high - heights[index])
            high = placed[index] - gap
        return placed

    def _place_note(self, note, top, height, line):
        if note.side == "right":
            edge, anchor, step = self.cell[2] - self.columns["right"] + 1.6 * self.text, "start", -1
        else:
            edge, anchor, step = self.cell[0] + self.columns["left"] - 1.6 * self.text, "end", 1
        for index, text in enumerate(note.text.split("\n")):
            self.plate.texts.append(Text(edge, top + line * (index + 0.5), text, self.text, anchor))
            self.texts.append(self.plate.texts[-1].box())
        middle = top + height / 2
        point = self.at(note.at)
        start, knee = (edge + step * 0.25 * self.text, middle), (edge + step * 0.9 * self.text, middle)
        self.plate.lines += [Line("dimension", start, knee), Line("dimension", knee, point)]
        self.lines += [_box_between(start, knee), _box_between(knee, point)]
        self.plate.dots.append(point)
