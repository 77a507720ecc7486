"""What a careful hand does without reckoning: the longest piece first, into the first strip or board with room."""

from dataclasses import dataclass

from shoplib.maths.timber.patterns import Pattern, Strip
from shoplib.maths.timber.problem import TINY


def longest_first(problem):
    """Boards are ripped; a strip takes whatever is no wider than it."""
    order = sorted(range(len(problem.kinds)), key=lambda n: (-problem.kinds[n].length, -problem.kinds[n].width))
    strips, free, left = {}, {n: each.width for n, each in enumerate(problem.stretches)}, {}
    for number in order:
        for _ in range(problem.kinds[number].count):
            if not _place(problem, number, strips, free):
                left[number] = left.get(number, 0) + 1
    patterns = {
        stretch: Pattern(True, tuple(Strip(each.size, tuple(each.pieces)) for each in own))
        for stretch, own in sorted(strips.items())
    }
    return problem.solution(patterns, left)


@dataclass
class _Open:
    """A strip that is being filled: its size, the length that is left, and what is in it."""

    size: float
    room: float
    pieces: list


def _place(problem, number, strips, free):
    kind, kerf = problem.kinds[number], problem.kerf
    fitting = [n for n, each in enumerate(problem.stretches) if number in problem.timbers[each.timber]]
    for stretch in fitting:
        for strip in strips.get(stretch, ()):
            if kind.width <= strip.size + TINY and kind.length <= strip.room + TINY:
                strip.pieces.append(number)
                strip.room -= kind.length + kerf
                return True
    for stretch in fitting:
        each = problem.stretches[stretch]
        if kind.width <= free[stretch] + TINY and kind.length <= each.length + TINY:
            strips.setdefault(stretch, []).append(_Open(kind.width, each.length - kind.length - kerf, [number]))
            free[stretch] -= kind.width + kerf
            return True
    return False
