"""True-scale sheets: measured back from the PDF, SVG and DXF as written, and laid together from pages."""

import io
import xml.etree.ElementTree as ElementTree
from collections import Counter, defaultdict
from dataclasses import dataclass
from itertools import pairwise
from math import cos, hypot, radians, sin, sqrt

import ezdxf
import pypdf
import pytest
import shapely

from piecewright.bench.cloth import SeamSize
from piecewright.bench.steps import Ruled, Stack
from piecewright.drawing.foundations import NumberPart, foundation, foundation_sheet
from piecewright.drawing.look import RUST, THREAD
from piecewright.drawing.machine_dxf import machine_dxf
from piecewright.drawing.machine_lines import machine_sheet
from piecewright.drawing.machine_svg import machine_svg
from piecewright.drawing.paging import copies_on_a_page, pages_of
from piecewright.drawing.recipe_sheets import filled, recipe_sheets
from piecewright.drawing.sheet_page import PAPERS, SheetPage
from piecewright.drawing.stack_sheets import stack_sheet
from piecewright.drawing.templates import raw_template, template, template_sheet
from piecewright.drawing.true_scale import SheetLine, TrueShape, TrueSheet, closed
from piecewright.drawing.unit_sheets import unit_foundation
from piecewright.geometry.point import distance
from piecewright.geometry.polygon import bounds, rectangle
from piecewright.handout.true_scale_sheet import MEASURE, true_scale_pdf
from piecewright.measure.length import inches, mm
from piecewright.methods import hst_eight, hst_four, hst_triangles, hst_two, methods_for
from piecewright.methods.lines import both_sides, face_down, rising
from piecewright.methods.method import Unit
from piecewright.methods.recipe import make_recipe
from piecewright.problems import Refused
from piecewright.workroom.workroom import INCH_WORKROOM, METRIC_WORKROOM

POINTS = 72  # to the inch: the definition of a PDF's unit
MM = 25.4  # to the inch: by definition, since 1959
FIVE_CM = 5 / 2.54 * POINTS
NEEDLE, FOLD = 15 / 64, 1 / 64
SEAM = SeamSize(NEEDLE, FOLD)
HOSTILE = "#panic() $x$ <script> & ]]> \" ' %%c ^I // *b*"


def hst(size: str) -> Unit:
    return Unit("hst", ("first", "second"), inches(size), inches(size))


def hst_sheets(method, size: str, **how) -> tuple[TrueSheet, ...]:
    return recipe_sheets(make_recipe(method, hst(size), INCH_WORKROOM), INCH_WORKROOM, **how)


def lines_of(sheet: TrueSheet, *kinds: str) -> list[SheetLine]:
    return [line for shape in sheet.shapes for line in shape.lines if line.kind in kinds]


def plain(width: float, height: float, name: str = "plain", **more) -> TrueShape:
    outline = rectangle(width, height)
    return TrueShape(name, (closed("cut", outline),), outline, **more)


def sheet_of(*shapes: TrueShape) -> TrueSheet:
    return TrueSheet("Harbour", "use", (), shapes)


# ---------------------------------------------------------------- reading a PDF back


@dataclass(frozen=True)
class Stroke:
    """A stroked path of a page in points from its lower left corner."""

    colour: tuple[float, ...]
    dashed: bool
    points: tuple[tuple[float, float], ...]
    closed: bool


