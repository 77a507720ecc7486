"""How much goes into a length: the bounded knapsack, filled for every length up to the whole at once."""


class Filling:
    """Pieces added kind by kind to a length in whole units; `best[n]` is the most that n units can hold.

    >>> filling = Filling(10)
    >>> filling.add("long", 6, 7.0, limit=1); filling.add("short", 3, 3.0, limit=5)
    >>> float(filling.best[10]), sorted(filling.chosen(10))
    (10.0, ['long', 'short'])
    """

    def __init__(self, capacity):
        import numpy

        self.best = numpy.zeros(max(capacity, 0) + 1)
        self.steps = []

    def add(self, name, size, worth, limit):
        """Allow up to `limit` pieces of one kind, by bundles of one, two, four ... pieces."""
        room = len(self.best) - 1
        left, bundle = min(limit, room // size if size > 0 else limit), 1
        while left > 0 and worth > 0:
            count = min(bundle, left)
            self._allow(name, count, count * size, count * worth)
            left, bundle = left - count, 2 * bundle

    def _allow(self, name, count, size, worth):
        import numpy

        with_it = self.best[: len(self.best) - size] + worth
        taken = with_it > self.best[size:] + 1e-9
        self.best[size:] = numpy.where(taken, with_it, self.best[size:])
        self.steps.append((name, count, size, taken))

    def chosen(self, capacity, steps=None):
        """The pieces that make the most of a length, when so many steps had been taken."""
        found = []
        for name, count, size, taken in reversed(self.steps[:steps]):
            if capacity >= size and taken[capacity - size]:
                found += [name] * count
                capacity -= size
        return found
