"""What of the whole stand cannot be made, and what should worry you, beyond what the lessons say of each operation."""

from math import hypot

from shoplib.maths.pull_bars.hand import HAND
from shoplib.maths.pull_bars.hand import SOURCE as OF_HANDS
from shoplib.maths.pull_bars.stub_in_leg import Hole, wood_across, wood_square
from shoplib.maths.the_stand.dependencies import first_size
from shoplib.model import Caution, ShapeError

NEAR_A_RIM = 60.0  # mm above or below: so near a hand at the bar meets the rim
HAIR = 1e-6  # mm: what is left of a distance that is nothing, found by halving
THIN = 1 / 4  # of the dowel's diameter: lesson 04's rule for wood between holes


def check(stand):
    """Raise ShapeError where the sizes together cannot be a stand."""
    if stand.tray_clear <= 0:
        raise ShapeError(
            "A tray of {} runs into the legs: between legs of {}, {} apart, it must stay under {}. Make the tray "
            "smaller or set the legs wider.",
            stand.tray_diameter, stand.leg_diameter, stand.leg_spacing, stand.tray_diameter + 2 * stand.tray_clear,
            input="tray_diameter",
        )
    if stand.rim_inside <= 0:
        raise ShapeError(
            "A rim {} wide leaves no inside to a tray of {}. Make it narrower.", stand.rim_width, stand.tray_diameter,
            input="rim_width",
        )
    _check_rails(stand)
    _check_panel(stand)
    if stand.pull_bar != "none":
        _check_bar(stand)


def _check_panel(stand):
    """The panel must reach over the rails, and over the sliding screws in them."""
    reach, panel = stand.leg_spacing / 2, stand.panel_diameter / 2
    if panel <= 0:
        raise ShapeError(
            "A rebate {} across leaves no panel with a clearance of {}.", stand.rebate_diameter, stand.panel_clearance,
            input="panel_clearance",
        )
    if panel <= reach:
        raise ShapeError(
            "A panel {} across does not reach the middle of the rails, which stand {} apart: the tray falls between "
            "them. Make the tray larger or set the legs nearer.", stand.panel_diameter, stand.leg_spacing,
            input="tray_diameter",
        )
    if hypot(reach, stand.screw_from_fixed) + stand.screw_shank / 2 >= panel:
        raise ShapeError(
            "A sliding screw {} from the fast ones comes up beside the panel, which is {} across. Set it nearer.",
            stand.screw_from_fixed, stand.panel_diameter, input="screw_from_fixed",
        )


def _check_rails(stand):
    """The rails one over the other, between the legs' tops and the casters."""
    if stand.upper_rail_top > stand.stand_height:
        raise ShapeError(
            "The upper rails' top edge, {} above the floor, lies over the legs' tops at {}. Set it lower.",
            stand.upper_rail_top, stand.stand_height, input="upper_rail_top",
        )
    lowest, name = stand.rail_tops[0], "lower_rail_top" if stand.trays > 1 else "upper_rail_top"
    foot = stand.caster_height + stand.caster_hole_depth
    if lowest - stand.rail_height < foot:
        raise ShapeError(
            "The rails' bottom edge, {} above the floor, lies below the end of the casters' holes at {}. Set the rails "
            "higher.", lowest - stand.rail_height, foot, input=name,
        )
    if stand.trays > 1 and stand.rail_gap <= stand.panel_proud + stand.rim_height:
        raise ShapeError(
            "Between lower and upper rails {} are left, and the lower tray is {} high. Set the rails further apart.",
            stand.rail_gap, stand.panel_proud + stand.rim_height, input="lower_rail_top",
        )


