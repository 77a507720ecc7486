"""Facts: a small table of words and what they come to, which shows itself on a page and in plain text."""

from html import escape

CELL = "padding:3px 16px 3px 0;border-top:1px solid var(--jp-border-color2,#ccc);text-align:left;vertical-align:top"
LONG, LONG_AMONG_MANY = 40, 16  # letters of a text that may be broken
FIGURES = tuple("0123456789−-")
FACE = "font-family:'DejaVu Sans',Verdana,'Segoe UI',Arial,sans-serif;color:var(--jp-content-font-color1,#111)"


class Facts:
    """Rows of texts under a head, for instance what a model says in its own words.

    Sizes keep their line whole; words may be broken where they are long, or where there are `many` columns.

    >>> Facts([("outside cut, pivot", "226.0 mm"), ("inside cut, pivot", "194.0 mm")])
    outside cut, pivot  226.0 mm
    inside cut, pivot   194.0 mm
    >>> Facts([("1", "4.75 mm")], head=("pass", "depth"))
    pass  depth
    1     4.75 mm
    """

    def __init__(self, rows, head=(), many=False):
        self.rows, self.head, self.many = [tuple(map(str, row)) for row in rows], tuple(head), many

    def __repr__(self):
        rows = [self.head, *self.rows] if self.head else self.rows
        widths = [max(map(len, column)) for column in zip(*rows)]
        return "\n".join("  ".join(text.ljust(width) for text, width in zip(row, widths)).rstrip() for row in rows)

    def _repr_html_(self):
        head = "".join(f'<th style="{CELL}">{escape(text)}</th>' for text in self.head)
        body = "".join(f"<tr>{self._row(bool(self.head), *row)}</tr>" for row in self.rows)
        return (
            f'<table style="{FACE};font-size:15px;line-height:1.35;border-collapse:collapse">'
            f"{f'<tr>{head}</tr>' if head else ''}{body}</table>"
        )

    def _is_whole(self, text):
        return len(text) < (LONG_AMONG_MANY if self.many else LONG) and (not self.many or text[:1] in FIGURES)

    def _row(self, under_head, words, *texts):
        """A row; a size keeps its line whole, under a head the first one too; a sentence may be broken."""
        whole = {text: ";white-space:nowrap" if self._is_whole(text) else "" for text in texts}
        cells = "".join(f'<td style="{CELL}{whole[text]}"><b>{escape(text)}</b></td>' for text in texts)
        first = ";white-space:nowrap" if under_head and words.lstrip("-")[:1].isdigit() and " " in words else ""
        return f'<td style="{CELL}{first}">{escape(words)}</td>{cells}'


class Cautions(tuple):
    """The cautions of a model, each a sentence with its source; a sentence of its own where there are none."""

    def __repr__(self):
        return "\n".join(f"Caution: {each.tell()} ({each.source})" for each in self) or "No cautions for these sizes."

    def _repr_html_(self):
        lines = "".join(f"<div>⚠ {escape(each.tell())} <small>({escape(each.source)})</small></div>" for each in self)
        return f'<div style="{FACE};font-size:15px;line-height:1.4">{lines or "No cautions for these sizes."}</div>'
