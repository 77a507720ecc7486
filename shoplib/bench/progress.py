"""How far a long printing is: a bar on the page."""

from IPython.display import display

from shoplib.bench import looks


class ProgressBar:
    """A bar that shows itself once something tells it how far it is: `save_handouts(..., progress=ProgressBar())`.

    >>> bar = ProgressBar()
    >>> bar
    0 %
    """

    def __init__(self):
        self.share, self.shown = 0.0, None

    def __call__(self, share):
        """Show this share of the work, in whole per cent."""
        before, self.share = repr(self), share
        if self.shown is None:
            self.shown = display(self, display_id=True)
        elif repr(self) != before:
            self.shown.update(self)

    def __repr__(self):
        return f"{int(100 * self.share)} %"

    def _repr_html_(self):
        return looks.paragraph(
            f"<progress max='1' value='{self.share:.2f}' aria-label='How far it is' "
            f"style='width:240px;height:18px;vertical-align:middle'></progress> {self!r}"
        )
