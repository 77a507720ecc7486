"""Every answer reckoned again from nothing but the numbers in the questions' own texts, by school geometry."""

import math

import pytest
from asked import STUDENTS, TOPICS, bare_numbers, everyone, measures


def only(kind, question):
    return [value for each, value in measures(question.text) if each == kind]


def lengths(question):
    return only("length", question)


def circle_jigs(disc, ring, test_cut, groove, below, passes):
    across, cutter = lengths(disc)
    outside, width, bit = lengths(ring)
    small, large = lengths(groove)
    stock, through, base = lengths(below)
    (deepest,) = lengths(passes)
    yield (across + cutter) / 2
    yield outside / 2 - width - bit / 2
    yield (across + cutter) / 2 - (lengths(test_cut)[0] - across) / 2
    yield (large - small) / 2
    yield base + stock + through
    yield math.ceil((stock + through) / deepest - 1e-9)


def stave_rings(mitre, edge, board, strip, gap, reach):
    (staves,) = bare_numbers(mitre.text)
    (outside, margin), (inside,) = lengths(edge), lengths(board)
    part, outer = math.pi / staves, outside / 2 + margin
    (n, *_), (long_edge, short_edge, kerf) = bare_numbers(strip.text), lengths(strip)
    yield math.pi / staves
    yield 2 * outer * math.tan(part)
    yield outer - (inside / 2 - margin) * math.cos(part)
    # The trapezes' middle line from end to end, and from there half a slant to either square end.
    middle = n * (long_edge + short_edge) / 2 + (n - 1) * kerf / math.cos(math.pi / n)
    yield middle + (long_edge - short_edge) / 2
    yield 2 * staves * only("angle", gap)[0]
    yield math.sqrt(outer**2 - lengths(reach)[0] ** 2)


def rebates(depth, panel, pivot, bearing, passes, season):
    _, thick, proud = lengths(depth)
    inside, width, gap = lengths(panel)
    cutter, wide = lengths(bearing)
    deep, last, most = lengths(passes)
    made, damp = only("percent", season)
    movement = bare_numbers(season.text)[0]
    yield thick - proud
    yield inside + 2 * width - 2 * gap
    yield inside / 2 + width - lengths(pivot)[0] / 2
    yield cutter - 2 * wide
    yield 1 + math.ceil((deep - last) / most - 1e-9)
    yield lengths(season)[0] * movement * 100 * (damp - made) / 2


def dowels(rod, blank, drilled, crossing, wall, swelling):
    across, radius = lengths(rod)
    (count,), (long, kerf, grip) = bare_numbers(blank.text), lengths(blank)
    dowel, leg_hole, free, cope = lengths(drilled)
    leg, hole, depth = lengths(crossing)
    yield (math.sqrt(2) - 1) * (across - 2 * radius)
    yield count * long + (count + 1) * kerf + 2 * grip
    yield dowel + 2 * free - leg_hole + cope
    # The two rims' nearest points: each half a hole off its axis, at the bottom's way before the centre.
    one = (leg / 2 - depth, hole / 2)
    other = (one[1], one[0])
    yield math.dist(one, other)
    thick, deep, point = lengths(wall)
    yield thick - deep - point
    made, now, movement = only("percent", swelling)
    yield lengths(swelling)[0] * movement * 100 * (now - made)


def coping(depth, length, beside, bottom, gap, tip):
    thick, leg = lengths(depth)
    (spacing,), (offset,), (_, high) = lengths(length), lengths(beside), lengths(bottom)
    (rake,), (turn,), (drum,) = only("angle", bottom), only("angle", tip), lengths(gap)

    def rise(diameter, half):
        return diameter / 2 - math.sqrt((diameter / 2) ** 2 - half**2)

    tips = leg / 2 - rise(leg, thick / 2)
    yield rise(leg, thick / 2)
    yield spacing - 2 * tips
    yield rise(leg, thick / 2 + offset)
    yield spacing - 2 * tips / math.cos(rake) + 2 * high * math.tan(rake)
    yield rise(leg, thick / 2) - rise(drum, thick / 2)
    yield (leg / 2 + lengths(tip)[0] / 2 * math.cos(turn)) / math.sin(turn)


def finding_the_centre(crossing, flat, wall, corner, piece, triangle):
    (error,), (angle,), (leg, hole) = lengths(crossing), only("angle", flat), lengths(wall)
    chord, rise = lengths(piece)
    yield math.hypot(error, error)
    yield error / math.sin(angle / 2)
    yield (leg - hole) / 2 - math.hypot(error, error)
    yield math.hypot(*lengths(corner))
    yield ((chord / 2) ** 2 + rise**2) / (2 * rise)
    side = lengths(triangle)[0]
    yield 2 * (side * side * math.sqrt(3) / 4) / (3 * side)  # twice its area over its girth


def casters(wall, depth, shortened, lift, tips, clear):
    leg, hole, error = lengths(wall)
    stem, free = lengths(depth)
    long, high, _ = lengths(shortened)
    (weight,), (arm, reach) = only("mass", lift), lengths(lift)
    up, along, trail = lengths(tips)
    yield (leg - hole) / 2 - error
    yield stem + free
    yield long - high
    yield weight * arm / reach
    yield math.atan2(along - trail, up)
    assert not measures(clear.text)
    # One of four clear and the weight on the centre line: the two across from each other can balance it alone.
    yield weight / 2


