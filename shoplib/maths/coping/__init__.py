"""Coping: the end of a rail hollowed so that it sits on a round leg."""

from shoplib.maths.coping.cope import Cope
from shoplib.maths.coping.round_cope import RoundCope

__all__ = ["Cope", "RoundCope"]
