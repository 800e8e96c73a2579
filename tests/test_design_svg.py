"""Blocks from SVG drawings: what is a patch, what lies on top, small misfits."""

import math
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from shapely import Polygon, box

from drawn_blocks import FILLS, HEAD, errors, notes, read, shapes, tilings
from piecewright.cli.main import call
from piecewright.design.covering import seen_pieces
from piecewright.design.gridding import on_simple_grid
from piecewright.design.read import design_from, read_design
from piecewright.design.snapping import misfit_limit, snap
from piecewright.geometry.polygon import area, same_polygon
from piecewright.toml_places import toml_from_text

EXAMPLE = Path(__file__).parents[1] / "examples" / "old-page" / "old-page.toml"
SKY, SEA, EMBER = (f'fill="{FILLS[role]}"' for role in ("sky", "sea", "ember"))
GRIDDED = """title = "t"
[fabrics.sky]
colour = "white"
[blocks.b]
size = "4"
picture = "sky"
prefer = "partial seams"
[setting]
across = 1
down = 1
arrangement = "b"
"""
LEFT, RIGHT = ("sky", ((0, 0), (6, 0), (6, 12), (0, 12))), ("sea", ((6, 0), (12, 0), (12, 12), (6, 12)))
HALVES = f'<rect width="50" height="100" {SKY}/><rect x="50" width="50" height="100" {SEA}/>'


def close(found, wanted):
    """Whether two lists of (role, outline) are the same patches."""
    rest = list(found)
    for role, outline in wanted:
        at = next((k for k, (r, o) in enumerate(rest) if r == role and same_polygon(o, outline, 1e-5)), None)
        if at is None:
            return False
        rest.pop(at)
    return not rest


# ------------------------------------------------------------------ what is a patch


def test_y_points_down_in_a_drawing_and_up_in_a_block(tmp_path):
    body = f'<rect width="10" height="4" {SKY}/><rect y="4" width="10" height="6" {SEA}/>'
    assert shapes(tmp_path, body, size="5") == [
        ("sky", ((0, 3), (5, 3), (5, 5), (0, 5))),
        ("sea", ((0, 0), (5, 0), (5, 3), (0, 3))),
    ]


@pytest.mark.parametrize(
    "right",
    [
        f'<rect x="50" width="50" height="100" {SEA}/>',
        f'<polygon points="50,0 100,0 100,100 50,100" {SEA}/>',
        f'<polyline points="50 0,100 0,100 100,50 100,50 0" {SEA}/>',
        f'<path d="M50,0 H100 V100 H50 Z" {SEA}/>',
        f'<path d="m 50 0 50 0 0 1e2 -50,0z" {SEA}/>',
        f'<path d="M50.,0L100.0,0.L100,100 50,100" {SEA}/>',
        f'<g transform="translate(50)"><g transform="scale(5 10)"><rect width="10" height="10" {SEA}/>'
        "</g></g>",
        f'<rect width="100" height="50" transform="rotate(90) translate(0 -100)" {SEA}/>',
        f'<rect width="50" height="100" transform="matrix(-1,0,0,1,100,0)" {SEA}/>',
        f'<polygon points="50,-50 100,-100 100,0 50,50" transform="skewY(45)" {SEA}/>',
        f'<polygon points="50,0 100,0 0,100 -50,100" transform="skewX(45)" {SEA}/>',
        '<svg x="50" width="50" height="100" viewBox="0 0 1 2">'
        f'<rect width="100%" height="100%" {SEA}/></svg>',
        f'<defs><rect id="r" width="50" height="100"/></defs><use href="#r" x="50" {SEA}/>',
        f'<symbol id="s" viewBox="0 0 5 10"><rect width="5" height="10"/></symbol>'
        f'<use xlink:href="#s" x="50" width="50" height="100" {SEA}/>',
        f'<g style="fill:{FILLS["sea"]};stroke:red"><rect x="50" width="50" height="100"/></g>',
        "<style>.d{fill:rgb(31, 61, 87)} polygon{fill:red}</style>"
        '<polygon points="50,0 100,0 100,100 50,100" class="d"/>',
        "<style>/* a */ #r, .z {fill:#1f3d57}</style>"
        '<rect id="r" fill="red" x="50" width="50" height="100"/>',
        '<g color="#1f3d57"><rect x="50" width="50" height="100" fill="currentColor"/></g>',
        '<rect x="50" width="50" height="100" style="fill:#1F3D57 !important" fill="red"/>',
        f'<a><switch><rect x="50" width="50" height="100" {SEA}/></switch></a>',
    ],
)
def test_a_filled_shape_is_a_patch_however_it_is_written(tmp_path, right):
    assert close(shapes(tmp_path, f'<rect width="50" height="100" {SKY}/>{right}'), [LEFT, RIGHT])


