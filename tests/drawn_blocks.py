"""Blocks as SVG drawings for the tests: a quilt file with a drawing beside it; random tilings to be drawn."""

from hypothesis import strategies as st

from piecewright.design.read import read_design

FILLS = {"sky": "#dfe8ee", "sea": "#1f3d57", "ember": "#c4532f"}

QUILT = """title = "t"
unit = "{unit}"
[fabrics.sky]
colour = "white"
[fabrics.sea]
colour = "black"
[fabrics.ember]
colour = "red"
[setting]
across = 1
down = 1
arrangement = "b"
[blocks.b]
name = "Block"
size = "{size}"
drawing = "{drawing}"
{more}
[blocks.b.fills]
{fills}
"""

SPACES = 'xmlns="http://www.w3.org/2000/svg" xmlns:xlink="http://www.w3.org/1999/xlink"'
HEAD = f'<svg {SPACES} viewBox="0 0 100 100">'


def read(folder, content, size="12", fills=FILLS, drawing="b.svg", more="", unit="in"):
    """The design and problems of a quilt of one block whose drawing has this content (text or bytes)."""
    listed = "\n".join(f'"{fill}" = "{role}"' for role, fill in fills.items())
    quilt = folder / "q.toml"
    quilt.write_text(QUILT.format(unit=unit, size=size, drawing=drawing, more=more, fills=listed), "utf-8")
    if content is not None:
        (folder / "b.svg").write_bytes(content if isinstance(content, bytes) else content.encode())
    return read_design(quilt)


def shapes(folder, body, **more):
    """The patches of a drawing that has none but notes, as (role, outline)."""
    design, problems = read(folder, f"{HEAD}{body}</svg>", **more)
    assert design is not None, problems
    return [(shape.role, shape.corners) for shape in design.block["b"].shapes]


def notes(folder, body, **more):
    design, problems = read(folder, f"{HEAD}{body}</svg>", **more)
    assert design is not None, problems
    return [
        p.what
        for p in problems
        if p.weight == "note" and "nothing uses" not in p.what and "no patch of" not in p.what
    ]


def errors(folder, body, **more):
    """What is wrong with a drawing of this body, in words."""
    design, problems = read(folder, f"{HEAD}{body}</svg>", **more)
    assert design is None
    return [str(p).partition("q.toml:")[2] for p in problems if p.weight == "error"]


@st.composite
def tilings(draw, most=7):
    """A random tiling of an n x n square by rectangles and half-square triangles: n, and (role, corners)."""
    n = draw(st.integers(2, most))
    rectangles = [(0, 0, n, n)]
    for _ in range(draw(st.integers(1, 8))):
        at = draw(st.integers(0, len(rectangles) - 1))
        x0, y0, x1, y1 = rectangles.pop(at)
        if draw(st.booleans()) and x1 - x0 > 1:
            x = draw(st.integers(x0 + 1, x1 - 1))
            rectangles += [(x0, y0, x, y1), (x, y0, x1, y1)]
        elif y1 - y0 > 1:
            y = draw(st.integers(y0 + 1, y1 - 1))
            rectangles += [(x0, y0, x1, y), (x0, y, x1, y1)]
        else:
            rectangles.append((x0, y0, x1, y1))
    patches = []
    for x0, y0, x1, y1 in rectangles:
        a, b, c, d = (x0, y0), (x1, y0), (x1, y1), (x0, y1)
        cut = draw(st.sampled_from(["", "", "/", "\\"])) if x1 - x0 == y1 - y0 else ""
        halves = {"": [(a, b, c, d)], "/": [(a, b, c), (a, c, d)], "\\": [(a, b, d), (b, c, d)]}[cut]
        patches += [(draw(st.sampled_from(sorted(FILLS))), half) for half in halves]
    return n, patches
