"""The sizes that wood screws are sold in: by number in inches, by shank in millimetres."""

from shoplib.model import Facts, Offer, write_value
from shoplib.tables import table

INCH = 25.4


def _sold():
    """Each screw: its system, its name, shank, root and head in mm, and how its row was come by."""
    for row in table("metric_wood_screws"):
        sizes = (row["shank_mm"], row["root_mm"], row["head_mm"])
        yield "mm", f"{row['shank_mm']:g} mm", sizes, row["status"]
    for row in table("wood_screws"):
        sizes = tuple(INCH * row[f"{each}_in"] for each in ("shank", "root", "head"))
        yield "in", f"No. {row['number']:g}", sizes, row["status"]


OFFER = Offer(
    "screw from the table", "Fills shank, root and head. Callipers on your own screw know better.", "Screw",
    {
        name: dict(zip(("shank_diameter", "root_diameter", "head_diameter"), sizes))
        for _, name, sizes, _ in _sold()
    },
    tuple(name for system, name, *_ in _sold() if system == "in"),
)  # fmt: skip


def screw_sizes(unit="mm"):
    """Wood screws as they are sold, by shank in "mm" or by number in "in": a small table that shows itself.

    Shank over the thread, root at its bottom, head across; the last column says how far a row can be trusted.
    DIN 7998 and DIN 96 (from memory), ASME B18.6.1 (at second hand).

    >>> screw_sizes("in").rows[2]
    ('No. 8', '0.164 in', '0.131 in', '0.322 in', 'at second hand')
    """
    trust = {"seen (secondary)": "at second hand"}
    rows = [
        (name, *(write_value(size, "length", unit, "0.1 mm", "0.001 in") for size in sizes), trust.get(status, status))
        for system, name, sizes, status in _sold() if system == unit
    ]  # fmt: skip
    return Facts(rows, head=("screw", "shank", "root", "head", "these sizes are"))
