"""The invented boards that lie on the workshop's rack."""

from shoplib.maths.timber.stock import Board

ASH = "Ash, white"


def stand_rack():
    """The boards on the rack; the spare one is paid for already and has a fault.

    >>> stand_rack()[3]
    Board: ash 27 spare, 1900.0 x 150.0 x 27.0 mm, fault 600.0 to 680.0 mm
    """
    return (
        Board("ash 52", "2900 mm", "140 mm", "52 mm", price=46.0, species=ASH),
        Board("ash 27", "1900 mm", "150 mm", "27 mm", price=19.0, species=ASH),
        Board("ash 20", "2900 mm", "160 mm", "20 mm", price=23.0, species=ASH),
        Board("ash 27 spare", "1900 mm", "150 mm", "27 mm", price=0.0, faults=[("600 mm", "680 mm")], species=ASH),
    )