def test_what_is_no_patch_is_left_out_and_told(tmp_path):
    body = (
        '<text x="400">note</text><image href="http://example.org/x.png"/><script>alert(1)</script>'
        '<line x2="900" stroke="red"/><path d="M0 0H900" fill="none" stroke="red"/>'
        '<g display="none"><rect width="9"/></g><rect width="900" height="1" style="visibility:hidden"/>'
        '<foreignObject/><rect width="900" height="2" fill="none"/>'
        '<metadata><rect/></metadata><use href="other.svg#x"/>'
    )
    (told,) = notes(tmp_path, HALVES + body)
    assert told == (
        "left out of b.svg, since it is no patch: 1 text, 1 picture, 1 script, 2 lines, 2 hidden parts, "
        "1 foreign part, 1 shape without a fill, 1 copy of something that is not in the drawing."
    )
    assert close(shapes(tmp_path, HALVES + body), [LEFT, RIGHT])


def test_colours_are_compared_not_their_spelling(tmp_path):
    body = (
        '<rect width="50" height="100" fill="WHITE"/>'
        '<rect x="50" width="50" height="100" fill="hsl(0 100% 50%)"/>'
    )
    fills = {"sky": "#fff", "ember": "rgb(255,0,0)"}
    assert [role for role, _ in shapes(tmp_path, body, fills=fills)] == ["sky", "ember"]


def test_a_fill_without_a_role_and_a_role_without_a_fill_are_told(tmp_path):
    body = f'{HALVES}\n<rect width="20" height="20" fill="gold"/>'
    (told,) = errors(tmp_path, body)
    assert "expected a role for the fill #ffd700 (1 patch; line 2 of b.svg), got none." in told
    assert told.endswith('Add "#ffd700" = "..." to [blocks.b.fills].')
    (told,) = errors(tmp_path, f'{HALVES}<rect width="20" height="20" fill="url(#g)"/>')
    assert "expected plain colours as fills, got 'url(#g)' (line 1 of b.svg)." in told
    _, problems = read(tmp_path, f"{HEAD}{HALVES}</svg>")
    assert "no patch of b.svg has the fill #c4532f." in [p.what for p in problems]


def test_fills_are_css_colours_of_known_roles_each_once(tmp_path):
    fills = {"sky": "#dfe8ee", "sea": "navyblu", "sly": "#1f3d57", "ember": "#DFE8EE"}
    told = errors(tmp_path, HALVES, fills=fills)
    assert any("unknown role 'sly'. Did you mean sky?" in line for line in told)
    assert any("expected a CSS colour such as" in line and "navyblu" in line for line in told)
    assert any("expected each fill once, got #DFE8EE twice." in line for line in told)


def test_a_block_has_a_picture_or_patches_or_a_drawing(tmp_path):
    told = errors(tmp_path, HALVES, more='picture = "sky"')
    assert any(
        "expected one of picture, patches, drawing for the block b, got picture and drawing." in t
        for t in told
    )
    told = errors(tmp_path, HALVES, more='drafted = "4"')
    assert any("expected drafted only in a block with patches, got it in b." in line for line in told)


def test_how_one_would_rather_sew_it_is_carried_to_the_block(tmp_path):
    design, _ = read(tmp_path, f"{HEAD}{HALVES}</svg>", more='prefer = "set in"')
    assert design.block["b"].prefer == "set in"
    (told,) = errors(tmp_path, HALVES, more='prefer = "set-in"')
    gridded = design_from(toml_from_text(GRIDDED, "q"))[0]
    assert gridded.block["b"].prefer == "partial seams"
    assert told.endswith("""or "set in", got 'set-in'. Did you mean set in?""")


# ------------------------------------------------------------------ size