def _check_bar(stand):
    """The bar on its legs, beside the tray and clear of the dowels."""
    half = stand.bar_diameter / 2
    if stand.bar_diameter >= stand.leg_diameter:
        raise ShapeError(
            "A bar of {} on legs of {}: it must be thinner than a leg. Take a thinner bar.",
            stand.bar_diameter, stand.leg_diameter, input="bar_diameter",
        )
    if not stand.caster_height + half <= stand.bar_height <= stand.stand_height - half:
        raise ShapeError(
            "A bar {} above the floor does not lie on the legs, which reach from {} to {}. Set it between.",
            stand.bar_height, stand.caster_height, stand.stand_height, input="bar_height",
        )
    rim = _rim_beside(stand, half)
    if rim is not None and stand.bar_room <= 0:
        raise ShapeError(
            "At that height the bar lies {} inside the tray's rim. Set it higher or lower, or give it more hand room.",
            -stand.bar_room, input="bar_height",
        )
    if stand.pull_bar == "stubs" and wood_beside_stub(stand) < HAIR:
        raise ShapeError(
            "The stub's hole, {} above the floor, breaks into a dowel's hole in the same leg. Set the bar higher or "
            "lower.", stand.bar_height, input="bar_height",
        )


def _rim_beside(stand, reach):
    """The top edge of the rails whose rim comes within this reach of the bar's height; None where none does."""
    for top in stand.rail_tops:
        low = top + stand.panel_proud
        if low - reach < stand.bar_height < low + stand.rim_height + reach:
            return top
    return None


def wood_beside_stub(stand):
    """Least wood between the stub's hole and the dowels' holes of both rails in its leg; 0 where they meet.

    Where their heights alone keep them apart by more than would worry anybody, that is told: it is no more.
    """
    leg = stand.leg_diameter / 2
    stub = Hole(leg - stand.stub_in_leg, stand.stub_diameter / 2, stand.bar_height)
    spacing = stand.dowel_spacing if stand.dowels > 1 else 0.0
    downs = [stand.dowel_edge + k * spacing for k in range(stand.dowels)]
    levels = {top - down - shift for top in stand.rail_tops for down in downs for shift in (0.0, stand.stagger)}
    nearest = sorted(levels, key=lambda level: abs(level - stand.bar_height))[:2]
    upright = abs(nearest[0] - stand.bar_height) - (stand.stub_diameter + stand.dowel_diameter) / 2
    if upright > THIN * stand.dowel_diameter:
        return upright
    holes = [Hole(leg - stand.dowel_in_leg, stand.dowel_diameter / 2, level) for level in nearest]
    return min(min(wood_across(stub, hole), wood_square(stub, hole)) for hole in holes)


def worries(stand):
    """The cautions of the whole stand."""
    if stand.trays > 1 and stand.way_in_spare < 0:
        yield Caution(
            "However it leans, the lower tray does not go in between rails and legs: at the lean that the rails "
            "want, {} are short between the legs. Put it in before the last glue-up, or set the rails further apart.",
            -stand.way_in_spare, input="lower_rail_top", source="geometry",
        )
    if stand.pull_bar != "none":
        yield from _worries_bar(stand)
    if stand.dowels > 2:
        yield Caution(
            "The strip round a leg marks two dowels at the most: carry the others over from the rail's own marks.",
            input="dowels", source="this lesson",
        )


def _worries_bar(stand):
    if _rim_beside(stand, NEAR_A_RIM) is not None and stand.bar_room < HAND:
        yield Caution(
            "The bar is near a rim's height and only {} clear of it: a hand needs {}. Set it {} away from the rim, "
            "higher or lower, or give it more hand room.",
            stand.bar_room, HAND, NEAR_A_RIM, input="bar_height", source=OF_HANDS,
        )
    if stand.pull_bar == "stubs":
        wood, thin = wood_beside_stub(stand), THIN * stand.dowel_diameter
        if wood < thin:
            yield Caution(
                "Only {} of wood stay between the stub's hole and a dowel's: leave {} or more. Set the bar higher or "
                "lower.", wood, thin, input="bar_height", source="a rule of thumb of lesson 04",
            )


def from_lesson(kind, stand, operation, told, **more):
    """A lesson's sentence about an operation, beginning with whose it is, hung on a size of the stand."""
    said = f"{operation.title} ({operation.lesson_words}): {told.sentence}"
    return kind(said, *told.lengths, input=first_size(stand, operation, told.input), **more)


def caution_from_lesson(stand, operation, caution):
    """The same of a Caution."""
    return from_lesson(Caution, stand, operation, caution, source=caution.source)
