"""PDF documents: pages in mm with y down, put together with their outline, labels and links.

The same pages give the same bytes: no date, nothing by chance. All numbers are written to a thousandth of a mm.
"""

import contextlib
import io
from typing import NamedTuple

import pydyf

from shoplib.paper.files import save_whole
from shoplib.paper.typeface import NAMES, embed, printable

MM = 72 / 25.4  # points in a millimetre


class Page:
    """A sheet of paper in mm, y down from its upper left corner, on a white ground.

    `label` is what a viewer calls it instead of its number.
    """

    def __init__(self, width, height, label=""):
        self.width, self.height, self.label = width, height, label
        self.stream = pydyf.Stream(compress=True)
        self.letters = {False: set(), True: set()}
        self.links, self.forms = [], []
        self.stream.set_color_rgb(1, 1, 1)
        self.stream.rectangle(0, 0, width * MM, height * MM)
        self.stream.fill()
        self.stream.set_matrix(MM, 0, 0, -MM, 0, height * MM)

    @contextlib.contextmanager
    def window(self, box, window):
        """While it lasts, what is drawn shows a window (left, top, right, bottom) of a plate in a box (left, top,
        width, height) of the page; what lies outside is clipped off.
        """
        (left, top, width, height), (x1, y1, x2, y2) = box, window
        across, down = width / (x2 - x1), height / (y2 - y1)
        self.stream.push_state()
        self.stream.rectangle(left, top, width, height)
        self.stream.clip()
        self.stream.end()
        self.stream.set_matrix(across, 0, 0, down, left - across * x1, top - down * y1)
        yield self.stream
        self.stream.pop_state()

    def use(self, text, bold):
        """Remember the letters of a text that is written on the page."""
        self.letters[bold].update(printable(text))

    def link(self, box, page):
        """Let a box (left, top, right, bottom) lead to another page."""
        self.links.append((box, page))

    def show(self, form, left, top):
        """Show a Form with its upper left corner here, at its own size."""
        if form not in self.forms:
            self.forms.append(form)
        self.stream.push_state()
        self.stream.set_matrix(1 / MM, 0, 0, -1 / MM, left, top + form.height)
        self.stream.draw_x_object(f"form{self.forms.index(form)}")
        self.stream.pop_state()


class Form(Page):
    """What stands on many pages and is drawn and kept once: in mm, y down, like a page.

    >>> form, pages = Form(50.0, 40.0), [Page(210.0, 297.0), Page(210.0, 297.0)]
    >>> for page in pages:
    ...     page.show(form, 12.0, 30.0)
    >>> document(pages, "Two pages").count(b"/Form")
    1
    """


class Entry(NamedTuple):
    """A line of the outline: its words, the page it leads to, and the entries under it."""

    words: str
    page: Page
    parts: tuple = ()


def save_pdf(path, pages, title, outline=()):
    """Write pages as one PDF, whole or not at all; returns its path.

    Raises PrintoutError (an OSError) where the file cannot be written.
    """
    written = document(pages, title, outline)
    return save_whole(path, lambda temporary: temporary.write_bytes(written))


def document(pages, title, outline=()):
    """The bytes of a PDF with these pages, a title, and an outline of Entries; links and labels are the pages' own."""
    pdf = pydyf.PDF()
    forms = list(dict.fromkeys(form for page in pages for form in page.forms))
    resources = _resources(pdf, [*pages, *forms])
    kept = {form: _add_form(pdf, form, resources) for form in forms}
    objects = {page: _add_page(pdf, page, resources, kept) for page in pages}
    for page in pages:
        if page.links:
            objects[page]["Annots"] = pydyf.Array([_link(pdf, page, *each, objects) for each in page.links])
    pdf.info.update(Title=pydyf.String(title), Creator=pydyf.String("shoplib"), Producer=pydyf.String("pydyf"))
    pdf.catalog.update({
        "Lang": pydyf.String("en"),
        "ViewerPreferences": pydyf.Dictionary({"DisplayDocTitle": "true", "PrintScaling": "/None"}),
    })  # fmt: skip
    if any(page.label for page in pages):
        pdf.catalog["PageLabels"] = _labels(pages)
    if outline:
        pdf.catalog["Outlines"] = _outline(pdf, outline, objects).reference
        pdf.catalog["PageMode"] = "/UseOutlines"
    written = io.BytesIO()
    pdf.write(written, compress=True)
    return written.getvalue()


