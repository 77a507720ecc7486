"""Sensible inch sizes beside sizes in millimetres: what a rule in inches knows."""

FINEST = ((1 / 4, 8), (1 / 16, 32), (0, 64))  # from how many inches on, and which parts of an inch are sensible
FAR = 0.1  # of a size: an eighth that is so far off stands for another size in the trade, 3/8 for a dowel of 5/16


def inch_twin(size, finest=0):
    """The sensible inch size beside a size in mm, in mm: eighths; 32nds under a quarter, 64ths under a sixteenth.

    A sixteenth where the nearest eighth is more than a tenth off. Where so many parts of an inch are asked for, none
    is coarser. A size too small for a 64th stays as it is.

    >>> [round(inch_twin(size) / 25.4, 9) for size in (440.0, 20.0, 8.0, 2.5, 0.5)]
    [17.375, 0.75, 0.3125, 0.09375, 0.015625]
    >>> inch_twin(0.1), inch_twin(0.0), inch_twin(14.0, 16) / 25.4
    (0.1, 0.0, 0.5625)
    """
    inches = abs(size) / 25.4
    parts = max(finest, next(parts for least, parts in FINEST if inches >= 0.9 * least))
    if parts == 8 and abs(round(inches * parts) / parts - inches) > FAR * inches:
        parts = 16
    steps = round(size / 25.4 * parts)
    return steps / parts * 25.4 if steps else size
