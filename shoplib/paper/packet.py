"""The packet: everything of one stand in one document, to print and take to the shop.

In front the list of contents, the stand drawn, its parts, the order of work with boxes to tick, all sizes; then each
operation in that order, its card and its template at full size. The templates' DXF files go into a ZIP beside it.
"""

import datetime
import itertools
import zipfile
from dataclasses import replace
from typing import NamedTuple

from shoplib import drawing
from shoplib.drawing.layout import lay_out
from shoplib.drawing.plate import Plate, Text, text_width
from shoplib.drawing.sheet import Area, Line, rectangle
from shoplib.maths.the_stand import limits
from shoplib.maths.the_stand.operations import has_mitres
from shoplib.maths.the_stand.order import relations
from shoplib.maths.the_stand.told import sizes_of, words_of
from shoplib.model import MissingError, ShapeError, answer_in_full, capital, given_in_full, in_full
from shoplib.paper import card, dxf, pages, saw_plan
from shoplib.paper.contents import contents_of
from shoplib.paper.document import Entry, save_pdf
from shoplib.paper.files import Printout, Unsaved, named, paper_size, save_whole
from shoplib.paper.imprint import Imprint, imprint_of, mark_of
from shoplib.paper.listing import with_contents
from shoplib.paper.part import Part
from shoplib.paper.remarks import NO_MATTER, picture, remark
from shoplib.paper.report import MARGIN, ROW, SMALL, TEXT, Report, printed
from shoplib.paper.words import LEADING, fitted, wrapped

SAWING = "buy"  # the step that the saw plan's pages belong to
IN_A_MITRED_BAR = 4  # dowels: across both mitres, and from both arms into the legs
FOOT = 6.0  # mm from the lower edge to the middle of the page's number
SAFETY = (
    "Before each operation read its cautions. The machine's manual, local rules and licensed practice go before this "
    "packet. Rags with oil catch fire by themselves: lay them out flat outdoors, or drown them in water."
)


class Stopped(Exception):
    """The packet was stopped before it was whole: the one before is as it was."""


class Packet(NamedTuple):
    """The paths of a saved packet: the document, and the ZIP of DXF files, or why there is none."""

    document: Printout
    drawings: Printout | Unsaved

    def __repr__(self):
        return f"{self.document!r}\n{self.drawings!r}"

    def _repr_html_(self):
        return self.document._repr_html_() + self.drawings._repr_html_()


def save_packet(
    stand, unit="mm", paper="A4", folder=None, part="", date=None, plan=None, progress=None, stop=None,
):  # fmt: skip
    """Write a stand's packet as a PDF, and its templates' DXF files as a ZIP beside it; returns both paths.

    `plan` is a saw plan whose pages go in with it. `progress(share)` is called after each operation, `stop()` ends it
    early when it answers true: then Stopped is raised, and what stood there before stays. `paper` is A4 or Letter,
    `unit` mm or in. Raises ValueError for another paper and PrintoutError (an OSError) where nothing can be written.
    """
    paper_size(paper)
    imprint = imprint_of_stand(stand, unit, part, date)
    work = _Work(progress, stop, len(stand.operations()))
    chapters = [work.done(_chapter(stand, each, unit, paper, imprint)) for each in stand.operations()]
    chapters = [*chapters, *_sawing(plan, unit, paper, imprint)]
    name = [part[:40].lower(), "packet", imprint.mark, unit]
    found = document_of(stand, chapters, imprint, paper)
    try:
        drawings = save_drawings(stand, imprint, named([*name, "templates.zip"], folder), work)
    except MissingError as missing:
        drawings = Unsaved(missing)
    return Packet(save_pdf(named([*name, f"{paper}.pdf"], folder), *found), drawings)


class _Work:
    """How far it is: a step for each operation's pages and one for its DXF."""

    def __init__(self, progress, stop, operations):
        self.progress, self.stop, self.left, self.all = progress, stop, 2 * operations, 2 * operations

    def done(self, found=None):
        self.left -= 1
        if self.progress:
            self.progress(1 - self.left / self.all)
        if self.stop and self.stop():
            raise Stopped("The packet was stopped: the one before is as it was.")
        return found


def imprint_of_stand(stand, unit="mm", part="", date=None):
    """The imprint of a stand's printouts; the mark stands for its sizes, those that were measured among them."""
    return Imprint((), mark_of(stand), unit, date or datetime.date.today(), part)


# Chapters: one an operation ---------------------------------------------------------------------------------------


class Chapter(NamedTuple):
    """The pages of one operation: its heading, its card, its template (none where it has none)."""

    name: str
    words: str
    card: tuple
    template: tuple = ()

    def entry(self):
        """Its line in the outline, with one for the template under it."""
        parts = (Entry("Template, full size", self.template[0]),) if self.template else ()
        return Entry(self.words, self.card[0], parts)