def test_the_box_around_all_patches_becomes_the_finished_size(tmp_path):
    body = f'<g transform="translate(700 -300) scale(0.01)">{HALVES}</g>'
    assert close(shapes(tmp_path, body), [LEFT, RIGHT])
    wide = shapes(tmp_path, f'<g transform="scale(3 2)">{HALVES}</g>', size="9 x 6")
    assert close(
        wide, [("sky", ((0, 0), (4.5, 0), (4.5, 6), (0, 6))), ("sea", ((4.5, 0), (9, 0), (9, 6), (4.5, 6)))]
    )


def test_other_proportions_are_told_and_a_hundredth_is_not(tmp_path):
    assert close(shapes(tmp_path, f'<g transform="scale(1.009 1)">{HALVES}</g>'), [LEFT, RIGHT])
    told = errors(tmp_path, f'<g transform="scale(1.02 1)">{HALVES}</g>')[0]
    assert "the proportions of the block (12 in x 12 in), got shapes that reach over 102 x 100 of" in told


# ------------------------------------------------------------------ what lies on top


def test_a_covered_shape_shows_only_the_rest_and_each_piece_is_a_patch(tmp_path):
    ground = f'<rect width="90" height="90" {SKY}/>'
    cross = f'<rect x="30" width="30" height="90" {SEA}/><rect y="30" width="90" height="30" {SEA}/>'
    found = shapes(tmp_path, ground + cross, size="9")
    assert sorted((role, area(outline)) for role, outline in found) == [
        ("sea", 9), ("sea", 9), ("sea", 27), ("sky", 9), ("sky", 9), ("sky", 9), ("sky", 9),
    ]  # fmt: skip


def test_a_shape_that_cannot_be_seen_is_told(tmp_path):
    hidden = f'<rect width="80" height="80" x="10" y="10" {EMBER}/>'
    assert "1 shape of b.svg cannot be seen under others." in notes(tmp_path, hidden + HALVES)
    assert close(shapes(tmp_path, hidden + HALVES), [LEFT, RIGHT])


@pytest.mark.parametrize(
    "body",
    [
        f'<rect width="90" height="90" {SKY}/><rect x="30" y="30" width="30" height="30" {SEA}/>',
        f'<path d="M0 0H90V90H0Z M30 30V60H60V30Z" {SKY}/><rect x="30" y="30" width="30" height="30" {SEA}/>',
        f'<path fill-rule="evenodd" d="M0 0H90V90H0Z M30 30H60V60H30Z" {SKY}/>'
        f'<rect x="30" y="30" width="30" height="30" {SEA}/>',
    ],
)
def test_a_patch_with_a_hole_is_to_be_drawn_in_two(tmp_path, body):
    (told,) = errors(tmp_path, body, size="9")
    assert (
        "got the sky patch around (4 1/2, 4 1/2) with a hole around (4 1/2, 4 1/2). Draw it in two." in told
    )


def test_loops_in_one_path_are_filled_as_the_drawing_fills_them(tmp_path):
    """Nonzero fills a loop inside another that runs the same way round; evenodd leaves it open."""
    two = "M0 0H100V100H0Z M0 0H50V100H0Z"
    assert [area(o) for _, o in shapes(tmp_path, f'<path d="{two}" {SKY}/>')] == [144]
    even = f'<rect width="50" height="100" {SEA}/><path d="{two}" {SKY} fill-rule="evenodd"/>'
    assert [(role, area(o)) for role, o in shapes(tmp_path, even)] == [("sea", 72), ("sky", 72)]
    crossed = f'<rect width="100" height="100" {SEA}/><path d="M0 0L100 100H0L100 0Z" {SKY}/>'
    assert [(role, area(o)) for role, o in shapes(tmp_path, crossed)] == [
        ("sea", 36),
        ("sea", 36),
        ("sky", 36),
        ("sky", 36),
    ]


def test_a_filled_outline_with_open_ends_is_closed_and_told(tmp_path):
    body = f'<rect width="100" height="100" {SEA}/><polyline points="0,0 100,0 100,100" {SKY}/>'
    assert "1 filled outline of b.svg had open ends; a line joins them." in notes(tmp_path, body)
    assert [(role, area(o)) for role, o in shapes(tmp_path, body)] == [("sea", 72), ("sky", 72)]


