"""What hangs on what: the sizes that an operation's fill reads, found by reading it."""

from shoplib.maths.the_stand.filling import Size


def sizes_read(stand, read):
    """The stand's inputs that a function of its stand-in reads on the way, straight or through results, in order.

    What it does not come to for these sizes (the other branch of a choice) is not among them.
    """
    seen = {}
    inputs = stand.model.inputs()

    class Watched(type(stand)):
        def __getattribute__(self, name):
            if name in inputs:
                seen[name] = None
            return super().__getattribute__(name)

    values = {name: stand.__dict__[name] for name in inputs if name in stand.__dict__}
    watched = Watched(values)
    watched.__dict__["seen"] = seen
    read(watched)
    return tuple(seen)


def first_size(stand, operation, name):
    """The size of the stand that an operation's input hangs on: itself, or the first one that its formula reads.

    An input that stays at its default hangs on the first size of the operation.
    """
    source = operation.fill.get(name)
    if type(source) is Size:
        return source.name
    for each in (source, *operation.fill.values()):
        found = sizes_read(stand, each.read) if each is not None else ()
        if type(each) is Size:
            return each.name
        if found:
            return found[0]
    raise AssertionError(f"nothing fills {operation.name}")
