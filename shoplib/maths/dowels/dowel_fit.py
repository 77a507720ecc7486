"""The fit of a dowel in its hole, today and in another season."""

from shoplib.maths.dowels.kinds import in_mm, like
from shoplib.maths.movement import coefficient
from shoplib.maths.tolerances import tolerance
from shoplib.model import Caution, Input, Model, choice, length, model, percent, result

AS_SOLD = 0.127  # mm, 0.005 in either way: what dowel pins are sold to (common practice)
RULE = "a rule of thumb of this lesson"


@model
class DowelFit(Model):
    """A dowel in its hole: how tight and how loose the two may meet, as made and at another moisture.

    Across the leg's grain the hole moves with the season as the dowel does; along the leg's grain it
    keeps its size while the dowel does not. The fit is taken there, the dowel turned so that its growth
    rings run the same way: the worst case.

    >>> fit = DowelFit("8 mm", "h11", "H11", "Beech, American", "8 %", "12 %")
    >>> fit.loosest, round(fit.swelling, 3)
    (<Quantity(0.18, 'millimeter')>, <Quantity(0.138, 'millimeter')>)
    """

    diameter: Input = length(
        "nominal diameter", "d", low="4 mm", high="30 mm", step="0.5 mm", inch_step="1/64 in", tolerance="0.05 mm",
        help="Of both dowel and hole.",
    )
    dowel_grade: Input = choice(
        "dowel made to (h: never over)", "T_d", ("as sold", "h8", "h11"), default="as sold",
        help="Small h stands for a shaft at or under its nominal size; h11 may be further under than h8 (ISO 286-1). "
        "As sold: 0.13 mm (0.005 in) over or under.",
    )
    hole_grade: Input = choice(
        "hole made to (H: never under)", "T_h", ("H8", "H11", "H13"), default="H11",
        help="Capital H stands for a hole at or over its nominal size; the larger the number, the more it may be over "
        "(ISO 286-1). Drill a test hole in the same wood and measure it.",
    )
    timber: Input = choice(
        "dowel's timber", "B",
        ("Beech, American", "Birch, yellow", "Maple, sugar", "White oak, commercial", "Ash, white"),
        default="Beech, American", help="As in the Wood Handbook's table.",
    )
    made: Input = percent(
        "moisture when glued", "M_1", low="4 %", high="20 %", step="0.5 %", tolerance="1 %", default="8 %",
        help="Moisture content of the dowel on the day.",
    )
    now: Input = percent(
        "moisture later", "M_2", low="4 %", high="20 %", step="0.5 %", tolerance="1 %", default="12 %",
        help="Moisture content that the season brings it to.",
    )

    @result("dowel's upper limit", "es", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def dowel_upper(self):
        """Largest dowel less the nominal diameter."""
        return like(self.diameter, AS_SOLD if self.dowel_grade == "as sold" else 0.0)

    @result("dowel's lower limit", "ei", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def dowel_lower(self):
        """Smallest dowel less the nominal diameter: ISO 286-1 for h, common practice as sold."""
        if self.dowel_grade == "as sold":
            return like(self.diameter, -AS_SOLD)
        return like(self.diameter, -tolerance(in_mm(self.diameter), "IT" + self.dowel_grade[1:]))

    @result("hole's upper limit", "ES", step="0.001 mm", inch_step="0.0001 in", plan=True, minor=True)
    def hole_upper(self):
        """Largest hole less the nominal diameter: ISO 286-1. The smallest hole has just the nominal one."""
        return like(self.diameter, tolerance(in_mm(self.diameter), "IT" + self.hole_grade[1:]))

    @result("movement for each per cent", "C_t", kind="ratio", step=0.00001, plan=True, minor=True)
    def movement(self):
        """Change across the dowel along its growth rings for each per cent of moisture: Wood Handbook, Table 13-5."""
        return coefficient(self.timber, "flat")

    @result("play, tightest pair", "p_1", step="0.01 mm", inch_step="0.001 in")
    def tightest(self):
        """Smallest hole less largest dowel, as made; negative: the dowel has to be forced."""
        return -1 * self.dowel_upper

    @result("play, loosest pair", "p_2", step="0.01 mm", inch_step="0.001 in")
    def loosest(self):
        """Largest hole less smallest dowel, as made."""
        return self.hole_upper - self.dowel_lower

    @result("dowel swells by", "z", step="0.01 mm", inch_step="0.001 in")
    def swelling(self):
        """Change across the dowel along its growth rings; negative: it shrinks. Wood Handbook p. 13-17."""
        return 100 * self.diameter * self.movement * (self.now - self.made)

    @result("later, tightest pair", "q_1", step="0.01 mm", inch_step="0.001 in")
    def tightest_later(self):
        """Play of the tightest pair at the later moisture, along the leg's grain."""
        return self.tightest - self.swelling

    @result("later, loosest pair", "q_2", step="0.01 mm", inch_step="0.001 in")
    def loosest_later(self):
        """Play of the loosest pair at the later moisture, along the leg's grain."""
        return self.loosest - self.swelling

    def worries(self):
        if self.tightest < 0:
            yield Caution(
                "The largest dowel is larger than the smallest hole: it scrapes off the glue or splits the leg. "
                "Measure each dowel, and pare or compress the large ones.", input="dowel_grade",
            )
        if self.loosest > 0.2:
            yield Caution(
                "The loosest pair has more play than glue bridges well: keep it under {}.",
                0.2, input="hole_grade", source=RULE,
            )
        if self.swelling < 0:
            yield Caution(
                "The dowel shrinks and pulls at its glue: dry dowels before you glue them, drier than they will "
                "ever be.",
                input="made",
            )
        for name in ("made", "now"):
            if not 0.06 - 1e-9 <= getattr(self, name) <= 0.14 + 1e-9:
                yield Caution(
                    "The table of movement holds from 6 to 14 % of moisture: beyond that this is a rough figure.",
                    input=name, source="Wood Handbook, Table 13-5",
                )
