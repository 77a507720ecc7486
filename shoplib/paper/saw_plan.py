"""A saw plan on paper, to take to the saw: a buying list, then the pages of each board with its cuts in their order."""

import datetime

from shoplib.drawing.timber import draw_boards
from shoplib.maths.timber.sawing import steps
from shoplib.maths.timber.stock import surfaces_to, told
from shoplib.model import LENGTH_STEPS, MissingError, in_full, write_value
from shoplib.paper.document import Entry, save_pdf
from shoplib.paper.files import Unsaved, named, paper_size
from shoplib.paper.imprint import Imprint, mark
from shoplib.paper.report import Report, printed

WHERE_FROM = (
    "Chalk L on the board's left end: its faults are measured from there. Measure each setting from the left end or "
    "the lower edge of the wood that the cut parts; the saw cut lies beyond it, in what is left."
)
THICKNESS = (
    "A rough piece is as thick as its board. Saw it out, let it rest, then plane one face flat and the other parallel "
    "to it, down to the finished thickness."
)
TO_PLANE = 10.0  # mm, more than anybody planes away: such a piece is resawn (common practice)
SAFETY = (
    "Not drawn to scale. Check each setting on a rule before you saw; a narrow or short piece needs a push block, a "
    "jig or a hand saw. The machine's manual goes before this sheet."
)


def save_saw_plan(plan, unit="mm", paper="A4", folder=None, part="", date=None):
    """Write a plan as a PDF: a buying list, then for each board its drawing, cuts and a check of sizes; its path.

    Where no plan could be made, the sentence that says so comes back in the path's place.
    Raises ValueError for another paper and PrintoutError (an OSError) where the file cannot be written.
    """
    paper_size(paper)
    try:
        imprint = imprint_of_plan(plan, unit, part, date)
    except MissingError as missing:
        return Unsaved(missing)
    path = named([part[:40].lower(), "saw-plan", f"{len(plan.boards)}-boards", f"{len(plan.pieces)}-pieces",
                  imprint.mark, f"plan_{paper}.pdf"], folder)  # fmt: skip
    pages, outline = printed_plan(compose(plan, imprint, paper))
    return save_pdf(path, pages, imprint.title("Saw plan"), outline)


def imprint_of_plan(plan, unit, part, date):
    """The mark of a plan stands for its parts, boards, allowances and where every piece lies."""
    exactly = [f"{piece.number}: {piece.part.name} {piece.part.species} {piece.part.plain}" for piece in plan.pieces]
    exactly += [f"{each.board.name} {each.board.price} {each.board.plain} {each.layout}" for each in plan.boards]
    sizes = tuple((words, told(value, unit)) for words, value in plan.allowances.items())
    return Imprint(sizes, mark("saw plan", *exactly, str(plan.allowances)), unit, date or datetime.date.today(), part)


def compose(plan, imprint, paper="A4", numbered=True):
    """The pages: each a plate with its texts, the board's picture with the corner where it stands, and the boxes of
    rows that lead to another page, each with that page's title. They are numbered where they stand alone.
    """
    writer = Report(imprint, paper)
    _buying_list(writer, plan)
    for number, each in enumerate(plan.boards, 1):
        _board(writer, plan, number, each)
    if numbered:
        writer.number()
    return writer.pages


def printed_plan(composed):
    """The pages, and their outline; the rows of the buying list lead to their boards."""
    pages = [printed(*each[:3]) for each in composed]
    titled = {plate.title: page for (plate, *_), page in reversed([*zip(composed, pages)])}  # the first of each title
    for (_, _, _, rows), page in zip(composed, pages):
        for box, title in rows:
            page.link(box, titled[title])
    return pages, [Entry(title, page) for title, page in reversed(titled.items())]


def _buying_list(writer, plan):
    """What is bought, what it comes to, what each part needs, and what found no place."""
    unit = writer.imprint.unit
    writer.begin("Buying list")
    writer.told(plan.verdict(unit), bold=True)
    writer.table("Boards", ("", "board", *SIZES, "price"), [
        (str(number), each.board.name, *_sizes(each.board.plain, unit), _price(each.board))
        for number, each in enumerate(plan.boards, 1)
    ], boxes=True, leads=[_title(number, each) for number, each in enumerate(plan.boards, 1)])  # fmt: skip
    writer.table("It comes to", ("", ""), [row for row in plan.buy(unit=unit).rows])
    writer.table("Parts", ("part", "pieces", *SIZES, "rough length", "rough width"), [
        (_called(part), str(count), *_sizes(part.plain, unit), full(rough.length, unit), full(rough.width, unit))
        for part, rough, count in plan.by_part()
    ])  # fmt: skip
    writer.told(THICKNESS)
    for board, parts in _much_thicker(plan):
        writer.told(f"Board {board} is much thicker than {_listed(parts)} will be: resaw such pieces before you plane "
                    "them. What comes off is to spare: the plan counts on one piece from the thickness.")  # fmt: skip


def _much_thicker(plan):
    """Each board that is far thicker than a part sawn from it, and the names of those parts."""
    found = {}
    for each in plan.boards:
        for part in {plan.pieces[place.piece - 1].part for place in each.layout.places}:
            if surfaces_to(each.board.plain["thickness"]) - part.plain["thickness"] > TO_PLANE:
                found.setdefault(each.board.name, set()).add(part.name)
    return [(board, sorted(parts)) for board, parts in found.items()]


def _listed(names):
    """Names in a row.

    >>> _listed(["rail"]), _listed(["rail", "rim strip", "stub"])
    ('rail', 'rail, rim strip and stub')
    """
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


SIZES = ("length", "width", "thickness")


def _called(part):
    """A part's name; for round ones that share a blank also how many come from a piece."""
    return part.name if part.per_blank == 1 else f"{part.name}, {part.per_blank} from each"


def _board(writer, plan, number, each):
    """A board's page: its picture, cuts in their order, and a check of every piece."""
    unit = writer.imprint.unit
    writer.begin(_title(number, each), draw_boards(plan, unit, {number}))
    for low, high in each.board.plain["faults"]:
        writer.told(f"Fault from {told(low, unit)} to {told(high, unit)}, measured from the left end.")
    writer.told(WHERE_FROM)
    cuts = ("Cuts, in this order", ("cut", "how", "set fence or stop to", "what comes off"), [
        (str(step.cut.number), "rip" if step.cut.rip else "crosscut", full(step.fence, unit), plan.comes_off(step))
        for step in steps(each.board.plain["length"], each.board.plain["width"], each.layout)
    ], True)  # fmt: skip
    pieces = ("Check of sizes", ("piece", "part", "length", "width", "measured"), [
        (str(place.piece), plan.pieces[place.piece - 1].part.name, full(place.length, unit), full(place.width, unit),
         "") for place in each.layout.places
    ])  # fmt: skip
    writer.beside(cuts, pieces)
    writer.told(SAFETY)


def _title(number, each):
    return f"Board {number}: {each.board.name}"


def _sizes(plain, unit):
    return [full(plain[name], unit) for name in SIZES]


def full(value, unit):
    """A length as it stands in a table, with its decimal where the inches are not exact."""
    return in_full(write_value(value, "length", unit, *LENGTH_STEPS), value, "length", unit)


def _price(board):
    return "" if board.price is None else f"{board.price:.2f}"
