"""How much goes into a length: the bounded knapsack, filled for every length up to the whole at once."""


class Filling:
    """Pieces added kind by kind to lengths in whole units; `best[row][n]` is the most that n units can hold.

    The rows are lengths side by side in which a piece may have another worth.

    >>> filling = Filling(10)
    >>> filling.add("long", 6, 7.0, limit=1); filling.add("short", 3, 3.0, limit=5)
    >>> float(filling.best[0][10]), sorted(filling.chosen(10))
    (10.0, ['long', 'short'])
    """

    def __init__(self, capacity, rows=1):
        import numpy

        self.room = max(capacity, 0)
        self.best = numpy.zeros((rows, self.room + 1))
        self.steps = []

    def add(self, name, size, worth, limit):
        """Allow up to `limit` pieces of one kind, by bundles of one, two, four ... pieces.

        `worth` is one number, or a column with one for each row.
        """
        import numpy

        best, room = self.best, self.room
        left, count = min(limit, room // size), 1
        while left > 0:
            if count > left:
                count = left
            wide = count * size
            with_it, without = best[:, : room + 1 - wide] + count * worth, best[:, wide:]
            taken = with_it > without
            numpy.maximum(with_it, without, out=without)
            self.steps.append((name, count, wide, taken))
            left, count = left - count, 2 * count

    def chosen(self, capacity, row=0, steps=None):
        """The pieces that make the most of a length, when so many steps had been taken."""
        found = []
        for name, count, size, taken in reversed(self.steps[:steps]):
            if capacity >= size and taken[row, capacity - size]:
                found += [name] * count
                capacity -= size
        return found