@pytest.mark.parametrize(
    ("curve", "radius"),
    [
        ('<circle r="50" {fill}/>', 6),
        ('<ellipse rx="50" ry="50" {fill}/>', 6),
        ('<path d="M-50 0A50 50 0 0 1 50 0A50 50 0 0 1-50 0Z" {fill}/>', 6),
        ('<circle r="5" {fill}/>', 0.6),
        ('<rect x="-20" y="-20" width="40" height="40" rx="20" {fill}/>', 2.4),
    ],
)
def test_no_chord_of_a_circle_lies_more_than_a_64th_off(tmp_path, curve, radius):
    ground = f'<rect x="-50" y="-50" width="100" height="100" {SEA}/>'
    split = f'<rect x="-50" y="-50" width="50" height="100" {SKY}/>'
    body = ground + split + curve.format(fill=EMBER)
    (outline,) = [o for role, o in shapes(tmp_path, body) if role == "ember"]
    sides = zip(outline, outline[1:] + outline[:1], strict=True)
    middles = [math.hypot((ax + bx) / 2 - 6, (ay + by) / 2 - 6) for (ax, ay), (bx, by) in sides]
    assert radius - 1 / 64 <= min(middles) <= radius
    assert any(
        "curves are made of straight pieces, which lie 1/64 in (0.4 mm) off at most" in n
        for n in notes(tmp_path, body)
    )


def test_both_kinds_of_curves_are_followed(tmp_path):
    """Areas under a parabola (Archimedes: 4/3 of the triangle) and under the same curve as a cubic."""
    for curve in ("Q 50 100 100 0", "C 33.33333 66.66667 66.66667 66.66667 100 0"):
        body = f'<rect width="100" height="100" {SEA}/><path d="M 0 0 {curve} Z" {SKY}/>'
        (bow,) = [o for role, o in shapes(tmp_path, body) if role == "sky"]
        assert area(bow) == pytest.approx(4 / 3 * 36, abs=12 / 64), curve


# ------------------------------------------------------------------ small misfits


def test_small_misfits_are_snapped_and_told(tmp_path):
    body = (
        f'<rect width="50.3" height="99.8" {SKY}/><path d="M49.8 0.2 H100 L99.9 49.9 L50 50.2 Z" {SEA}/>'
        f'<polygon points="50.1,50 100,49.8 100,100 50,100" {EMBER}/>'
    )
    assert shapes(tmp_path, body) == [
        ("sky", ((0, 0), (6, 0), (6, 12), (0, 12))),
        ("sea", ((6, 6), (12, 6), (12, 12), (6, 12))),
        ("ember", ((6, 0), (12, 0), (12, 6), (6, 6))),
    ]
    (told,) = [note for note in notes(tmp_path, body) if "nearly met" in note]
    assert told == "9 corners of b.svg nearly met others: moved by 0.0433 in at most."


@pytest.mark.parametrize("jog", [0.15, -0.15])
def test_corners_off_every_simple_grid_are_brought_onto_straight_lines(tmp_path, jog):
    """A line at sqrt 2 / 4 of the side that jogs by 0.02 in where it meets another line is straight again."""
    x, y = 100 * math.sqrt(2) / 4, 100 * (math.sqrt(3) - 1) / 2
    body = (
        f'<polygon points="{x},0 100,0 100,100 {x},100" {EMBER}/>'
        f'<polygon points="0,0 {x},0 {x + jog},{y} 0,{y}" {SKY}/>'
        f'<polygon points="0,{y} {x + jog},{y} {x},100 0,100" {SEA}/>'
    )
    found = shapes(tmp_path, body)
    assert {round(p[0], 6) for _, outline in found for p in outline} == {
        0,
        round(12 * math.sqrt(2) / 4, 6),
        12,
    }
    assert [len(outline) for _, outline in found] == [4, 4, 4]


def test_a_line_through_many_corners_is_straight_again(tmp_path):
    """Two rows of patches whose shared corners lie up to 0.02 in off the line between the rows."""
    steps = [math.sqrt(k) for k in range(8)]
    xs = [100 * step / steps[-1] for step in steps]
    ys = [38 + off for off in (0, 0.1, -0.15, 0.12, 0.15, -0.08, 0.14, 0)]
    rows = [
        (
            f'<polygon points="{a},0 {b},0 {b},{q} {a},{p}" {SKY}/>',
            f'<polygon points="{a},{p} {b},{q} {b},100 {a},100" {SEA}/>',
        )
        for a, b, p, q in zip(xs, xs[1:], ys, ys[1:], strict=False)
    ]
    found = shapes(tmp_path, "".join(upper + lower for upper, lower in rows))
    heights = {round(p[1], 6) for _, outline in found for p in outline} - {0, 12}
    assert len(found) == 14
    assert heights == {round(12 * 0.62, 6)}


