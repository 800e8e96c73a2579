"""A whole invented job sheet to print: a throw for a net loft, with simple pictures drawn here."""

from piecewright.handout.sheet import (
    ClothCutting,
    CutLines,
    ExpectedSize,
    JobSheet,
    Part,
    Picture,
    Pressing,
    Purchase,
    Swatch,
    UnitMaking,
)
from piecewright.handout.standing import Verdict

NIGHT, TIDE, FOG, LAMP, RUST = "#17263d", "#3d5a73", "#e6e2d8", "#e0a03c", "#a8512f"
NETS = ("#8fb3a8", "#7a9c8c", "#b4cfc2", "#5f8478")

night = Swatch(name="deep navy solid", colours=(NIGHT,), mark="A")
fog = Swatch(name="fog, a warm pale grey", colours=(FOG,), mark="B")
lamp = Swatch(name="lantern amber", colours=(LAMP,), mark="C")
tide = Swatch(name="slate blue, a woven stripe that reads as a solid", colours=(TIDE,), mark="D")
nets = Swatch(name="assorted net greens, from 12 prints", colours=NETS, mark="E")
rust = Swatch(name="rust, the colour of mooring chains", colours=(RUST,), mark="F")


def shape(points: str, colour: str) -> str:
    return f'<polygon points="{points}" fill="{colour}" stroke="#222" stroke-width="0.6"/>'


def box(x: float, y: float, w: float, h: float, colour: str) -> str:
    return shape(f"{x},{y} {x + w},{y} {x + w},{y + h} {x},{y + h}", colour)


def svg(width: float, height: float, *inside: str) -> str:
    frame = f'xmlns="http://www.w3.org/2000/svg" viewBox="-1 -1 {width + 2} {height + 2}"'
    return f'<svg {frame} width="{width + 2}" height="{height + 2}">{"".join(inside)}</svg>'


def triangles(x: float, y: float, s: float, first: str, second: str, rising: bool = True) -> str:
    a, b, c, d = f"{x},{y}", f"{x + s},{y}", f"{x + s},{y + s}", f"{x},{y + s}"
    if rising:
        return shape(f"{a} {b} {d}", first) + shape(f"{b} {c} {d}", second)
    return shape(f"{a} {b} {c}", first) + shape(f"{a} {c} {d}", second)


def star(x: float, y: float, s: float, ground: str, points: str, heart: str) -> str:
    q = s / 4
    drawn = [box(x + i * q, y + j * q, q, q, ground) for i in (0, 3) for j in (0, 3)]
    drawn.append(box(x + q, y + q, 2 * q, 2 * q, heart))
    for i in (1, 2):
        rising = i == 1
        drawn.append(triangles(x + i * q, y, q, ground, points, rising))
        drawn.append(triangles(x + i * q, y + 3 * q, q, points, ground, not rising))
        drawn.append(
            triangles(x, y + i * q, q, ground if rising else points, points if rising else ground, rising)
        )
        drawn.append(triangles(x + 3 * q, y + i * q, q, points if rising else ground, points, not rising))
    return "".join(drawn)


def nine(x: float, y: float, s: float) -> str:
    t = s / 3
    tone = lambda i, j: NETS[(i * 2 + j) % 4] if (i + j) % 2 == 0 else FOG  # noqa: E731
    return "".join(box(x + i * t, y + j * t, t, t, tone(i, j)) for i in range(3) for j in range(3))


def quilt() -> str:
    across, down, s, edge = 5, 6, 36, 18
    width, height = across * s + 2 * edge, down * s + 2 * edge
    drawn = [box(0, 0, width, height, NIGHT), box(edge - 5, edge - 5, across * s + 10, down * s + 10, RUST)]
    for i in range(across):
        for j in range(down):
            x, y = edge + i * s, edge + j * s
            drawn.append(star(x, y, s, FOG, NIGHT, LAMP) if (i + j) % 2 == 0 else nine(x, y, s))
    return svg(width, height, *drawn)