def strokes(page: pypdf.PageObject) -> list[Stroke]:
    """Every stroked path with straight sides."""
    matrix, kept = (1.0, 0.0, 0.0, 1.0, 0.0, 0.0), []
    colour: tuple[float, ...] = ()
    dashed = False
    path: list[tuple[float, float]] = []
    is_closed = False
    found = []

    def at(x: float, y: float) -> tuple[float, float]:
        a, b, c, d, e, f = matrix
        return a * x + c * y + e, b * x + d * y + f

    for operands, sign in pypdf.generic.ContentStream(page.get_contents(), page.pdf).operations:
        numbers = [float(one) for one in operands if isinstance(one, int | float)]
        if sign == b"q":
            kept.append((matrix, colour, dashed))
        elif sign == b"Q":
            matrix, colour, dashed = kept.pop()
        elif sign == b"cm":
            (a, b, c, d, e, f), (g, h, i, j, k, m) = numbers, matrix
            matrix = (
                *(a * g + b * i, a * h + b * j, c * g + d * i, c * h + d * j),
                *(e * g + f * i + k, e * h + f * j + m),
            )
        elif sign in (b"SCN", b"RG", b"G"):
            colour = tuple(numbers)
        elif sign == b"d":
            dashed = len(operands[0]) > 0
        elif sign == b"m":
            path = [at(*numbers)]
        elif sign == b"l":
            path.append(at(*numbers))
        elif sign == b"re":
            x, y, w, h = numbers
            path, is_closed = [at(x, y), at(x + w, y), at(x + w, y + h), at(x, y + h)], True
        elif sign == b"h":
            is_closed = True
        elif sign in (b"S", b"s", b"f", b"n", b"B", b"f*"):
            if sign in (b"S", b"s", b"B") and path:
                found.append(Stroke(colour, dashed, tuple(path), is_closed or sign == b"s"))
            path, is_closed = [], False
    return found


def ink(colour: str) -> tuple[float, ...]:
    return tuple(int(colour[k : k + 2], 16) / 255 for k in (1, 3, 5))


def drawn_in(page: pypdf.PageObject, colour: str, longer_than: float = 10) -> list[Stroke]:
    """The strokes of a colour, without the samples in the key and the strokes across ends."""
    return [
        one
        for one in strokes(page)
        if one.colour == pytest.approx(ink(colour), abs=1e-3)
        and distance(one.points[0], one.points[-1]) > longer_than
        and distance(one.points[0], one.points[-1]) != pytest.approx(0.42 * POINTS, abs=1e-3)
    ]


def read(sheets, paper="letter") -> pypdf.PdfReader:
    return pypdf.PdfReader(io.BytesIO(true_scale_pdf(sheets, paper)))


def squares(page: pypdf.PageObject) -> list[float]:
    """The sides of the closed squares of a page that are more than 20 points wide."""
    found = []
    for one in strokes(page):
        x0, y0, x1, y1 = bounds(one.points)
        if (
            x1 - x0 > 20
            and one.closed
            and len(one.points) == 4
            and x1 - x0 == pytest.approx(y1 - y0, abs=1e-3)
        ):
            found.append(x1 - x0)
    return sorted(found)


def off(point, line) -> float:
    (ax, ay), (bx, by) = line
    return abs((bx - ax) * (point[1] - ay) - (by - ay) * (point[0] - ax)) / hypot(bx - ax, by - ay)


def is_along(one, other) -> bool:
    (a, b), (c, d) = one, other
    cross = (b[0] - a[0]) * (d[1] - c[1]) - (b[1] - a[1]) * (d[0] - c[0])
    return abs(cross) < 1e-3 * distance(a, b) * distance(c, d)


# ---------------------------------------------------------------- paper


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_a_line_of_5_cm_is_5_cm_long_on_paper(paper):
    five = float(mm(50))
    line = SheetLine("sew", ((0.0, 0.0), (five, 0.0)))
    shape = TrueShape("line", (line,), rectangle(five, 1.0))
    (stroke,) = drawn_in(read([sheet_of(shape)], paper).pages[0], THREAD)
    assert distance(*stroke.points) / POINTS * 2.54 == pytest.approx(5, abs=1e-5)


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_page_has_a_1_in_and_a_5_cm_square_and_says_to_measure_them(paper):
    pdf = read(hst_sheets(hst_eight.METHOD, "6"), paper)
    assert len(pdf.pages) == 4
    for page in pdf.pages:
        inch, five_cm = squares(page)
        assert inch == pytest.approx(72, abs=1e-3)
        assert five_cm == pytest.approx(FIVE_CM, abs=1e-3)
        assert MEASURE.split(":")[0] in " ".join(page.extract_text().split())
        assert "print at 100 %" in " ".join(page.extract_text().split())


