"""A stand in a file: a person's own sizes as text with comments, read with plain words and kept without loss."""

from shoplib.paper.stand_file.keeping import Kept, KeptElsewhere, read_stand, write_stand

__all__ = ["Kept", "KeptElsewhere", "read_stand", "write_stand"]