def layout(rows: int, colour: str) -> str:
    drawn = [box(0, 0, 240, 24 * rows + 20, "#ffffff")]
    for row in range(rows):
        drawn += [box(18 * i, 24 * row, 18, 22, colour) for i in range(13 - row % 3)]
    return svg(240, 24 * rows + 20, *drawn)


def stacked() -> tuple[Picture, ...]:
    two = box(6, 0, 60, 60, TIDE) + box(0, 6, 60, 60, FOG)
    line = '<path d="M0 66 L60 6" stroke="#222" stroke-width="0.8"/>'
    sewn = '<path d="M-6 60 L54 0 M6 72 L66 12" stroke="#222" stroke-dasharray="3 2" stroke-width="0.8"/>'
    return (
        Picture(svg=svg(66, 66, two), words="two squares face to face", caption="stack"),
        Picture(svg=svg(66, 66, two, line), words="a line on the diagonal", caption="mark"),
        Picture(
            svg=svg(66, 66, two, line, sewn), words="seams on both sides", caption="sew, then cut on the line"
        ),
        Picture(svg=svg(66, 66, triangles(0, 0, 66, FOG, TIDE)), words="the unit, open", caption="press"),
    )


CHECK = (
    Verdict(verdict="fine", when="2 1/2 in to 2 9/16 in after truing"),
    Verdict(verdict="ease", when="2 7/16 in", do="Leave it."),
    Verdict(verdict="sew again", when="under 2 7/16 in, one or a few"),
    Verdict(verdict="true all up alike", when="all under 2 7/16 in", do="All to one size; note it."),
)


def unit(name: str, count: str, method: str, **more: object) -> UnitMaking:
    return UnitMaking(
        name=name,
        count=count,
        method=method,
        reason="little cloth, no bias edge outside, and every pair may be of other prints",
        alternative="eight at a time",
        alternative_reason="24 fewer seams, 9 per cent more cloth",
        starts=("60 squares 3 in of deep navy solid", "60 squares 3 in of fog"),
        pictures=stacked(),
        steps=(
            "Lay a fog square on a navy square, face to face.",
            "Mark a diagonal on the back of the lighter one.",
            "Sew 1/4 in from the line on both sides; chain-piece all 60.",
            "Cut apart on the line and press.",
            "True up on the diagonal to 2 1/2 in.",
        ),
        sizes=(
            ExpectedSize(what="before truing", size="2 5/8 in"),
            ExpectedSize(what="after truing", size="2 1/2 in"),
        ),
        verdicts=CHECK,
        pressing="Press towards the deep navy solid.",
        more=("one at a time", "from cut triangles"),
        sums=(
            "start: 2 1/2 + sqrt 2 x 1/4 = 2.8536 in; rounded up to 1/8 with 1/8 to trim -> 3 in",
            "15 blocks x 8 = 120; two at a time: 120 / 2 = 60 pairs",
        ),
        **more,  # type: ignore[arg-type]
    )


def cloth(fabric: Swatch, colour: str, rows: int) -> ClothCutting:
    return ClothCutting(
        fabric=fabric,
        lines=(
            CutLines(cut="cut 2 strips 5 1/2 in along the selvedge", then=("reserve for the outer border",)),
            CutLines(
                cut="cut 6 strips 2 7/8 in x WOF",
                then=("from these 76 squares 2 7/8 in",),
                note="13 from each strip; the last strip gives 11",
            ),
            CutLines(
                cut="cut 4 strips 2 1/2 in x WOF",
                then=("from these 40 squares 2 1/2 in", "and 8 rectangles 2 1/2 in x 4 1/2 in"),
            ),
            CutLines(cut="cut 1 strip 4 7/8 in x WOF", then=("from this 8 squares 4 7/8 in",)),
        )[: rows - 1],
        layouts=(
            Picture(svg=layout(rows, colour), words="strips across the cloth", caption="40 in usable width"),
        ),
        sums=(
            "40 / 2 7/8 = 13 squares a strip; 76 / 13 -> 6 strips; 6 x 2 7/8 = 17 1/4 in",
            "pieces alone: about 15 11/16 of 17 1/4 in; offcuts 9 per cent",
        ),
    )


