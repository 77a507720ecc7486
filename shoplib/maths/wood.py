"""How heavy and how strong timber is, looked up: specific gravity, density, moduli of rupture and of elasticity."""

from typing import NamedTuple

from shoplib.measure import MeasureError
from shoplib.tables import table

SOURCE = "Wood Handbook, FPL-GTR-190, Table 5-3a"


def timbers_with(name):
    """The timbers of a table, in its order.

    >>> "Ash, white" in timbers_with("strength"), "Ash, white" in timbers_with("specific_gravity")
    (True, True)
    """
    return tuple(row["species"] for row in table(name))


def _row(name, timber):
    for row in table(name):
        if row["species"] == timber:
            return row
    raise MeasureError(f"There is no timber {str(timber)[:30]!r} in this table; for instance 'Ash, white'.")


def specific_gravity(timber):
    """Ovendry weight over the weight of as much water as the wood's volume at 12 % moisture: a plain ratio.

    Wood Handbook (FPL-GTR-190) Table 5-3a.

    >>> specific_gravity("Ash, white")
    0.6
    """
    return _row("specific_gravity", timber)["at_12"]


def density(timber, moisture):
    """Weight of the wood with its water, in kg for each cubic metre, at a moisture content (a ratio: 0.12 is 12 %).

    1000 G (1 + M): Wood Handbook (FPL-GTR-190), chapter 4, with G at 12 %.

    >>> round(density("Ash, white", 0.12), 1)
    672.0
    """
    return 1000 * specific_gravity(timber) * (1 + moisture)


class Strength(NamedTuple):
    """Of clear straight wood at 12 % moisture, in MPa, and how far each value can be trusted."""

    rupture: float
    rupture_status: str
    elasticity: float
    elasticity_status: str

    @property
    def doubt(self):
        """How the weaker of both values was come by, in words; nothing where both were read in the source itself.

        >>> strength("Oak, white").doubt, strength("Ash, white").doubt, strength("Pine, red").doubt
        ('from memory', 'quoted at second hand', '')
        """
        found = (self.rupture_status, self.elasticity_status)
        if any(status.startswith("from memory") for status in found):
            return "from memory"
        return "" if found == ("seen", "seen") else "quoted at second hand"


def strength(timber):
    """Modulus of rupture and of elasticity of a timber: Wood Handbook (FPL-GTR-190) Table 5-3a.

    >>> strength("Ash, white").rupture
    103.0
    """
    row = _row("strength", timber)
    return Strength(*(row[name] for name in Strength._fields))