def marking_out(quarter, measured, miss, end, apart, depth):
    (paper, leg), (card, girth), (slip, span) = lengths(quarter), lengths(measured), lengths(miss)
    (thick,), (other,), (point,) = lengths(end), lengths(apart), lengths(depth)
    yield 3.14159265 * (leg + paper) / 4
    yield girth / 3.14159265 - card
    yield span * math.tan(slip / ((leg + paper) / 2))
    yield leg / 2 + thick
    # The holes' middles stand half the block's leg from the corner, the thicker leg's centre half its own.
    aside = math.asin((other - leg) / other)
    yield math.pi / 2 - 2 * aside
    yield leg / 2 * math.sqrt(2) - point


def timber(strip, blocks, thickness, feet, weight):
    count, piece, kerf = bare_numbers(strip.text)[0], *lengths(strip)
    yield count * piece + (count - 1) * kerf
    block, board, saw = lengths(blocks)
    sawn, number = block, 0
    while sawn <= board + 1e-6:  # block by block, a cut before each next one
        sawn, number = sawn + saw + block, number + 1
    yield number
    part, *rough = lengths(thickness)[:7]
    planed = [each - 5 for each in rough] if thickness.unit == "mm" else lengths(thickness)[7:13]
    yield 1 + [left >= part for left in planed].index(True)
    long, wide, thick = (size / 25.4 for size in lengths(feet))
    yield round(100 * long / 12 * wide / 12 * thick)
    (long, wide, thick), (moist,) = lengths(weight), only("percent", weight)
    count, gravity = bare_numbers(weight.text)[0], next(x for x in bare_numbers(weight.text) if 0 < x < 1)
    yield count * long * wide * thick * 1e-9 * 1000 * gravity * (1 + moist)


def pull_bars(saw, long_side, gap, roll, stub, stress):
    thick, width = lengths(long_side)
    (error,), (turn,), (reach,) = only("angle", gap), only("angle", roll), lengths(roll)
    room, into_bar, into_leg, clear = lengths(stub)
    yield (math.pi - only("angle", saw)[0]) / 2
    yield width + thick
    # Two lines from one heel, each aslant by the error: where they meet the two outer sides, seen from the heel.
    slant = thick * math.tan(math.pi / 4 - error)
    yield math.dist((-slant, thick), (-thick, slant))
    yield reach * math.cos(math.pi / 2 - turn)
    yield room + into_bar + into_leg - clear - clear
    across, arm = lengths(stress)
    inertia = math.pi * (across / 2) ** 4 / 4
    yield only("mass", stress)[0] * 9.80665 * arm * (across / 2) / inertia


def screws(thread, carried, hole, bore, lead, low):
    rail, deep, screw, washer = lengths(thread)
    (away,), (made, damp) = lengths(carried), only("percent", carried)
    shank, outward, inward = lengths(hole)
    across, through, thin = lengths(bore)
    (root,), gravity = lengths(lead), bare_numbers(lead.text)[0]
    inside, panel, lower = lengths(low)
    yield screw - washer - (rail - deep)
    yield away * bare_numbers(carried.text)[0] * 100 * (damp - made)
    yield shank + 2 * max(outward, inward)
    yield across + 2 * (through / 2 - thin / 2)
    yield root * (0.9 if gravity > 0.6 else 0.7)
    yield panel - inside - lower


def trimming(reach, second, rounds, mark, rise, patch):
    thick, hold, edges = lengths(reach)
    height, first, over = lengths(second)
    margin, bite = lengths(rounds)
    (wall, long), (deep, proud) = lengths(rise), lengths(patch)
    yield hold + edges - thick
    yield height - (first - over)
    yield math.ceil(margin / bite - 1e-9)
    yield math.radians(360 / bare_numbers(mark.text)[0] / 2)
    bent = wall / 2 * (1 - math.cos(math.asin(long / wall)))  # the arc's turn from its middle to its end
    yield bent
    yield proud + bent + deep


def the_stand(clear, hand, diagonal, shift, finish, gravity):
    leg, apart, tray = lengths(clear)
    yield math.hypot(apart / 2, apart / 2) - leg / 2 - tray / 2
    post, span, room, across = lengths(hand)
    yield (span + post) / 2 + room - across / 2
    yield math.hypot(*lengths(diagonal))
    # The far side moves along itself, both diagonals keep their length: where do they meet one height?
    side, one, other = lengths(shift)
    low, high = 0.0, 20.0
    for _ in range(60):
        moved = (low + high) / 2
        higher = one**2 - (side + moved) ** 2 > other**2 - (side - moved) ** 2
        low, high = (moved, high) if higher else (low, moved)
    yield moved
    (area, cover), (loss,) = only("surface", finish), only("percent", finish)
    coats = next(number for word, number in COATS.items() if f"in {word} coats" in finish.text)
    tin = (only("volume", finish) or [1.0])[0]
    yield tin * area / cover * coats / (1 - loss)
    (own, pots), (low, high) = only("mass", gravity), lengths(gravity)
    yield low + (high - low) * pots / (own + pots)


COATS = {"two": 2, "three": 3, "four": 4, "five": 5}
RECKONED = {
    each.__name__: each
    for each in (
        circle_jigs, stave_rings, rebates, dowels, coping, finding_the_centre, casters, screws, marking_out, timber,
        pull_bars, trimming, the_stand,
    )
}


@pytest.mark.parametrize("topic", TOPICS)
def test_answers_reckoned_from_the_texts(topic):
    assert topic in RECKONED, f"reckon the answers of {topic} here, from nothing but their texts"
    for student, unit, questions in everyone(topic, STUDENTS[::3]):
        for number, (question, answer) in enumerate(zip(questions, RECKONED[topic](*questions), strict=True), 1):
            assert question.answer == pytest.approx(answer, abs=question.tolerance / 2), (student, unit, number)
