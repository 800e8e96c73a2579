"""SVG drawings that are none, or mean harm: refused in a sentence, and nothing else is opened."""

import os
from itertools import pairwise

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from drawn_blocks import FILLS, HEAD, read, shapes

SKY, SEA = (f'fill="{FILLS[role]}"' for role in ("sky", "sea"))
HALVES = f'<rect width="50" height="100" {SKY}/><rect x="50" width="50" height="100" {SEA}/>'


def refused(folder, content):
    design, problems = read(folder, content)
    assert design is None
    return [str(p).partition("q.toml:")[2] for p in problems if p.weight == "error"]


def tenfold(names, inner, one):
    """Entities or groups of which each holds the one before ten times."""
    return inner + "".join(one(b, a) for a, b in pairwise(names))


BOMB = tenfold("abcdefghi", '<!ENTITY a "aaaaaaaaaa">', lambda b, a: f'<!ENTITY {b} "{f"&{a};" * 10}">')
USES = tenfold("abcdef", '<g id="a"/>', lambda b, a: f"<g id='{b}'>" + f"<use href='#{a}'/>" * 10 + "</g>")
SMALL = '<rect width="1" height="1"/>'
TURNS = [f"{37 * k % 1000 / 9.99:.2f},{k**3 % 1010 / 10.09:.2f}" for k in range(6000)]
TANGLE = "".join(f"<polygon points='{' '.join(TURNS[k : k + 3])}'/>" for k in range(0, 5700, 3))
STAR = f"<polygon points='{' '.join(TURNS[:300])}'/>"
CROSSED = "".join(
    f'<rect x="{1.6 * k}" width=".8" height="100"/><rect y="{1.6 * k}" height=".8" width="100"/>'
    for k in range(62)
)


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (f"<!DOCTYPE svg [{BOMB}]><svg>&i;</svg>", "without entities and without a DTD"),
        ('<!DOCTYPE svg [<!ENTITY x SYSTEM "file:///etc/passwd">]><svg>&x;</svg>', "without entities"),
        ('<!DOCTYPE svg SYSTEM "http://example.org/svg.dtd"><svg/>', "without a DTD"),
        ("<svg>&undeclared;</svg>", "line 1 of b.svg: expected an SVG drawing, got a file that is broken"),
        ("", "expected an SVG drawing, got a file that is broken"),
        ("no XML at all", "expected an SVG drawing, got a file that is broken"),
        (f"{HEAD}{HALVES}"[:-9], "expected an SVG drawing, got a file that is broken"),
        ("<html><body/></html>", "expected an SVG drawing, got other XML."),
        (b"\xff\xfe\x00\xd8", "expected an SVG drawing"),
        (b'<?xml version="1.0" encoding="klingon"?><svg/>', "expected an SVG drawing"),
        (b'<?xml version="1.0" encoding="idna"?><svg/>', "expected an SVG drawing"),
        (f"{HEAD}<!--{'x' * 2_000_000}--></svg>", "expected a drawing of at most 1 MB, got more."),
        ('<svg viewBox="0 0 0 0"/>', "a viewBox with a width and a height above 0, got '0 0 0 0'"),
        ('<svg viewBox="0 0 9"/>', "a viewBox with a width and a height above 0, got '0 0 9'"),
        ('<svg viewBox="0 0 nan 1"/>', "expected numbers in the drawing, got '0 0 nan 1'"),
        ('<svg width="inf"/>', "expected a length such as 12.5 or 3mm in the drawing, got 'inf'"),
    ],
)
def test_a_file_that_is_no_drawing_is_refused_in_a_sentence(tmp_path, content, said):
    told = refused(tmp_path, content)
    assert any(said in line for line in told), told


