"""A bench's model as an operation of a stand: what fills its inputs, and what of them the stand can keep."""

from typing import NamedTuple

from shoplib.maths.the_stand import Stand
from shoplib.maths.the_stand.filling import Reckoned, Size
from shoplib.maths.the_stand.made import measurable
from shoplib.maths.the_stand.operations import OPERATIONS
from shoplib.model import ShapeError, headed
from shoplib.paper.stand_file.keys import is_alike, text_for

SET = ("length", "count", "table")  # kinds of result that a rule or a stop is set to


class Wanted(NamedTuple):
    """What is to be kept: the stand with it, in words what it is (name, was, becomes), what stays behind, and the
    inputs of the bench that are kept.
    """

    stand: object
    kept: tuple
    behind: tuple
    inputs: tuple = ()


def works(cls):
    """The operations, of any stand, that a model is of."""
    return tuple(each for each in OPERATIONS.values() if each.model is cls)


class Filled:
    """One operation of a stand on a bench: what each of its model's inputs is filled from.

    `sizes` are the inputs that are a size of the stand, `measured` those that can be measured and kept so, by the
    stand's name, `gives` the results that can. `worked_out` come by a formula, `as_made_here` from what was measured.
    """

    def __init__(self, stand, name):
        bound = stand.operation(name)
        operation, may = bound.operation, measurable(Stand)
        self.stand, self.model, self.name, self.title = stand, operation.model, name, bound.title
        self.many = f"{bound.count} × {bound.part}"
        self.values = operation.values(bound.filled_from)
        self.as_made_here = tuple(bound.as_made)
        named = {each: source.named for each, source in operation.fill.items() if type(source) is Reckoned}
        self.sizes = {each: source.name for each, source in operation.fill.items() if type(source) is Size}
        self.worked_out = tuple(named)
        self.measured = {each: size for each, size in (self.sizes | named).items() if size in may}
        self.gives = {each: size for each, size in operation.gives.items() if size in may}

    def planned(self, changed, unit):
        """The stand with what was changed here as a plan. Raises ShapeError where it cannot be made."""
        sizes, behind = self._named(changed, self.sizes)
        texts = {name: value if value is None else text_for(_item(name), value, unit) for name, value in sizes.items()}
        measured = [name for name in sizes if name in self.stand.made]
        new = (self.stand.not_made(*measured) if measured else self.stand).replace(**texts)
        rows = [(name, self.stand.values[name], value) for name, value in sizes.items()]
        return Wanted(new, tuple(_told(rows, unit)), behind, tuple(name for name in changed if name in self.sizes))

    def as_made(self, changed, results, unit):
        """The stand with what was changed and measured here as made. Raises ShapeError where it cannot be made."""
        there = {name: value for name, value in changed.items() if value is not None}
        inputs, behind = self._named(there, self.measured)
        found, left = self._named(results, self.gives)
        both = inputs | found
        texts = {name: text_for(_item(name), value, unit) for name, value in both.items()}
        rows = [(name, self._now(name), value) for name, value in both.items()]
        new = self.stand.as_made(**texts) if both else self.stand
        names = tuple(name for name in there if name in self.measured)
        return Wanted(new, tuple(_told(rows, unit)), (*behind, *left), names)

    def nominal_again(self, name, unit):
        """The stand with one measured size as planned again."""
        new = self.stand.not_made(name)
        return Wanted(new, tuple(_told([(name, self.stand.made[name], getattr(new.plain, name))], unit)), ())

    def made_here(self):
        """The measured sizes that this bench is about: {name: (planned, as made)} in plain values."""
        names = dict.fromkeys([*self.measured.values(), *self.gives.values()])
        made = self.stand.made
        return {name: (getattr(self.stand.plain, name), made[name]) for name in names if name in made}

    def _now(self, name):
        """What a measured size is taken for until now: as it was measured, or as it is planned."""
        return self.stand.made.get(name, getattr(self.stand.plain, name))

    def _named(self, changed, names):
        """What was changed by the names that the stand has for it, and in words what it has no name for."""
        found, behind = {}, []
        items = self.model.inputs() | self.model.results()
        for each, value in changed.items():
            name = names.get(each)
            if name is None:
                behind.append(items[each].words)
            elif name in found and not is_alike(found[name], value):
                words = headed(_item(name).words)
                raise ShapeError(f"{words} this is one size of the stand. Set it alike in all places here.")
            else:
                found[name] = value
        return found, tuple(behind)


class Whole(Filled):
    """The whole stand on its own bench: each input is a size of it."""

    def __init__(self, stand):
        may = measurable(Stand)
        self.stand, self.model, self.name, self.title, self.many = stand, Stand, "", "The whole stand", "all its sizes"
        self.values, self.as_made_here, self.worked_out = dict(stand.values), (), ()
        self.sizes = {name: name for name in Stand.inputs()}
        self.measured = {name: name for name in Stand.inputs() if name in may}
        self.gives = {name: name for name in Stand.results() if name in may}


def _item(name):
    return Stand.inputs().get(name) or Stand.results()[name]


def _told(rows, unit):
    for name, was, becomes in rows:
        yield _item(name).words, *(_item(name).write(value, unit) for value in (was, becomes))


def moves(stand, new, apart=""):
    """What a new stand changes in the operations, but for one: rows of what, was, becomes, how many, lesson.

    Two lists: sizes that are set at a machine, as the cards tell them, and the rest. What two operations share stands
    once.
    """
    found = stand.changes(new)
    cards = {each.name: set(each.plain.on_card()) for each in (*stand.operations(), *new.operations())}
    set_there, rest = {}, {}
    for each in found:
        if each.operation != apart:
            is_set = each.item.kind in SET and each.result in cards[each.operation]
            rows = set_there if is_set else rest
            key = (each.words, each.was, each.becomes, each.part, each.lesson)
            rows.setdefault(key, []).append(each)
    return list(set_there.values()), list(rest.values())