def test_on_paper_the_sewing_lines_lie_the_needles_distance_from_the_cut():
    page = read(hst_sheets(hst_eight.METHOD, "2")).pages[0]
    cuts = [one.points for one in drawn_in(page, RUST)]
    sewn = [one.points for one in drawn_in(page, THREAD)]
    # common practice, no source: eight at a time has four seams and four cuts
    assert (len(cuts), len(sewn)) == (4, 4)
    for line in sewn:
        beside = [cut for cut in cuts if is_along(line, cut)]
        assert [off(end, beside[0]) for end in line] == pytest.approx([NEEDLE * POINTS] * 2, abs=1e-3)


def test_nothing_is_drawn_outside_the_margins():
    for paper, margin in (("letter", 0.4), ("a4", 10 / MM)):
        for page in read(hst_sheets(hst_eight.METHOD, "9"), paper).pages:
            width, height = float(page.mediabox.width), float(page.mediabox.height)
            x0, y0, x1, y1 = bounds([point for one in strokes(page) for point in one.points])
            assert (
                min(x0, y0, width - x1, height - y1) >= margin * POINTS - 3
            )  # points: the stroke across an end


def test_the_same_sheet_gives_the_same_bytes():
    first, second = (
        [true_scale_pdf(sheets), machine_svg(sheet), machine_dxf(sheet)]
        for sheets in (hst_sheets(hst_two.METHOD, "2"), hst_sheets(hst_two.METHOD, "2"))
        for sheet in [machine_sheet(sheets)]
    )
    assert first == second


def test_words_stay_words_whatever_signs_are_in_them():
    shape = plain(2, 2, HOSTILE, caption=HOSTILE)
    sheet = TrueSheet(HOSTILE, HOSTILE, (HOSTILE,), (shape,))
    text = " ".join(read([sheet]).pages[0].extract_text().split())
    assert "#panic() $x$ <script> &" in text
    svg = ElementTree.fromstring(machine_svg(machine_sheet([sheet])))
    assert svg[0].text == HOSTILE
    assert not ezdxf.read(io.StringIO(machine_dxf(machine_sheet([sheet])).decode())).audit().errors


# ---------------------------------------------------------------- stacks


@pytest.mark.parametrize("room", [INCH_WORKROOM, METRIC_WORKROOM], ids=["in", "cm"])
@pytest.mark.parametrize(
    ("kind", "width", "height"), [("hst", 2, 2), ("hourglass", 4, 4), ("geese", 4, 2)], ids=str
)
def test_in_every_way_stitching_lies_the_needles_distance_from_a_cut_or_an_edge(kind, width, height, room):
    unit = Unit(kind, ("first", "second"), inches(width), inches(height))
    tried = 0
    for method in methods_for(kind):
        recipe = make_recipe(method, unit, room)
        for sheet in recipe_sheets(recipe, room):
            for shape in sheet.shapes:
                cuts = [line.points for line in shape.lines if line.kind == "apart"]
                edges = [
                    pair
                    for line in shape.lines
                    if line.kind in ("edge", "lay")
                    for pair in pairwise(line.points)
                ]
                for line in (line.points for line in shape.lines if line.kind == "sew" and not line.closed):
                    offs = [off(line[0], other) for other in (*cuts, *edges) if is_along(line, other)]
                    assert any(one == pytest.approx(float(room.needle), abs=1e-5) for one in offs), (
                        method.name
                    )
                    tried += 1
    assert tried > 0


def test_stitch_and_flip_is_sewn_the_fold_beside_the_diagonal_not_a_take_up():
    diagonal = Ruled(0, 0, 2.5, 2.5)
    step = Stack(
        base="a",
        tops=(face_down("b", 2.5),),
        sew=(Ruled(0, 0, 2.5, 2.5, "hair left"),),
        cut=(Ruled(0, 0, 2.5, 2.5, "seam left"),),
        gives=("unit",),
        times=1,
    )
    outlines = {"a": rectangle(2.5, 2.5), "b": rectangle(2.5, 2.5)}
    sheet = stack_sheet(step, outlines, SEAM, title="flip")
    along = ((diagonal.x, diagonal.y), (diagonal.to_x, diagonal.to_y))
    (sewn,), (cut,) = lines_of(sheet, "sew"), lines_of(sheet, "apart")
    assert off(sewn.points[0], along) == pytest.approx(FOLD, abs=1e-5)
    assert off(cut.points[0], along) == pytest.approx(NEEDLE + FOLD, abs=1e-5)