def _chapter(stand, operation, unit, paper, imprint):
    """An operation's card and template, filled from the stand."""
    plain, words = operation.plain, heading(stand, operation)
    own = imprint_of(operation.plain, unit, words, imprint.date)
    template = _template(plain, unit) if drawing.has_template(plain.model) else None
    found = tuple(card.printed(composed(stand, operation, own, paper, template.use if template else "")))
    full_size = tuple(pages.printed(pages.compose(template, own, paper))) if template else ()
    return Chapter(operation.name, words, found, full_size)


def composed(stand, operation, own, paper, use=""):
    """The card of an operation as data, with what the stand adds; `use` where its picture tells none."""
    unit = own.unit
    sheet = picture(stand, operation, unit)
    contents = contents_of(operation.plain, sheet, own, sheet.use or use, without=NO_MATTER.get(operation.name, ()))
    further = tuple(filter(None, (
        _how_many(operation), remark(stand, operation, unit), _as_made(operation, unit),
    )))  # fmt: skip
    return card.compose(replace(contents, told=contents.told + further), sheet, paper)


def heading(stand, operation):
    """An operation's heading, with the numbers of the steps in which it is done."""
    numbers = [str(number) for number, step in enumerate(stand.order(), 1) if step in operation.steps]
    return f"{'Steps' if len(numbers) > 1 else 'Step'} {' and '.join(numbers)}: {operation.title}"


def _template(plain, unit):
    try:
        return drawing.template(plain, unit)
    except ShapeError:  # nothing of these sizes to draw at full size
        return None


def _how_many(operation):
    return ("How many", f"{operation.count} × {operation.part}. More of it in {operation.operation.lesson_words}.")


def _as_made(operation, unit):
    """What is as made, beside the nominal size, and what that moved."""
    if not operation.as_made:
        return None
    inputs = operation.plain.model.inputs()
    both = {inputs[name].words: [_size(inputs[name], value, unit) for value in values]
            for name, values in operation.as_made.items()}  # fmt: skip
    sizes = "; ".join(f"{words} {now} (nominal {nominal})" for words, (nominal, now) in both.items() if now != nominal)
    if not sizes:  # less than is written
        return None
    moved = "; ".join(f"{each.words} {each.written(unit)[1]} (nominal {each.written(unit)[0]})"
                      for each in operation.moved if len(set(each.written(unit))) > 1)  # fmt: skip
    return "As made", f"{sizes}. Moved by it: {moved}." if moved else f"{sizes}. Nothing moves by it."


def _size(item, value, unit):
    return in_full(item.write(value, unit), value, item.kind, unit)


def _sawing(plan, unit, paper, imprint):
    """The pages of a saw plan, where there is one."""
    if plan is None:
        return ()
    own = saw_plan.imprint_of_plan(plan, unit, imprint.part, imprint.date)
    found, _ = saw_plan.printed_plan(saw_plan.compose(plan, own, paper, numbered=False))
    return (Chapter(SAWING, "Step 1: Boards and cuts", tuple(found)),)


# The document -----------------------------------------------------------------------------------------------------


def document_of(stand, chapters, imprint, paper):
    """The pages of the whole, its title and its outline."""
    numbers = {}
    for _ in range(2):  # the front tells page numbers, and how long it is decides them
        front = _front(stand, imprint, paper, numbers)
        first = [printed(*each[:3]) for each in front.pages]
        outline = [Entry(title, first[place]) for place, title in front.titles]
        outline += [each.entry() for each in chapters]
        all_pages = [*first, *itertools.chain.from_iterable((*each.card, *each.template) for each in chapters)]
        whole = with_contents(all_pages, outline, imprint.title("Contents"), paper)
        place = {id(page): number for number, page in enumerate(whole, 1)}
        numbers = {each.name: place[id(each.card[0])] for each in chapters}
    lead = {each.name: each.card[0] for each in chapters}
    for (*_, rows), page in zip(front.pages, first):
        for box, name in rows:
            page.link(box, lead[name])
    _number(whole)
    return whole, imprint.title("Packet of the stand"), [Entry("Contents", whole[0]), *outline]


def _number(whole):
    """Number every page at its foot; a viewer names them likewise."""
    for number, page in enumerate(whole, 1):
        plate = Plate(page.width, page.height, "", "")
        plate.texts.append(Text(page.width / 2, page.height - FOOT, f"{number} of {len(whole)}", SMALL))
        Part(plate, (0.0, 0.0, page.width, page.height)).draw(page)
        page.label = ""


def _front(stand, imprint, paper, numbers):
    """The pages before the operations. A step tells the page of its operations' cards."""
    report = _Front(imprint, paper)
    report.part("The stand", _picture(stand, imprint.unit, paper))
    _comes_to(report, stand)
    _what_worries(report, stand)
    _parts(report, stand, numbers)
    report.part("Order of work")
    _order(report, stand, numbers)
    report.part("All sizes")
    _sizes(report, stand)
    return report