@pytest.mark.parametrize(
    ("body", "said"),
    [
        ("<g>" * 60 + "</g>" * 60, "expected groups at most 50 deep, got more."),
        ("<g/>" * 6000, "expected a drawing of at most 5,000 elements, got more."),
        (SMALL * 2100, "expected at most 2,000 filled shapes in a drawing, got 2,100."),
        ('<g id="g"><use href="#g"/></g>', "expected groups and copies at most 100 deep, got more."),
        (USES + '<use href="#f"/>', "at most 5,000 elements with all copies, got more."),
        (f'<path d="M0 0{" C 1 9 9 9 9 0" * 9000}V9H0z" {SKY}/>', "expected at most 20,000 corners"),
        (CROSSED, "expected at most 2,000 patches in a drawing, got more."),
        (STAR, "expected at most 200 corners in an outline with holes or crossings, got more."),
        (TANGLE, "got too many lines in one place."),
        ("", "expected a drawing with filled shapes, got none."),
        (f'<rect width="5" height="0" {SKY}/>', "expected a drawing with filled shapes, got none."),
        (f'<polygon points="0,0 5,0 9,0" {SKY}/>', "got a drawing that is all on one line."),
        ('<rect width="nan" height="5"/>', "expected a length such as 12.5 or 3mm"),
        ('<rect width="1e999" height="5"/>', "expected a number such as 12.5"),
        ('\n<polygon points="0,0 1e300,0 0,5"/>', "line 2 of b.svg: expected a number such as 12.5"),
        ('<path d="M0 0L1e400 0 0 1z"/>', "got one too far off to measure"),
        ('<path d="M0 0A1e200 1e-200 9 0 1 5 5z"/>', "expected"),
        ('<path d="M0 0 L nan 5 z"/>', "expected a path such as M 0 0 L 4 0 L 4 4 Z"),
        ('<path d="L 5 5 z"/>', "expected a path such as"),
        ('<path d="M 5"/>', "expected a path such as"),
        ('<path d="M 5 5 A 1 1"/>', "expected a path such as"),
        (f'<g transform="spin(4)">{HALVES}</g>', "expected a transform such as rotate(45)"),
        (f'<g transform="scale(1,2,3)">{HALVES}</g>', "expected a transform such as rotate(45)"),
        (f'<g transform="scale(1e6)"><g transform="scale(1e6)">{HALVES}</g></g>', "too far off"),
        (f'<g transform="scale(0)">{HALVES}</g>', "got a drawing that is all on one line."),
    ],
)
def test_a_drawing_that_is_too_much_or_makes_no_sense_is_refused(tmp_path, body, said):
    told = refused(tmp_path, f"{HEAD}{body}</svg>")
    assert any(said in line for line in told), told


def test_a_script_is_neither_run_nor_in_the_way(tmp_path):
    body = (
        '<script href="http://example.org/x.js">x</script><g onload="alert(1)"><set attributeName="x"/></g>'
    )
    assert [role for role, _ in shapes(tmp_path, HALVES + body)] == ["sky", "sea"]


@pytest.mark.parametrize(
    "name",
    [
        *(
            "/etc/passwd",
            "/b.svg",
            "../b.svg",
            "sub/../../b.svg",
            "C:/b.svg",
            "C:b.svg",
            "b.png",
            "none.svg",
            "",
        ),
        *(
            r"\\\\host\\share\\b.svg",
            r"..\\b.svg",
            r"b\u0000.svg",
            "folder.svg",
            "way-out.svg",
            "x" * 5000 + ".svg",
        ),
    ],
)
def test_no_file_outside_the_folder_is_opened(tmp_path, name):
    inside = tmp_path / "inside"
    (inside / "folder.svg").mkdir(parents=True)
    (tmp_path / "b.svg").write_text(f"{HEAD}{HALVES}</svg>")
    os.symlink(tmp_path / "b.svg", inside / "way-out.svg")
    design, problems = read(inside, None, drawing=name)
    assert design is None
    told = [str(p) for p in problems if p.weight == "error"]
    assert any("expected a drawing beside the quilt file" in line for line in told), told


def test_a_drawing_may_lie_in_a_folder_below(tmp_path):
    (tmp_path / "drawn").mkdir()
    (tmp_path / "drawn" / "b.svg").write_text(f"{HEAD}{HALVES}</svg>")
    design, problems = read(tmp_path, None, drawing="drawn/b.svg")
    assert design is not None, problems


PIECES = st.sampled_from(
    [
        *("<svg>", "<svg ", "<g ", "<path d=", '"M0 0', "L5 5", "a1 1 0 011 1", "C1 1 2 2 3 3", "z", "1e9"),
        *("<rect width='5' height='5'/>", "transform='", "rotate(", "<use href='#a'/>", "id='a'", "nan"),
        *("<style>", "</style>", "</g>", "</svg>", "<!--", "-->", "<![CDATA[", "]]>", "<?x ?>", "fill='red'"),
        *("style='fill:", "viewBox='", "\u0000", "é", ".a{fill:red}", "class='a'", "points='0,0 9,9 9,0'"),
        *"<>/\"'=&;#(),. \n-",
    ]
)


@given(st.lists(PIECES, max_size=40), st.booleans())
@settings(max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture])
def test_no_drawing_breaks_the_reading(tmp_path, pieces, framed):
    text = "".join(pieces)
    design, problems = read(tmp_path, f"{HEAD}{text}{HALVES}</svg>" if framed else text)
    assert design is not None or any(p.weight == "error" for p in problems)