def test_a_point_that_nearly_reaches_a_line_reaches_it(tmp_path):
    """A triangle's point 0.02 in short of the next patch parts the ground on both sides of it."""
    body = (
        f'<rect width="100" height="50" {SKY}/><rect y="50" width="100" height="50" {SEA}/>'
        f'<polygon points="0,0 100,0 {100 * math.sqrt(2) / 4},49.85" {EMBER}/>'
    )
    assert [(role, len(outline)) for role, outline in shapes(tmp_path, body)] == [
        *(("sky", 3), ("sky", 3), ("sea", 4), ("ember", 3)),
    ]


def test_corners_that_agree_are_left_where_they_are(tmp_path):
    """An eight-pointed star's corner lies at 1 / (2 + sqrt 2) of the side, near 7/24; it stays there."""
    x = 100 / (2 + math.sqrt(2))
    body = f'<rect width="{x}" height="100" {SKY}/><rect x="{x}" width="{100 - x}" height="100" {SEA}/>'
    assert shapes(tmp_path, body)[0][1][1][0] == pytest.approx(12 / (2 + math.sqrt(2)), abs=1e-9)
    assert not any("nearly met" in note for note in notes(tmp_path, body))


def test_rounding_in_a_drawing_is_undone():
    assert on_simple_grid([(4.0004, 7.9996), (0, 12)], 12, 12, 1 / 16, 0) == [(4, 8), (0, 12)]
    assert on_simple_grid([(12 / (2 + math.sqrt(2)), 0)], 12, 12, 1 / 16, 0) is None


def test_the_limit_is_a_sixteenth_or_a_share_of_a_large_block():
    assert [misfit_limit(side, side) for side in (3, 12, 16, 30)] == pytest.approx(
        [1 / 16, 1 / 16, 0.08, 3 / 32]
    )


def test_snapping_moves_nothing_farther_than_the_limit():
    ring = [(0, 0), (6.0, 0), (6.06, 6), (0, 6.04)]
    other = [(6, 0), (12, 0.05), (12, 6), (6, 6)]
    snapped = snap([ring, other], 12, 12)
    assert snapped.places[6.06, 6] == snapped.places[6, 6]
    assert 0.02 < snapped.farthest <= misfit_limit(12, 12)


def test_a_sliver_of_a_covered_shape_and_a_thread_between_shapes_go_to_a_neighbour():
    seen, slivers = seen_pieces([box(0, 0, 4, 4), box(0, 0, 4, 3.98)], 1 / 16, 9)
    assert [(piece.shape, piece.outline) for piece in seen] == [(1, ((0, 0), (4, 0), (4, 4), (0, 4)))]
    assert slivers == 1
    ring = [box(0, 0, 4, 1), box(0, 1.02, 4, 2), box(0, 1, 2, 1.02), box(3, 1, 4, 1.02)]
    seen, slivers = seen_pieces(ring, 1 / 16, 9)
    assert sum(area(piece.outline) for piece in seen) == pytest.approx(8)
    assert slivers == 3


def test_what_is_seen_has_no_corners_in_its_straight_edges():
    """Two tilted patches side by side, cut at places that no mesh has: each keeps its four corners."""
    for k in range(1, 40):
        y, z = math.sqrt(k) / 7, math.sqrt(k + 3) / 9
        one = Polygon([(0, 0), (math.pi, 0), (math.pi, y), (0, z)])
        two = Polygon([(0, z), (math.pi, y), (math.pi, 3), (0, 3)])
        assert [len(piece.outline) for piece in seen_pieces([one, two], 1 / 16, 9)[0]] == [4, 4]


def test_slivers_and_threads_of_ground_go_to_the_patches_beside(tmp_path):
    """A curve drawn twice with other points leaves threads; nobody sees them."""
    bow = "M0 0 C 40 40 60 40 100 0"
    body = f'<path d="{bow} V100 H0 Z" {SEA}/><path d="M0 0 C 20 20 35 30 50 30 S 80 20 100 0 Z" {SKY}/>'
    design, problems = read(tmp_path, f"{HEAD}{body}</svg>")
    assert design is not None, problems
    assert sum(area(s.corners) for s in design.block["b"].shapes) == pytest.approx(144, abs=1e-4)


