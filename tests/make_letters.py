"""Makes the letters of drawings and paper anew: the fonts that go into a PDF, and the table of how wide each one is.

    python tests/make_letters.py

From DejaVu Sans as matplotlib ships it: European letters and the signs of the trade, without hints for small screens.
"""

from pathlib import Path

import matplotlib
from fontTools.subset import Options, Subsetter
from fontTools.ttLib import TTFont

SHOPLIB = Path(__file__).resolve().parent.parent / "shoplib"
THEIRS = Path(matplotlib.get_data_path()) / "fonts" / "ttf"
FACES = {"regular": "DejaVuSans", "bold": "DejaVuSans-Bold"}
SOURCE = "# Source: DejaVu Sans and DejaVu Sans Bold, version 2.37: advance widths in 2048ths of the text's height"
RANGES = """
    0020-007E 00A0-017F 018F-0192 01A0-01B0 01CD-01DC 01E6-01E7 01FA-01FF 0218-021B 02BB-02BD 02C6-02C7 02D8-02DD
    0384-03CE 0400-045F 0490-0491 1E80-1E85 1EF2-1EF3 2010-2015 2018-2022 2026 2030-2033 2039-203A 2044 2070
    2074-208E 20AC 2103 2109 2116 2122 2126 212E 2150-215E 2190-2199 21BA-21BB 2202-2206 2211-2212 2215-221E 2220
    2227-222B 2248 2260-2261 2264-2265 2300 25A0-25A1 25B2-25BF 25C0-25C1 25C6-25C7 25CB 25CF 2605-2606 2610-2612
    26A0 2713-2718 FB00-FB04 FFFD
"""


def wanted():
    """The code points of all letters and signs."""
    for each in RANGES.split():
        first, _, last = each.partition("-")
        yield from range(int(first, 16), int(last or first, 16) + 1)


def made(name):
    """One face with these letters only."""
    font = TTFont(THEIRS / f"{name}.ttf", recalcTimestamp=False)
    options = Options(
        hinting=False, layout_features=[], notdef_outline=True, glyph_names=False, name_IDs=[*range(7), 13, 14]
    )  # fmt: skip
    options.drop_tables += ["GSUB", "GPOS", "GDEF", "kern", "FFTM"]
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=wanted())
    subsetter.subset(font)
    return font


def widths(fonts):
    """Rows of the table: a letter's code point and its width in each face; the first stands for any that is missing."""
    names = [font.getBestCmap() for font in fonts]
    advances = [font["hmtx"] for font in fonts]
    yield "other", *(advance[".notdef"][0] for advance in advances)
    for code in sorted(set(names[0]) & set(names[1])):
        yield f"U+{code:04X}", *(advance[name[code]][0] for advance, name in zip(advances, names))


if __name__ == "__main__":
    fonts = [made(name) for name in FACES.values()]
    for name, font in zip(FACES.values(), fonts):
        font.save(SHOPLIB / "paper" / "fonts" / f"{name}-subset.ttf")
    lines = [SOURCE, ",".join(("letter", *FACES)), *(",".join(map(str, row)) for row in widths(fonts))]
    (SHOPLIB / "tables" / "letters.csv").write_text("\n".join(lines) + "\n", encoding="utf-8")
    print(f"{len(lines) - 2} letters")
