"""The rolling seedling stand, the example of all lessons."""

from shoplib.maths.the_stand.stand import Stand

SIZES = {
    "tray_diameter": "440 mm", "rim_width": "20 mm", "rim_height": "40 mm", "panel_thickness": "12 mm",
    "rebate_width": "10 mm", "panel_clearance": "2.5 mm", "leg_diameter": "35 mm", "stand_height": "720 mm",
    "leg_spacing": "360 mm", "rail_thickness": "20 mm", "rail_height": "50 mm", "upper_rail_top": "660 mm",
    "dowel_diameter": "8 mm", "dowel_length": "40 mm", "dowel_in_leg": "12 mm", "dowel_edge": "12 mm",
    "caster_height": "50 mm", "caster_hole": "11 mm", "caster_stem": "22 mm", "caster_trail": "20 mm",
    "counterbore_depth": "19 mm", "screw_length": "40 mm", "screw_shank": "4 mm", "screw_root": "2.8 mm",
    "screw_head": "8 mm", "screw_hole": "6 mm", "screw_from_fixed": "75 mm", "washer_thickness": "1 mm",
    "washer_diameter": "10 mm", "router_cutter": "12 mm", "router_edges": "25 mm", "router_reach": "45 mm",
    "jig_base": "10 mm", "rebate_cutter": "32 mm", "template_thickness": "18 mm", "bearing_hold": "18 mm",
    "first_edges": "25 mm", "second_edges": "25 mm", "second_bearing": "7 mm", "cradle_height": "60 mm",
    "rounding_bite": "6 mm",
}  # fmt: skip


def seedling_stand(**changes):
    """The stand with the sizes of all lessons; any of them changed.

    >>> seedling_stand(leg_diameter="40 mm").leg_diameter
    <Quantity(40.0, 'millimeter')>
    """
    return Stand(**SIZES | changes)


def stand_parts():
    """Its parts as they go to the saw.

    >>> stand_parts()[1]
    Part: 8 rail, 332.0 x 50.0 x 20.0 mm, Ash, white
    """
    return seedling_stand().parts()