@pytest.mark.parametrize(
    ("body", "said"),
    [
        (f'<rect width="50" height="100" {SKY}/><rect x="52" width="48" height="100" {SEA}/>',
         "a thin gap"),
        (f'<rect width="50" height="100" {SKY}/><rect x="60" width="40" height="100" {SEA}/>',
         "expected patches that fill the block, got a hole around (6 5/8, 6)"),
        (f'<rect width="100" height="100" {SKY}/><rect x="99.1" width="0.9" height="100" {SEA}/>',
         "got a sliver about 1/8 in wide"),
        (f'<rect width="50" height="50" {SKY}/><rect y="50" width="50" height="50" {SEA}/>'
         f'<rect x="50" width="50" height="50.8" {SEA}/>'
         f'<rect x="50" y="50.8" width="50" height="49.2" {SKY}/>',
         "expected corners that meet edges or lie at least 1/8 in off, got one at (6, 5 7/8)"),
    ],
)  # fmt: skip
def test_larger_misfits_are_told_with_their_place(tmp_path, body, said):
    told = errors(tmp_path, body)
    assert any(said in line for line in told), told


def test_a_corner_that_may_be_meant_is_told_but_kept(tmp_path):
    body = (
        f'<rect width="50" height="50" {SKY}/><rect y="50" width="50" height="50" {SEA}/>'
        f'<rect x="50" width="50" height="51.5" {SEA}/><rect x="50" y="51.5" width="50" height="48.5" {SKY}/>'
    )
    (told,) = notes(tmp_path, body)
    assert told.startswith("the corner at (6, 5 13/16) lies 0.1800 in off an edge of the ")


def test_a_corner_on_a_curve_is_no_jog(tmp_path):
    """The point of a triangle lies on a circle, so a little off the chord that is drawn for it."""
    x, y = 50 + 30 * math.cos(0.5), 50 + 30 * math.sin(0.5)
    body = (
        f'<rect width="100" height="50" {SEA}/><rect y="50" width="100" height="50" {SEA}/>'
        f'<circle cx="50" cy="50" r="30" {EMBER}/><polygon points="100,50 100,100 {x},{y}" {SKY}/>'
    )
    assert [role for role, _ in shapes(tmp_path, body)].count("sky") == 1


def test_a_strip_that_covers_another_shape_is_told_but_kept(tmp_path):
    body = f'<rect width="51.5" height="100" {SKY}/><rect x="50" width="50" height="100" {SEA}/>'
    (told,) = [note for note in notes(tmp_path, body) if "strip" in note]
    assert (
        told
        == "a shape covers a strip of another, about 3/16 in wide, around (6 1/16, 6); it is kept as drawn."
    )


NUMBERS = st.integers(-40, 40)
STEPS = st.one_of(
    st.tuples(st.just("translate"), NUMBERS, NUMBERS),
    st.tuples(st.just("rotate"), st.integers(0, 359), st.just(0)),
    st.tuples(st.just("scale"), st.sampled_from([0.5, -1, 2, 1.25]), st.sampled_from([0.8, 1, -3])),
    st.tuples(st.just("skewX"), st.integers(-40, 40), st.just(0)),
    st.tuples(st.just("skewY"), st.integers(-40, 40), st.just(0)),
)


def written(step):
    name, a, b = step
    return f"{name}({a})" if name in ("rotate", "skewX", "skewY") else f"{name}({a} {b})"


def undone(step, p):
    """Where a point was before a step, by plane geometry."""
    (name, a, b), (x, y) = step, p
    if name == "translate":
        return x - a, y - b
    if name == "scale":
        return x / a, y / b
    turn = math.radians(a)
    if name == "rotate":
        return x * math.cos(turn) + y * math.sin(turn), y * math.cos(turn) - x * math.sin(turn)
    return (x - y * math.tan(turn), y) if name == "skewX" else (x, y - x * math.tan(turn))


@st.composite
def drawings(draw, tiling, most=0.0):
    """A tiling as SVG: each patch in groups with transforms; corners off by up to `most` inches each way."""
    n, patches = tiling
    away = st.floats(-most, most) if most else st.just(0.0)
    body = []
    for role, corners in draw(st.permutations(patches)):
        moved = [(100 * (x / n + draw(away) / 12), 100 * (1 - y / n + draw(away) / 12)) for x, y in corners]
        steps = draw(st.lists(STEPS, max_size=3))
        for step in steps:
            moved = [undone(step, p) for p in moved]
        points = " ".join(f"{x:.7f},{y:.7f}" for x, y in draw(st.sampled_from([moved, moved[::-1]])))
        fill = f'style="fill:{FILLS[role]}; stroke:#000"'
        shape = draw(st.sampled_from([f'<polygon points="{points}"/>', f'<path d="M{points}z"/>']))
        for step in reversed(steps):
            shape = f'<g transform="{written(step)}">{shape}</g>'
        body.append(f"<g {fill}>{shape}</g>")
    return "".join(body)


