"""How much finish a piece takes."""

from shoplib.model import Caution, Input, Model, ShapeError, count, model, percent, result, surface

LITTLE = 0.05  # litres: less is hard to measure out


@model
class Finish(Model):
    """Finish for a surface: litres in all and for each coat.

    >>> Finish("3.6 m2", "12 m2").tell("litres", "each_coat")
    finish in all         0.67 l
    finish for each coat  0.33 l
    """

    TABLE_HEAD = "It comes to"

    area: Input = surface(
        "surface", "A", low="0.05 m2", high="20 m2", step="0.05 m2", inch_step="0.5 ft2", tolerance="0.1 m2",
        help="All faces that get finish, added up.",
    )
    coverage: Input = surface(
        "one litre covers", "c", low="2 m2", high="25 m2", step="0.5 m2", inch_step="5 ft2", tolerance="2 m2",
        help="One coat: the tin tells it. Bare end grain takes twice as much.",
    )
    coats: Input = count("coats", "n", 1, 8, help="All of them alike.", default=2)
    loss: Input = percent(
        "lost in rag and pot", "k", low="0 %", high="50 %", step="1 %", tolerance="5 %",
        help="What stays in cloth, brush and tin.", default="10 %",
    )

    def check(self):
        if self.loss >= 1:
            raise ShapeError("All of it is lost in rag and pot: it must be less than 100 %.", input="loss")

    def on_card(self):
        return ("litres", "each_coat")

    @result("finish in all", "V", kind="volume", checks="coverage")
    def litres(self):
        """For all coats, what is lost counted in: area times coats over what a litre covers, over what is not lost."""
        return self.area * self.coats / (self.coverage * (1 - self.loss)) * self.litre

    @result("finish for each coat", "V_1", kind="volume", checks="coverage")
    def each_coat(self):
        """What to pour out for one coat."""
        return self.litres / self.coats

    def worries(self):
        yield Caution(
            "Rags wet with an oily finish catch fire by themselves: spread them out to dry in the open, or keep them "
            "under water in a lidded metal can. Follow the maker's sheet.", input="coverage",
        )
        if self.each_coat < LITTLE:
            yield Caution("So little finish is best measured out by weight.", input="area")