def _resources(pdf, pages):
    """The faces of all pages, each with the letters that are used of it."""
    fonts = pydyf.Dictionary()
    for bold, name in NAMES.items():
        letters = set().union(*(page.letters[bold] for page in pages))
        if letters:
            fonts[name] = embed(pdf, bold, letters).reference
    resources = pydyf.Dictionary({"Font": fonts})
    pdf.add_object(resources)
    return resources


def _add_form(pdf, form, resources):
    box = pydyf.Array([0, 0, form.width * MM, form.height * MM])
    form.stream.extra = {"Type": "/XObject", "Subtype": "/Form", "BBox": box, "Resources": resources.reference}
    pdf.add_object(form.stream)
    return form.stream.reference


def _with_forms(pdf, page, resources, forms):
    """The resources of a page: those of all pages, and the forms that it shows."""
    if not page.forms:
        return resources.reference
    shown = {f"form{place}": forms[form] for place, form in enumerate(page.forms)}
    return pydyf.Dictionary({"Font": resources["Font"], "XObject": pydyf.Dictionary(shown)})


def _add_page(pdf, page, resources, forms):
    pdf.add_object(page.stream)
    made = pydyf.Dictionary({
        "Type": "/Page", "Parent": pdf.pages.reference, "Resources": _with_forms(pdf, page, resources, forms),
        "Contents": page.stream.reference,
        "MediaBox": pydyf.Array([0, 0, page.width * MM, page.height * MM]),
    })  # fmt: skip
    pdf.add_page(made)
    return made


def _goes_to(page, objects):
    """The upper left corner of a page, at whatever size it is looked at."""
    return pydyf.Array([objects[page].reference, "/XYZ", 0, page.height * MM, "null"])


def _link(pdf, page, box, other, objects):
    left, top, right, bottom = (each * MM for each in box)
    high = page.height * MM
    made = pydyf.Dictionary({
        "Type": "/Annot", "Subtype": "/Link", "Rect": pydyf.Array([left, high - bottom, right, high - top]),
        "Border": pydyf.Array([0, 0, 0]), "F": 4, "Dest": _goes_to(other, objects),
    })  # fmt: skip
    pdf.add_object(made)
    return made.reference


def _labels(pages):
    """What each page is called; one without a label keeps its number."""
    named = []
    for place, page in enumerate(pages):
        how = {"P": pydyf.String(page.label)} if page.label else {"S": "/D", "St": place + 1}
        named += [place, pydyf.Dictionary(how)]
    return pydyf.Dictionary({"Nums": pydyf.Array(named)})


def _outline(pdf, entries, objects):
    """The outline's root, with all its entries open."""
    root = pydyf.Dictionary({"Type": "/Outlines"})
    pdf.add_object(root)
    _add_entries(pdf, root, entries, objects)
    return root


def _add_entries(pdf, above, entries, objects):
    """Hang entries under another one, each with those under it; returns how many that are together."""
    made = [
        pydyf.Dictionary({"Title": pydyf.String(entry.words), "Parent": above.reference,
                          "Dest": _goes_to(entry.page, objects)}) for entry in entries
    ]  # fmt: skip
    for each in made:
        pdf.add_object(each)
    for one, other in zip(made, made[1:]):
        one["Next"], other["Prev"] = other.reference, one.reference
    within = [_add_entries(pdf, each, entry.parts, objects) for each, entry in zip(made, entries) if entry.parts]
    above.update(First=made[0].reference, Last=made[-1].reference, Count=len(made) + sum(within))
    return above["Count"]
