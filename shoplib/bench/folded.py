"""Lines that wait folded under a heading: a teacher opens them, a learner is not shown the answers."""

from html import escape

from shoplib.bench import looks


class Folded:
    """A heading and the lines under it; plain lines where there is no page."""

    def __init__(self, heading, lines):
        self.heading, self.lines = heading, tuple(lines)

    def __repr__(self):
        return "\n".join(self.lines)

    def _repr_html_(self):
        body = "".join(f"<div>{escape(line)}</div>" for line in self.lines)
        return (
            f'<details style="{looks.FACE}font-size:15px;line-height:1.5"><summary>{escape(self.heading)}</summary>'
            f"{body}</details>"
        )


def show_folded(heading, lines):
    """Put the lines under the cell, folded."""
    from IPython.display import display

    display(Folded(heading, lines))