def sample(**changes: object) -> JobSheet:
    """The sheet; any field may be given another value."""
    block = Picture(svg=svg(96, 96, star(0, 0, 96, FOG, NIGHT, LAMP)), words="the lantern star block")
    net = Picture(svg=svg(96, 96, nine(0, 0, 96)), words="the net block")
    arrows = '<path d="M20 48 h16 m-5 -4 l5 4 l-5 4 M48 20 v16 m-4 -5 l4 5 l4 -5" stroke="#000" fill="none"/>'
    pressed = svg(96, 96, star(0, 0, 96, "#ffffff", "#d8d8d8", "#ffffff"), arrows)
    fields: dict[str, object] = {
        "title": "Ropewalk lanterns",
        "reason": "A throw for the net loft at Saltholm, where the boats' lamps are hung to dry.",
        "finished_size": "52 1/2 in x 61 1/2 in",
        "picture": Picture(svg=quilt(), words="thirty blocks, stars and nets by turns, two borders"),
        "facts": (
            ("blocks", "15 lantern stars and 15 nets, 9 in"),
            ("patches", "491, of 9 kinds"),
            ("seam", "1/4 in take-up"),
            ("time", "about 14 hours"),
        ),
        "worth_knowing": (
            "The woven stripe is one-way. It stays upright in the blocks; in the side borders it lies.",
        ),
        "purchases": (
            Purchase(
                fabric=night, bare="1 7/8 yd", buy="2 1/4 yd", note="outer border is cut along the selvedge"
            ),
            Purchase(
                fabric=fog,
                bare="1 1/16 yd",
                buy="1 1/4 yd",
                sums=("38 1/4 + 2 to straighten + 1 x 2 7/8 spare = 43 1/8 -> 10 x 4 1/2 = 45 in to buy",),
            ),
            Purchase(fabric=lamp, bare="5/16 yd", buy="1/2 yd"),
            Purchase(fabric=tide, bare="3/8 yd", buy="1/2 yd"),
            Purchase(
                fabric=nets, bare="12 strips 3 1/2 in", buy="12 fat quarters", note="no two alike touching"
            ),
            Purchase(fabric=rust, bare="13/16 yd", buy="1 yd", note="inner border and binding"),
            Purchase(
                fabric=Swatch(name="backing"), bare="3 3/8 yd", buy="3 5/8 yd", note="2 panels, seam across"
            ),
            Purchase(fabric=Swatch(name="batting"), bare="60 in x 69 in", buy="60 in x 70 in"),
        ),
        "purchase_notes": ("Bought lengths hold 2 in to straighten and one spare strip of each cloth.",),
        "before_you_cut": (
            "Wash all cloth or none of it. Washed cloth is dried and pressed before it is measured.",
            "Press every piece flat. Straighten one end; it takes about 1 in.",
            "Reserve the outer border first: 2 strips 5 1/2 in x 62 in along the selvedge of the navy.",
        ),
        "test_block": Part(
            name="One lantern star",
            says=("Cut only what this block needs, sew it, and measure it before you cut the rest.",),
            lines=(
                CutLines(cut="cut 4 squares 3 in of deep navy solid"),
                CutLines(cut="cut 4 squares 3 in and 4 squares 2 1/2 in of fog"),
                CutLines(cut="cut 1 square 5 in of lantern amber"),
            ),
            steps=("Make 8 half-square triangles, see Units.", "Join as shown under Joining."),
            picture=block,
            sizes=(ExpectedSize(what="test block, raw", size="9 1/2 in"),),
            verdicts=CHECK,
        ),
        "cutting": (cloth(night, NIGHT, 5), cloth(fog, FOG, 5), cloth(lamp, LAMP, 2), cloth(tide, TIDE, 3)),
        "units": (
            unit("Half-square triangles, navy and fog", "make 120", "Two at a time"),
            unit("Half-square triangles, slate and fog", "make 32", "Eight at a time"),
            unit("Flying geese, navy over fog", "make 24", "Four at a time without waste"),
        ),
        "pressing": (
            Pressing(
                name="Lantern star",
                picture=Picture(svg=pressed, words="arrows towards the navy", caption="seen from the front"),
                says=("Rows one and four towards the navy.", "Rows two and three towards the amber."),
            ),
            Pressing(
                name="Net",
                picture=net,
                says=("All seams towards the greens.",),
                not_nesting=("the corner where two nets meet in row 4; press that seam open",),
            ),
        ),
        "joining": (
            Part(
                name="Lantern star",
                count="15 blocks",
                steps=(
                    "Join square, two half-square triangles, square: rows one and four.",
                    "Join the four side units in pairs and sew them to the centre: the middle row.",
                    "Join the rows; seams nest.",
                ),
                picture=block,
                sizes=(
                    ExpectedSize(what="row", size="2 3/4 in x 9 1/2 in"),
                    ExpectedSize(what="block", size="9 1/2 in"),
                ),
                sums=("9 + 2 x 1/4 = 9 1/2 in",),
            ),
            Part(
                name="Net",
                count="15 blocks",
                steps=("Join three squares, three times.", "Join the rows."),
                picture=net,
                sizes=(ExpectedSize(what="block", size="9 1/2 in"),),
            ),
            Part(
                name="The top",
                says=("Six rows of five blocks; a star stands in the first corner.",),
                steps=(
                    "Join the rows.",
                    "Join rows one and two, three and four, five and six.",
                    "Join the pairs.",
                ),
                picture=Picture(svg=quilt(), words="the whole top"),
                sizes=(
                    ExpectedSize(what="row of five", size="9 1/2 in x 45 1/2 in"),
                    ExpectedSize(what="middle", size="45 1/2 in x 54 1/2 in"),
                ),
            ),
        ),
        "borders": (
            Part(
                name="Inner border, rust",
                lines=(
                    CutLines(
                        cut="cut 6 strips 1 1/2 in x WOF",
                        then=("join end to end; from this 2 at 54 1/2 in, 2 at 47 1/2 in",),
                    ),
                ),
                steps=(
                    "Measure the middle in three places; cut to the mean.",
                    "Sew the long sides, then top and bottom.",
                ),
                sizes=(ExpectedSize(what="top now", size="47 1/2 in x 56 1/2 in"),),
                sums=("45 1/2 + 2 x 1 = 47 1/2 in",),
            ),
            Part(
                name="Outer border, navy",
                steps=("Trim the reserved strips to the measured top.", "Sew as before."),
            ),
        ),
        "finishing": (
            Part(
                name="Backing and batting",
                lines=(
                    CutLines(
                        cut="cut 2 panels 60 1/2 in x WOF", then=("join with a 1/2 in seam, press it open",)
                    ),
                ),
                steps=("Layer backing, batting, top; baste.", "Quilt from the middle outwards."),
                sums=("52 1/2 + 2 x 4 = 60 1/2 in",),
            ),
            Part(
                name="Binding, double fold",
                lines=(
                    CutLines(cut="cut 6 strips 2 1/2 in x WOF", then=("join at 45 degrees, fold and press",)),
                ),
                steps=("Sew to the front, turn the corners, close the ends.", "Hem to the back by hand."),
                sizes=(ExpectedSize(what="binding strip", size="238 in"),),
            ),
        ),
        "made_with": "Made with Piecewright, seam take-up 1/4 in.",
        "replayed": "The plan was replayed: 143 steps, 491 patches. Check your own size at each station.",
        "accent": RUST,
    }
    return JobSheet(**{**fields, **changes})  # type: ignore[arg-type]