def test_one_may_ask_for_the_sewing_or_the_cutting_lines_alone():
    for lines, kinds in (("sewing", {"edge", "sew"}), ("cutting", {"edge", "apart"})):
        (sheet,) = hst_sheets(hst_two.METHOD, "2", lines=lines)
        assert {line.kind for shape in sheet.shapes for line in shape.lines} == kinds
        assert ("Sew exactly on" in sheet.notes[0]) == (lines == "sewing")
        assert "15/64 in" in sheet.notes[0]


def test_a_stack_without_such_lines_is_refused_in_a_sentence():
    step = Stack(base="a", tops=(), sew=(), cut=(rising(3),), gives=("unit",), times=1)
    with pytest.raises(Refused, match="plain: this stack has no sewing line"):
        stack_sheet(step, {"a": rectangle(3, 3)}, SEAM, "sewing", title="plain")


def test_a_grid_of_3_by_3_on_a_10_in_square_is_a_stack_like_any_other():
    third = 10 / 3
    slants = [
        line
        for k in range(1, 6)
        for line in both_sides(
            Ruled(max(0, k - 3) * third, min(k, 3) * third, min(k, 3) * third, max(0, k - 3) * third)
        )
        if k % 2
    ]
    cuts = [Ruled(k * third, 0, k * third, 10) for k in (1, 2)] + [
        Ruled(0, k * third, 10, k * third) for k in (1, 2)
    ]
    step = Stack(
        base="a", tops=(face_down("b", 10),), sew=tuple(slants), cut=tuple(cuts), gives=("unit",), times=1
    )
    sheet = stack_sheet(step, {"a": rectangle(10, 10), "b": rectangle(10, 10)}, SEAM, title="18 of them")
    # plane geometry: seams on both sides of 3 slanted lines, 2 cuts each way between 3 rows and columns
    assert Counter(line.kind for line in sheet.shapes[0].lines) == {"edge": 1, "sew": 6, "apart": 4}
    assert len(pages_of(sheet, PAPERS["letter"])) == 4


def test_a_cloth_on_top_is_shown_where_it_does_not_lie_on_the_edge_of_the_base():
    step = Stack(
        base="a",
        tops=(face_down("b", 2.0, (3.0, 0.0)),),
        sew=(Ruled(3, 0, 5, 2),),
        cut=(),
        gives=("unit",),
        times=1,
    )
    sheet = stack_sheet(step, {"a": rectangle(5, 3), "b": rectangle(2, 2)}, SEAM, title="corner")
    (laid,) = lines_of(sheet, "lay")
    # plane geometry: of the square's four sides, 2 in each, two lie on the base's edge
    assert sum(distance(a, b) for a, b in pairwise(laid.points)) == pytest.approx(4, abs=1e-3)


def test_a_sheet_says_how_many_to_print():
    (sheet,) = hst_sheets(hst_two.METHOD, "2", count=48)
    told = filled(sheet, PAPERS["letter"])
    # common practice: 48 units two at a time are 24 stacks; squares of 2 7/8 in with room between them: 2 x 2
    assert len(told.shapes) == 4
    assert told.notes[-1] == "24 are needed, 4 are on a page: print this page 6 times."
    assert len(pages_of(told, PAPERS["letter"])) == 1
    assert copies_on_a_page(told.shapes[:1], PAPERS["letter"], 100) == 4


# ---------------------------------------------------------------- pages


