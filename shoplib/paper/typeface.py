"""The letters of a PDF: DejaVu Sans, of which each document carries what it uses.

A letter is written by its code point, so that a page needs to know nothing of the font; a table in the document leads
from there to the letter's shape, another one back to the letter for whoever searches or copies text.
"""

import io
import zlib
from functools import cache, lru_cache
from pathlib import Path

import pydyf

from shoplib.drawing.plate import UNITS, letter_widths

FONTS = Path(__file__).resolve().parent / "fonts"
FILES = {False: "DejaVuSans-subset.ttf", True: "DejaVuSans-Bold-subset.ttf"}
NAMES = {False: "regular", True: "bold"}  # in the resources of a page
MISSING = "\ufffd"  # stands for letters beyond the first 65536


def coded(text):
    """A text as a PDF's string of code points.

    >>> coded("½ in")
    b'<00bd00200069006e>'
    """
    return b"<" + "".join([f"{ord(letter):04x}" for letter in printable(text)]).encode() + b">"


def printable(text):
    """The text, each letter that has no code of four hexadecimal digits replaced by the sign for a missing one."""
    return text if text.isascii() else "".join([letter if ord(letter) < 0x10000 else MISSING for letter in text])


def embed(pdf, bold, letters):
    """Put a face with these letters into a pydyf document; returns the font's object."""
    letters = tuple(sorted(letters))
    data, glyphs, measures = _subset(bold, letters)
    name = f"/{_tag(letters)}+DejaVuSans{'-Bold' if bold else ''}"
    file = _added(pdf, pydyf.Stream([data], {"Length1": len(data)}, compress=True))
    described = _added(pdf, pydyf.Dictionary({
        "Type": "/FontDescriptor", "FontName": name, "Flags": 32, "ItalicAngle": 0, "StemV": 138 if bold else 80,
        "FontBBox": pydyf.Array(measures["box"]), "Ascent": measures["ascent"], "Descent": measures["descent"],
        "CapHeight": 729, "FontFile2": file.reference,
    }))  # fmt: skip
    widths, other = letter_widths(bold)
    listed = [[ord(letter), pydyf.Array([widths.get(letter, other) * 1000 / UNITS])] for letter in letters]
    shapes = _added(pdf, pydyf.Dictionary({
        "Type": "/Font", "Subtype": "/CIDFontType2", "BaseFont": name, "FontDescriptor": described.reference,
        "CIDSystemInfo": pydyf.Dictionary({
            "Registry": pydyf.String("Adobe"), "Ordering": pydyf.String("Identity"), "Supplement": 0,
        }),
        "W": pydyf.Array([item for pair in listed for item in pair]), "DW": other * 1000 / UNITS,
        "CIDToGIDMap": _added(pdf, pydyf.Stream([glyphs], compress=True)).reference,
    }))  # fmt: skip
    meant = _added(pdf, pydyf.Stream([_meanings(letters)], compress=True))
    return _added(pdf, pydyf.Dictionary({
        "Type": "/Font", "Subtype": "/Type0", "BaseFont": name, "Encoding": "/Identity-H",
        "DescendantFonts": pydyf.Array([shapes.reference]), "ToUnicode": meant.reference,
    }))  # fmt: skip


def _added(pdf, thing):
    pdf.add_object(thing)
    return thing


def _tag(letters):
    """Six capitals that tell one choice of letters from another, as a PDF wants them before a font's name."""
    number = zlib.crc32("".join(letters).encode())
    return "".join(chr(65 + number // 26**k % 26) for k in range(6))


@cache
def _file(bold):
    return (FONTS / FILES[bold]).read_bytes()


@lru_cache(maxsize=8)
def _subset(bold, letters):
    """A font file with these letters only, the table from code points to its shapes, and its measures."""
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    font = TTFont(io.BytesIO(_file(bold)), recalcTimestamp=False, lazy=True)
    names = font.getBestCmap()
    scale = 1000 / font["head"].unitsPerEm
    head, across = font["head"], font["hhea"]
    measures = {
        "box": [round(each * scale) for each in (head.xMin, head.yMin, head.xMax, head.yMax)],
        "ascent": round(across.ascent * scale), "descent": round(across.descent * scale),
    }  # fmt: skip
    options = Options(hinting=False, layout_features=[], notdef_outline=True, glyph_names=False, name_IDs=[])
    options.drop_tables += ["OS/2", "name", "post", "cmap"]
    subsetter = Subsetter(options)
    subsetter.populate(glyphs=[names[ord(letter)] for letter in letters if ord(letter) in names])
    subsetter.subset(font)
    places = {name: place for place, name in enumerate(font.getGlyphOrder())}
    table = bytearray(2 * (max(map(ord, letters), default=0) + 1))
    for letter in letters:
        code = ord(letter)
        table[2 * code : 2 * code + 2] = places.get(names.get(code), 0).to_bytes(2, "big")
    written = io.BytesIO()
    font.save(written)
    return written.getvalue(), bytes(table), measures


def _meanings(letters):
    """The table from codes back to letters, a hundred to a block as the format wants."""
    codes = [f"<{ord(letter):04x}> <{ord(letter):04x}>" for letter in letters]
    blocks = [codes[k : k + 100] for k in range(0, len(codes), 100)]
    lines = [
        "/CIDInit /ProcSet findresource begin", "12 dict begin", "begincmap",
        "/CIDSystemInfo << /Registry (Adobe) /Ordering (UCS) /Supplement 0 >> def",
        "/CMapName /Adobe-Identity-UCS def", "/CMapType 2 def",
        "1 begincodespacerange", "<0000> <ffff>", "endcodespacerange",
    ]  # fmt: skip
    for block in blocks:
        lines += [f"{len(block)} beginbfchar", *block, "endbfchar"]
    return "\n".join([*lines, "endcmap", "CMapName currentdict /CMap defineresource pop", "end", "end"]).encode()