@given(st.data(), tilings())
@settings(max_examples=60, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_random_tiling_comes_back_from_its_drawing(tmp_path, data, tiling):
    n, patches = tiling
    body = data.draw(drawings(tiling, data.draw(st.sampled_from([0.0, 0.002, 0.01]))))
    wanted = [(role, tuple((12 * x / n, 12 * y / n) for x, y in corners)) for role, corners in patches]
    assert close(shapes(tmp_path, body), wanted)


def uneven(n):
    """Places 0 to n along a side of 12 in, farther and farther apart, on no grid."""
    return [12 * (k + 0.31 * math.sqrt(k)) / (n + 0.31 * math.sqrt(n)) for k in range(n + 1)]


@given(st.data(), tilings())
@settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_an_uneven_tiling_comes_back_with_each_corner_near_its_place(tmp_path, data, tiling):
    n, patches = tiling
    at = uneven(n)
    rectangles = [(role, corners) for role, corners in patches if len(corners) == 4]
    true = [(role, tuple((at[x], at[y]) for x, y in corners)) for role, corners in rectangles]
    whole = len(rectangles) == len(patches)
    moved = [(role, tuple((n * x / 12, n * y / 12) for x, y in corners)) for role, corners in true]
    if not whole:
        return
    body = data.draw(drawings((n, moved), data.draw(st.sampled_from([0.0, 0.002, 0.01]))))
    found = shapes(tmp_path, body)
    assert sorted(role for role, _ in found) == sorted(role for role, _ in true)
    for role, outline in true:
        assert any(r == role and same_polygon(o, outline, misfit_limit(12, 12)) for r, o in found)


@given(st.data(), tilings(5))
@settings(max_examples=50, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_a_corner_that_is_farther_off_is_told(tmp_path, data, tiling):
    n, patches = tiling
    which = data.draw(st.integers(0, len(patches) - 1))
    corner = data.draw(st.integers(0, len(patches[which][1]) - 1))
    off, turn = data.draw(st.floats(0.14, 0.24)), data.draw(st.floats(0, 6.28))
    changed = list(patches[which][1])
    x, y = changed[corner]
    changed[corner] = (x + off * math.cos(turn) * n / 12, y + off * math.sin(turn) * n / 12)
    faulty = [*patches[:which], (patches[which][0], tuple(changed)), *patches[which + 1 :]]
    _, problems = read(tmp_path, f"{HEAD}{data.draw(drawings((n, faulty)))}</svg>")
    told = [p.what for p in problems if "nothing uses" not in p.what and "no patch of" not in p.what]
    assert any("expected" in what or "strip" in what for what in told), told


# ------------------------------------------------------------------ the example


def test_the_old_page_is_read_with_its_misfits_set_right():
    """A churn dash of 12 in: four half-square triangles of 4 in, four rails of two rectangles, a square."""
    design, problems = read_design(EXAMPLE)
    assert [p.what for p in problems] == [
        "left out of churn-dash.svg, since it is no patch: 1 hidden part, 3 lines, 10 strokes, 1 text.",
        "36 corners of churn-dash.svg nearly met others: moved by 0.0269 in at most.",
    ]
    found = [(shape.role, round(area(shape.corners), 9)) for shape in design.block["page"].shapes]
    wanted = [("ember", 16)] + [("indigo", 8)] * 8 + [("sailcloth", 8)] * 8
    assert sorted(found) == wanted
    assert {round(c * 4, 6) % 1 for s in design.block["page"].shapes for p in s.corners for c in p} == {0}


def test_the_old_page_can_be_planned(tmp_path, capsys):
    assert call(["plan", str(EXAMPLE), "--out", str(tmp_path / "page")]) == 0
    told = capsys.readouterr().out
    assert "replayed: made as drawn" in told
    assert "half-square triangle" in told
    assert (tmp_path / "page" / "job-sheet.pdf").stat().st_size > 10_000