def covered(pages: list[SheetPage], shape: TrueShape) -> list[float]:
    """How much of each line of a shape no page shows, in inches."""
    shown = shapely.union_all(
        [
            shapely.LineString([(x + page.origin[0], y + page.origin[1]) for x, y in line.points])
            for page in pages
            for line in page.lines
        ]
    )
    return [shapely.LineString(line.points).difference(shown.buffer(1e-5)).length for line in shape.lines]


@pytest.mark.parametrize("paper", ["letter", "a4"])
@pytest.mark.parametrize("size", ["6", "10"])
def test_tiles_laid_together_show_every_line_whole(size, paper):
    (sheet,) = hst_sheets(hst_eight.METHOD, size)
    pages = list(pages_of(sheet, PAPERS[paper]))
    assert len(pages) > 1
    assert covered(pages, sheet.shapes[0]) == pytest.approx([0] * len(sheet.shapes[0].lines), abs=1e-4)
    # Without any one of them something is missing.
    for left_out in pages[:4]:
        assert sum(covered([page for page in pages if page is not left_out], sheet.shapes[0])) > 1


def test_nothing_of_a_tile_lies_outside_its_window():
    for page in pages_of(hst_sheets(hst_eight.METHOD, "13")[0], PAPERS["letter"]):
        x0, y0, x1, y1 = bounds([point for line in page.lines for point in line.points])
        window = PAPERS["letter"].window
        assert x0 >= -1e-5
        assert y0 >= -1e-5
        assert x1 <= min(page.size[0], window[0]) + 1e-5
        assert y1 <= min(page.size[1], window[1]) + 1e-5


@pytest.mark.parametrize("paper", ["letter", "a4"])
def test_every_match_mark_is_on_two_pages_and_the_two_lie_on_each_other(paper):
    pages = pages_of(hst_sheets(hst_eight.METHOD, "13")[0], PAPERS[paper])
    places = defaultdict(list)
    for page in pages:
        for mark in page.marks:
            places[mark.letter].append((page.origin[0] + mark.at[0], page.origin[1] + mark.at[1]))
            half = float(PAPERS[paper].overlap) / 2
            edges = (*mark.at, page.size[0] - mark.at[0], page.size[1] - mark.at[1])
            assert min(edges) == pytest.approx(half)  # in the middle of the strip
    assert len(places) > 4
    for first, second in places.values():
        assert first == pytest.approx(second)


def test_pages_that_lie_on_each_other_show_the_same_lines_there():
    first, second, *_ = pages_of(hst_sheets(hst_eight.METHOD, "6")[0], PAPERS["letter"])
    strip = shapely.box(*second.origin, first.origin[0] + first.size[0], first.origin[1] + first.size[1])
    assert strip.bounds[2] - strip.bounds[0] == pytest.approx(0.5)  # the overlap on letter paper

    def in_strip(page: SheetPage) -> float:
        lines = [
            shapely.LineString([(x + page.origin[0], y + page.origin[1]) for x, y in line.points])
            for line in page.lines
        ]
        return shapely.union_all(lines).intersection(strip).length

    assert in_strip(first) == pytest.approx(in_strip(second), abs=1e-4)
    assert in_strip(first) > 1


def test_a_page_says_where_it_lies_among_the_tiles():
    texts = [" ".join(page.extract_text().split()) for page in read(hst_sheets(hst_eight.METHOD, "6")).pages]
    places = ["row 1, column 1", "row 1, column 2", "row 2, column 1", "row 2, column 2"]
    for number, (text, place) in enumerate(zip(texts, places, strict=True), 1):
        assert f"page {number} of 4" in text
        assert place in text


def test_what_fits_on_a_page_is_never_divided_and_small_shapes_share_one():
    shapes = [plain(2, 2, f"no. {number}") for number in range(6)] + [plain(9, 9, "large")]
    pages = pages_of(sheet_of(*shapes), PAPERS["letter"])
    assert [page.tile is None for page in pages] == [True] + [False] * 4
    assert len(pages[0].lines) == 6
    boxes = [shapely.box(*bounds(line.points)) for line in pages[0].lines]
    assert all(box.area == pytest.approx(4) for box in boxes)
    assert shapely.union_all(boxes).area == pytest.approx(24)  # none lies on another