class _Front(Report):
    """A report that remembers on which of its pages each part begins."""

    def __init__(self, imprint, paper):
        super().__init__(imprint, paper)
        self.titles = []

    def part(self, title, picture=None):
        self.titles.append((len(self.pages), title))
        self.begin(title, picture)

    def step(self, number, step, lines, cards):
        """A step with its box, title, lesson and the pages of its cards, and lines set in under it."""
        right = self.width - MARGIN
        told = [line for text in lines for line in wrapped(text, SMALL, self.across - 12)]
        self.room(2 * ROW + SMALL * LEADING * len(told))
        top, middle = self.y, self.y + ROW / 2
        pages_of = ", ".join(str(page) for _, page in cards)
        where = f"lesson {step.lesson[:2]}" + (f", {'pages' if len(cards) > 1 else 'page'} {pages_of}" if cards else "")
        head = f"{number}  {step.title}"
        room = right - MARGIN - 10 - text_width(where, SMALL)
        self.plate.shapes.append(Area("box", (rectangle(MARGIN + 1, middle - 1.6, MARGIN + 4.2, middle + 1.6),)))
        self.text(MARGIN + 6, middle, head, fitted(head, TEXT, room, bold=True), bold=True)
        self.text(right, middle, where, SMALL, "end")
        self.y += ROW + 0.6
        for line in told:
            self.text(MARGIN + 12, self.y + 1.6, line, SMALL)
            self.y += SMALL * LEADING
        self.y += 1.2
        self.plate.lines.append(Line("grid", (MARGIN, self.y), (right, self.y)))
        self.y += 0.8
        self._lead(cards, right, top)

    def _lead(self, cards, right, top):
        """Let each page number lead to its card."""
        x = right
        for name, page in reversed(cards):
            width = text_width(str(page), SMALL)
            self.pages[-1][3].append(((x - width, top, x, top + ROW), name))
            x -= width + text_width(", ", SMALL)


def _picture(stand, unit, paper):
    """The stand's views, as wide as the page and not higher than its half."""
    width, height = paper_size(paper)
    across = width - 2 * MARGIN
    return lay_out(drawing.draw(stand, unit), across, 0.55 * height, text=17 * across / 960)


