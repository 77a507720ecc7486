"""How a ring made of pieces is held while the circle jig cuts it: a picture for the lesson, in section."""

from shoplib.drawing.sheet import EndGrain, Sheet, rectangle

HEIGHT, CUTTER, BOARD = 40.0, 12.0, 18.0  # mm: the ring's height, the cutter, the sacrificial board
CLEAT, CLEAR, PLATE = 30.0, 8.0, 10.0  # mm: a cleat's width, room beside a groove, the jig's base


def draw_holding(ring):
    """Both cuts of a solved flat ring, right of the pivot: the outside one held from within, then the inside one."""
    sheet = Sheet(
        "Holding a ring for the router",
        "Section through half of a built ring on a sacrificial board. For the outside cut cleats inside the ring hold "
        "it, for the inside cut cleats outside it. A block in the middle carries the pivot and, with supports as high "
        "as the ring, keeps the router from tipping. All are screwed from below.",
    )
    _outside_cut(sheet.view("First the outside cut: the ring is held from within", (0, 0, 1, 0.5)), ring)
    _inside_cut(sheet.view("Then the inside cut: the ring is held from without", (0, 0.5, 1, 0.5)), ring)
    return sheet


def _outside_cut(view, ring):
    outside = ring.outside_diameter / 2
    inner = ring.blank_outer - ring.board_width
    far = outside + CUTTER + CLEAR
    support = (far, far + 2 * CLEAT)
    _bed(view, ring, support[1])
    _rim(view, inner, outside)
    _block(view, inner - CLEAT, inner)
    _block(view, *support)
    _cutter(view, outside, outside + CUTTER, support[1])
    view.note((inner - CLEAT / 2, HEIGHT / 2), "cleat against\nthe blank's flat", "left")
    view.note((sum(support) / 2, HEIGHT / 2), "support, as high\nas the ring")


def _inside_cut(view, ring):
    outside, inside = ring.outside_diameter / 2, ring.inside_diameter / 2
    far = outside + CLEAT
    support = (far, outside + CUTTER + CLEAR + 2 * CLEAT)
    _bed(view, ring, support[1])
    _rim(view, inside, outside)
    _block(view, outside, far)
    _block(view, *support)
    _cutter(view, inside - CUTTER, inside, support[1])
    view.note((outside + CLEAT / 2, HEIGHT / 2), "cleat against\nthe cut edge")
    view.note(((inside + outside) / 2, 0.75 * HEIGHT), "the ring at its\nfinished size")


def _bed(view, ring, reach):
    """Sacrificial board, the block with the pivot in the middle, and a clamp beyond the router's swing."""
    edge = reach + 2.2 * CLEAT
    block = ring.inside_diameter / 2 - CUTTER - CLEAR - 1.5 * CLEAT
    view.area("base", rectangle(-0.15 * block, -BOARD, edge, 0))
    _block(view, -0.15 * block, block)
    view.line("pivot", (0, 0.5 * HEIGHT), (0, HEIGHT + 1.8 * PLATE))
    view.line("centre", (0, -1.6 * BOARD), (0, HEIGHT + 5 * PLATE))
    view.area("jaw", rectangle(edge - CLEAT, 0, edge + 0.5 * CLEAT, 0.4 * BOARD))
    view.area("jaw", rectangle(edge + 0.1 * CLEAT, -2 * BOARD, edge + 0.5 * CLEAT, 0))
    view.note((0.5 * block, HEIGHT / 2), "block with the pivot,\nclear of both cuts", "left")
    view.note((edge - 0.4 * CLEAT, 0.4 * BOARD), "clamp outside\nthe router's swing")
    view.note((edge - 1.5 * CLEAT, -BOARD), "sacrificial board,\nscrews from below")


def _rim(view, inner, outer):
    middle = (inner + outer) / 2
    view.area("kept", rectangle(inner, 0, outer, HEIGHT), grain=EndGrain((middle, -HEIGHT)))


def _block(view, left, right):
    """A block, cleat or support on the board, with a screw that comes up from below."""
    view.area("board", rectangle(left, 0, right, HEIGHT))
    middle = (max(left, 0) + right) / 2
    view.line("hidden", (middle, -BOARD), (middle, 0.45 * HEIGHT))


def _cutter(view, left, right, support):
    """The cutter in its groove and the jig's base, which runs from the pivot out over the supports."""
    view.area("cutter", rectangle(left, -0.5, right, HEIGHT + 3 * PLATE))
    view.area("base", rectangle(-3 * PLATE, HEIGHT, left, HEIGHT + PLATE))
    view.area("base", rectangle(right, HEIGHT, max(support, right + 4 * PLATE), HEIGHT + PLATE))