def test_a_shape_that_fits_only_when_turned_is_turned():
    window = PAPERS["letter"].window
    assert window[0] < 7.9 < window[1] + 0.5
    (page,) = pages_of(sheet_of(plain(8.2, 2), plain(8.2, 2)), PAPERS["a4"])
    assert page.tile is None
    for line in page.lines:
        x0, y0, x1, y1 = bounds(line.points)
        assert (x1 - x0, y1 - y0) == pytest.approx((2, 8.2))


def test_tiles_that_would_be_empty_are_not_printed():
    long_corner = ((0.0, 0.0), (20.0, 0.0), (20.0, 1.0), (1.0, 1.0), (1.0, 20.0), (0.0, 20.0))
    shape = TrueShape("corner", (closed("cut", long_corner),), long_corner)
    pages = list(pages_of(sheet_of(shape), PAPERS["letter"]))
    tile = pages[0].tile
    assert len(pages) == tile.rows + tile.columns - 1
    assert covered(pages, shape) == pytest.approx([0], abs=1e-4)
    for page in pages:
        assert page.marks


def test_a_sheet_that_nobody_would_tape_together_is_refused():
    with pytest.raises(Refused, match="at most 80 pages"):
        pages_of(sheet_of(plain(200, 200)), PAPERS["letter"])


# ---------------------------------------------------------------- templates


def test_a_half_square_triangle_template_grows_by_the_rule_on_every_edge():
    triangle = ((0.0, 0.0), (2.0, 0.0), (0.0, 2.0))
    shape = template(triangle, 0.25, "A: lamp", count=12)
    cut, seam = (next(line for line in shape.lines if line.kind == kind) for kind in ("cut", "sew"))
    # trade-checks.csv seam_hst_add: 0.853553, plane geometry: s(cot 45 + cot 22.5)
    assert shape.size == pytest.approx((2.853553, 2.853553), abs=1e-6)
    assert bounds(seam.points) == (0, 0, 2, 2)
    assert cut.closed
    assert seam.closed
    for a, b in pairwise(seam.points):
        assert min(off(a, edge) for edge in pairwise(cut.points) if is_along((a, b), edge)) == pytest.approx(
            0.25
        )
    assert "A: lamp" in shape.words[0].text
    told = shape.caption + " ".join(words.text for words in shape.words)
    assert "cut 12" in told
    assert "finished 2 in" in told
    assert "cut size about 2 7/8 in" in told


def test_a_quarter_circle_template_has_its_allowance_all_along_the_curve():
    arc = [(3 * cos(radians(a)), 3 * sin(radians(a))) for a in range(0, 91, 2)]
    shape = template(((0.0, 0.0), *arc), 0.25, "quarter")
    cut = next(line for line in shape.lines if line.kind == "cut")
    outer = [point for point in cut.points if min(point) > 0.5]
    assert len(outer) > 30
    # plane geometry: the cut runs at radius 3 1/4; chords of 2 degrees lie up to r(1 - cos 1) inside it
    assert [hypot(*point) for point in outer] == pytest.approx([3.25] * len(outer), abs=1e-3)


def test_a_template_from_its_cut_outline_has_the_seam_line_inside():
    raw = rectangle(2.5, 4.5)
    shape = raw_template(raw, 0.25, "goose", count=3)
    seam = next(line for line in shape.lines if line.kind == "sew")
    assert bounds(seam.points) == pytest.approx((0.25, 0.25, 2.25, 4.25))
    assert [words.text for words in shape.words] == [
        "goose",
        "cut 3",
        "finished 2 x 4 in",
        "cut size 2 1/2 x 4 1/2 in",
    ]


@pytest.mark.parametrize("grain", [90.0, 0.0, 45.0])
def test_the_grain_arrow_lies_inside_and_along_the_grain(grain):
    net = rectangle(4, 3)
    shape = template(net, 0.25, "sail", grain=grain)
    (ax, ay), (bx, by) = shape.grain
    assert (bx - ax) * sin(radians(grain)) == pytest.approx((by - ay) * cos(radians(grain)), abs=1e-6)
    assert shapely.Polygon(net).contains(shapely.LineString(shape.grain))
    turned = pages_of(
        template_sheet("turned", (template(rectangle(7.6, 3), 0.25, "long", grain=grain),)), PAPERS["a4"]
    )
    assert [line for line in turned[0].lines if line.kind == "grain"]