def _comes_to(report, stand):
    """The results of the whole in two columns."""
    unit, names = report.imprint.unit, stand.plain.on_card()
    rows = [(stand.results()[name].words, answer_in_full(stand.plain, name, unit)[0]) for name in names]
    half = -(-len(rows) // 2)
    report.beside(("It comes to", ("", ""), rows[:half]), ("", ("", ""), rows[half:]))
    report.told(words_of("legs_numbered", stand.plain))


def _what_worries(report, stand):
    unit = report.imprint.unit
    own = [f"{caution.tell(unit)} ({caution.source})" for caution in limits.worries(stand.plain_with(stand.made))]
    if own:
        report.heading("Cautions of the whole; those of an operation stand on its card")
        for each in own:
            report.told(f"! {each}")
    report.told(SAFETY, bold=True)


def _parts(report, stand, numbers):
    unit = report.imprint.unit
    rows = [(each.name, str(each.count), *_part_sizes(each, unit), each.species) for each in stand.parts()]
    report.room(25 + ROW * len(rows))
    report.titles.append((len(report.pages) - 1, "Parts"))
    head = ("part", "pieces", "length", "width", "thickness", "timber")
    report.table("Parts, finished sizes, lengths and widths rounded up to a whole millimetre", head, rows, boxes=True)
    where = f"the saw plan on page {numbers[SAWING]}" if SAWING in numbers else "lesson 12's saw plan"
    report.told("The exact sizes stand on the cards. What each part needs in the rough, and from which board, is told "
                f"by {where}. A rough piece is as thick as its board: one from a much thicker board is resawn, and "
                "each is planed on both faces to its thickness.")  # fmt: skip
    _to_buy(report, stand)


def _to_buy(report, stand):
    """What is bought besides the timber, as far as it can be counted."""
    unit, known = report.imprint.unit, stand.plain_with(stand.made)
    done = {each.name: each for each in stand.operations()}
    dowels = done["dowel_fit"].count + (IN_A_MITRED_BAR if has_mitres(known) else 0)

    def size(name):
        return given_in_full(stand.plain, name, unit)

    rails = done["screws"].count
    rolling, finish = done["rolling"].plain, done["finish"].plain
    rows = [
        ("dowel", str(dowels), f"Ø {size('dowel_diameter')}, {size('dowel_length')} long, {known.dowel_timber}"),
        ("screw", str(3 * rails), f"Ø {size('screw_shank')}, {size('screw_length')} long"),
        ("washer, for the sliding screws", str(2 * rails), f"Ø {size('washer_diameter')}"),
        ("caster", str(known.casters), f"{size('caster_height')} high, stem {size('caster_stem')} long for a hole Ø "
                                       f"{size('caster_hole')}, to carry {_result(rolling, 'worst_load', unit)}"),
        ("finish", "", f"{_result(finish, 'litres', unit)} for {size('finish_coats')} coats"),
    ]  # fmt: skip
    report.table("Bought besides the timber; glue and a few of each to spare are not counted",
                 ("what", "pieces", "size"), rows, boxes=True)  # fmt: skip


def _result(plain, name, unit):
    return answer_in_full(plain, name, unit)[0]


def _part_sizes(part, unit):
    length, width, thickness = (saw_plan.full(part.plain[name], unit) for name in saw_plan.SIZES)
    return (length, f"Ø {width}", "") if part.round else (length, width, thickness)


def _order(report, stand, numbers):
    """Each step with its box, what must be done before it, and the trap that this avoids."""
    steps, after = stand.order(), relations(stand.plain)
    place = {step.name: number for number, step in enumerate(steps, 1)}
    report.told("Tick each step when it is done. Under it: what no card tells; after which step, and the trap that "
                "this avoids.")  # fmt: skip
    for number, step in enumerate(steps, 1):
        lines = [*_needs(stand, step, report.imprint.unit)]
        lines += [f"After {place[name]}: {trap}" for name, trap in after[step.name].items()]
        lines += [step.watch] if step.watch else []
        names = (step.name, *step.operations) if step.name == SAWING else step.operations
        report.step(number, step, lines, [(name, numbers[name]) for name in names if name in numbers])


def _needs(stand, step, unit):
    """What a step needs and no card tells: words, then sizes, as made where they were measured."""
    known = stand.plain_with(stand.made)
    if words := words_of(step.name, known):
        yield words
    found = "; ".join(_need(stand, known, each, unit) for each in sizes_of(step.name, known))
    if found:
        yield f"{capital(found)}."


def _need(stand, known, each, unit):
    """A size of the stand by its name, or a length reckoned from its sizes, with its words."""
    if type(each) is not str:
        return f"{each.words} {saw_plan.full(each.formula(known), unit)}"
    item = (stand.inputs() | stand.results())[each]
    return f"{item.words} {_size(item, getattr(known, each), unit)}"


def _sizes(report, stand):
    """Every size of the stand by its group, nominal and as made."""
    unit, made = report.imprint.unit, stand.made
    items = [item for item in stand.inputs().values() if stand.plain.has(item.name)]
    tables = []
    for group, found in itertools.groupby(items, lambda item: item.group):
        rows = [(item.words, given_in_full(stand.plain, item.name, unit), _made(item, made, unit)) for item in found]
        across = 3 if any(row[2] for row in rows) else 2  # a column only where something of the group was measured
        head = ("size", "nominal", "as made")[:across]
        tables.append((capital(group), head, [row[:across] for row in rows]))
    report.columns(tables)
    found = [(item, value) for name, value in made.items() if (item := stand.results().get(name))]
    if found:
        rows = [(item.words, _size(item, getattr(stand.plain, item.name), unit), _size(item, value, unit))
                for item, value in found]  # fmt: skip
        report.table("Measured as they came out", ("size", "nominal", "as made"), rows)


def _made(item, made, unit):
    return _size(item, made[item.name], unit) if item.name in made else ""


# DXF --------------------------------------------------------------------------------------------------------------


def save_drawings(stand, imprint, path, work=None):
    """Write the DXF files of all templates into one ZIP, whole or not at all; returns its path."""
    work = work or _Work(None, None, len(stand.operations()))

    def write(temporary):
        with zipfile.ZipFile(temporary, "w", zipfile.ZIP_DEFLATED) as packed:
            for operation in stand.operations():
                _pack(packed, stand, operation, imprint)
                work.done()

    return save_whole(path, write)


def _pack(packed, stand, operation, imprint):
    plain = operation.plain
    sheet = _template(plain, imprint.unit) if drawing.has_template(plain.model) else None
    if sheet is None:
        return
    number = next(number for number, step in enumerate(stand.order(), 1) if step in operation.steps)
    own = imprint_of(plain, imprint.unit, heading(stand, operation), imprint.date)
    entry = zipfile.ZipInfo(f"{number:02}_{operation.name}_{own.mark}.dxf", _when(imprint.date))
    entry.compress_type = zipfile.ZIP_DEFLATED
    packed.writestr(entry, dxf.text_of(sheet, own))


def _when(date):
    """The date of a file in a ZIP: the printout's, so that the same stand gives the same file."""
    return (date.year, date.month, date.day, 0, 0, 0)