def test_the_words_on_a_template_lie_inside_its_seam_line():
    from piecewright.drawing.writing import text_width

    for net in (rectangle(6, 1.25), ((0.0, 0.0), (4.0, 0.0), (0.0, 4.0)), rectangle(0.9, 5)):
        for words in template(net, 0.25, "A: fog", count=240).words:
            half = text_width(words.text, words.size) / 2
            x, y = words.at
            box = shapely.box(x - half, y - words.size / 2, x + half, y + words.size / 2)
            assert shapely.Polygon(net).covers(box)


def test_a_way_with_nothing_to_mark_gives_templates_of_its_patches():
    (sheet,) = hst_sheets(hst_triangles.METHOD, "2", count=10)
    assert [(shape.name, shape.count) for shape in sheet.shapes] == [
        ("A: first fabric", 10),
        ("B: second fabric", 10),
    ]
    assert {line.kind for shape in sheet.shapes for line in shape.lines} == {"cut", "sew"}


# ---------------------------------------------------------------- foundations


def test_a_foundation_is_printed_mirrored_with_its_numbers_and_its_allowance():
    net = rectangle(4, 2)
    left, right = rectangle(1, 2), ((1.0, 0.0), (4.0, 0.0), (4.0, 2.0), (1.0, 2.0))
    parts = (NumberPart("1", left, "fog"), NumberPart("2", right, "lamp"))
    shape = foundation(net, parts, [((1.0, 0.0), (1.0, 2.0))], 0.25, "Section A", count=4)
    (seam,) = [line for line in shape.lines if line.kind == "sew"]
    assert [x for x, _ in seam.points] == pytest.approx([-1, -1])
    assert shape.size == pytest.approx((4.5, 2.5))
    numbers = {words.text: words.at for words in shape.words}
    assert -1 < numbers["1"][0] < 0
    assert -4 < numbers["2"][0] < -1
    assert {"fog", "lamp"} <= set(numbers)
    text = " ".join(read([foundation_sheet("Pier", (shape,))]).pages[0].extract_text().split())
    assert "Printed mirrored" in text
    assert "Section A, 4 of them" in text


# ---------------------------------------------------------------- machines


def shapes_for_machines() -> tuple[TrueSheet, ...]:
    return hst_sheets(hst_eight.METHOD, "2")


def length_of(points, is_closed: bool) -> float:
    ring = [*points, points[0]] if is_closed else points
    return sum(distance(a, b) for a, b in pairwise(ring))


def test_dxf_is_in_millimetres_with_the_blades_and_the_pens_lines_in_layers_of_their_own():
    data = machine_dxf(machine_sheet(shapes_for_machines()))
    document = ezdxf.read(io.StringIO(data.decode()))
    assert not document.audit().errors
    assert document.header["$INSUNITS"] == 4  # DXF reference, $INSUNITS: 4 is millimetres
    assert {layer.dxf.name for layer in document.layers} >= {"CUT", "SEW", "MARK", "TEXT"}
    lengths = defaultdict(list)
    for line in document.modelspace().query("LWPOLYLINE"):
        points = [(x, y) for x, y, *_ in line.get_points()]
        lengths[line.dxf.layer].append(length_of(points, line.closed))
    size = float(inches("5 3/4")) * MM
    # plane geometry: the edge of the square is cut, two middles and two diagonals are marked
    assert lengths["CUT"] == pytest.approx([4 * size])
    assert sorted(lengths["MARK"]) == pytest.approx([size, size, size * sqrt(2), size * sqrt(2)], abs=1e-3)
    assert lengths["SEW"] == pytest.approx([size * sqrt(2) - 2 * NEEDLE * MM] * 4, abs=1e-3)
    assert sorted(lengths["TEXT"]) == pytest.approx([4 * MM, 200])  # the check squares
    assert any("5 3/4 in" in text.dxf.text for text in document.modelspace().query("TEXT"))


def test_svg_is_in_millimetres_with_a_group_for_each_layer():
    svg = ElementTree.fromstring(machine_svg(machine_sheet(shapes_for_machines())))
    space = "{http://www.w3.org/2000/svg}"
    _, _, width, height = map(float, svg.get("viewBox").split())
    for name, size in (("width", width), ("height", height)):
        assert svg.get(name).endswith("mm")
        assert float(svg.get(name).removesuffix("mm")) == size
    groups = {group.get("id"): group for group in svg.findall(f"{space}g")}
    assert list(groups) == ["cut", "sew", "mark", "text", "check"]

    def lengths(name: str) -> list[float]:
        found = []
        for one in groups[name]:
            points = [tuple(map(float, pair.split(","))) for pair in one.get("points").split()]
            assert all(0 <= x <= width and 0 <= y <= height for x, y in points)
            found.append(length_of(points, one.tag == f"{space}polygon"))
        return found

    size = float(inches("5 3/4")) * MM
    assert lengths("cut") == pytest.approx([4 * size], abs=1e-2)
    assert lengths("sew") == pytest.approx([size * sqrt(2) - 2 * NEEDLE * MM] * 4, abs=1e-2)
    assert len(lengths("mark")) == 4
    assert lengths("check") == pytest.approx([4 * MM, 200], abs=1e-3)


def test_shapes_for_a_machine_lie_beside_each_other_and_not_on_the_check_squares():
    sheet = sheet_of(*(plain(5, number, f"no. {number}", caption="a caption") for number in (1, 2, 3, 4)))
    machine = machine_sheet([sheet])
    boxes = [shapely.box(*bounds(line.points)) for line in (*machine.lines, machine.check[1])]
    assert shapely.union_all(boxes).area == pytest.approx(sum(box.area for box in boxes))
    x0, y0, x1, y1 = bounds([point for line in machine.lines for point in line.points])
    assert x0 >= 0
    assert (x1, y1) == pytest.approx(machine.size)
    assert y0 > 50


def test_a_template_for_a_machine_is_cut_on_its_outline_and_drawn_on_its_seam():
    arc = [(3 * cos(radians(a)), 3 * sin(radians(a))) for a in range(0, 91, 2)]
    machine = machine_sheet([template_sheet("curve", (template(((0.0, 0.0), *arc), 0.25, "quarter"),))])
    layers = Counter(line.layer for line in machine.lines)
    assert layers == {"cut": 1, "sew": 1, "mark": 5}  # the grain arrow: its shaft and four strokes
    assert all(line.closed for line in machine.lines if line.layer in ("cut", "sew"))


def test_four_at_a_time_has_nothing_to_mark_before_sewing_but_its_seams_along_the_edge():
    (sheet,) = hst_sheets(hst_four.METHOD, "2", lines="sewing")
    assert Counter(line.kind for line in sheet.shapes[0].lines) == {"edge": 1, "sew": 4}


def test_a_printed_foundation_is_sewn_the_fold_behind_the_line_that_shows():
    unit = Unit("geese", ("sail", "sea"), inches(4), inches(2))
    (section,) = unit_foundation(unit, INCH_WORKROOM, 1, "goose").shapes
    seams = [line.points for line in section.lines if line.kind == "sew"]
    # plane geometry: mirrored, the goose's point is at (-2, 2), its other corners at (0, 0) and (-4, 0)
    shows = [((-2.0, 2.0), (0.0, 0.0)), ((-2.0, 2.0), (-4.0, 0.0))]
    assert len(seams) == 2
    for seam in seams:
        (line,) = [one for one in shows if is_along(seam, one)]
        assert [off(end, line) for end in seam] == pytest.approx([FOLD] * 2)
        assert all(end[1] > 2 - abs(end[0] + 2) for end in seam)  # outside the goose
    assert section.size == pytest.approx((4.5, 2.5))
