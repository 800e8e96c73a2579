"""Reading sums as people write them in rules of thumb: `2X + 1`, `half the finished size + 7/8`, `S x S / w`.

Products may be implied (`1.41 F`, `(W + 8)(H + 8)`); numbers may be mixed (`2 1/2`) and carry a unit; an x is
a name or stands for times, by where it stands.

Terms:
- *piece*: a number, a word or a sign, with its place;
- *sign*: one character of the text, or one that means an operation.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from fractions import Fraction

from piecewright.measure.number import read_number, shortened
from piecewright.problems import Problem, Refused
from piecewright.rescue.rule_sum import RuleSum, place_in_rule
from piecewright.toml_places import nearest

MOST_SIGNS = 200
MOST_PIECES = 60
DEEPEST = 12
MOST_DIGITS = 9

_GLYPHS = "½⅓⅔¼¾⅛⅜⅝⅞"
_PIECE = re.compile(
    rf"""(?P<number>\d+\s+\d+/\d+|\d+\s*[{_GLYPHS}]|[{_GLYPHS}]|\d+/\d+|\d+\.\d+|\.\d+|\d+)
    |(?P<word>[A-Za-z]+(?:'s)?) |(?P<sign>["″%²√+*/()^-])""",
    re.VERBOSE,
)
_PLAIN = str.maketrans({"×": "*", "·": "*", "⋅": "*", "÷": "/", "−": "-", "–": "-", "\u2044": "/", "’": "'"})
_SAID = {"plus": "+", "minus": "-", "times": "*", "over": "/", "squared": "²", "sqrt": "√"}
_SHARES = {"half": Fraction(1, 2), "twice": Fraction(2), "double": Fraction(2)}
_EMPTY = ("the", "a", "of", "by", "one")
_UNITS = ("in", "inch", "inches", '"', "″", "cm", "mm", "yd", "yard", "yards", "m")


@dataclass(frozen=True)
class _Piece:
    kind: str
    text: str
    start: int
    end: int


def read_sum(text: str, names: Collection[str], offset: int = 0, told: Collection[str] = ()) -> RuleSum:
    """The sum that a text says; `names` are known (several words joined by spaces, capitals as usual).

    A name is known as it is written, or else without regard to capitals. `offset` is where the text starts
    in what was typed; of the names, `told` are named where another came. Raises Refused, with the place, for
    anything that is no sum of these.

    >>> x = Fraction(3)
    >>> read_sum("2X + 1", ["x"]).figure({"x": x}, Fraction(1)), read_sum("x × 7/8", ["x"]).names()
    (Fraction(7, 1), frozenset({'x'}))
    """
    if len(text) > MOST_SIGNS:
        what = f"expected a rule of at most {MOST_SIGNS} signs, got {len(text):,}."
        raise Refused(Problem(what, do="Write only the sum."))
    pieces = list(_pieces(text.translate(_PLAIN), offset))
    if len(pieces) > MOST_PIECES:
        what = f"expected a sum of at most {MOST_PIECES} numbers and signs, got {len(pieces)}."
        raise Refused(Problem(what, do="Write a shorter one."))
    reader = _Reader(pieces, names, offset + len(text), told or names)
    whole = reader.sum()
    if not reader.is_over:
        raise reader.wrong("a sign such as + or x, or the end")
    return whole


def _pieces(text: str, offset: int) -> Iterator[_Piece]:
    at, before = 0, ""
    while at < len(text):
        if text[at].isspace():
            at += 1
            continue
        found = _PIECE.match(text, at)
        if found is None:
            raise Refused(_unreadable("a number, a name or a sign such as +", text[at], offset + at))
        piece, kind = found[0], str(found.lastgroup)
        if kind == "number" and before == "/" and re.fullmatch(r"\d+/\d+", piece):
            piece = piece.partition("/")[0]  # W/2/3 divides twice.
        if re.search(rf"\d{{{MOST_DIGITS + 1}}}", piece):
            raise Refused(_unreadable("a number of a few digits", piece, offset + at))
        before = piece
        yield _Piece(kind, piece, offset + at, offset + at + len(piece))
        at += len(piece)


class _Reader:
    """Reads pieces from left to right; products before sums."""

    def __init__(self, pieces: list[_Piece], names: Collection[str], end: int, told: Collection[str]) -> None:
        self.pieces, self.names, self.end, self.told = pieces, names, end, told
        self.longest = max((name.count(" ") + 1 for name in names), default=1)
        self.at = self.depth = 0

    @property
    def is_over(self) -> bool:
        return self.at >= len(self.pieces)

    def sum(self) -> RuleSum:
        self.depth += 1
        if self.depth > DEEPEST:
            raise self.wrong(f"at most {DEEPEST} brackets within each other")
        place = self._place
        if self._takes("-"):
            left = RuleSum("-", place, (RuleSum("number", place), self._product()))
        else:
            self._takes("+")
            left = self._product()
        while (place := self._place) and (sign := self._takes("+", "-")):
            left = RuleSum(sign, place, (left, self._product()))
        self.depth -= 1
        return left

    def _product(self) -> RuleSum:
        left = self._factor()
        while not self.is_over:
            place = self._place
            if sign := self._takes("*", "/"):
                left = RuleSum(sign, place, (left, self._factor()))
            elif self._is_times_x():
                self.at += 1
                left = RuleSum("*", place, (left, self._factor()))
            elif self._opens(self.at) and self.pieces[self.at].kind != "number":
                left = RuleSum("*", place, (left, self._factor()))
            else:
                break
        return left

    def _factor(self) -> RuleSum:
        place = self._place
        factor = self._atom()
        if self._takes("²") or self._is_power_two():
            factor = RuleSum("*", place, (factor, factor))
        return factor

    def _atom(self) -> RuleSum:
        while not self.is_over and self._word(self.at) in _EMPTY and self._name(self.at) is None:
            self.at += 1
        if self.is_over:
            raise self.wrong("a number or a name")
        piece, place = self.pieces[self.at], self._place
        if self._takes("√"):
            return RuleSum("√", place, (self._atom(),))
        if self._takes("("):
            inner = self.sum()
            if not self._takes(")"):
                raise self.wrong("a closing bracket")
            return inner
        if piece.kind == "number":
            return self._number(piece)
        if (named := self._name(self.at)) is not None:
            self.at += named[1]
            return RuleSum("name", place, word=named[0])
        if (share := _SHARES.get(self._word(self.at))) is not None:
            self.at += 1
            return RuleSum("*", place, (RuleSum("number", place, value=share), self._atom()))
        raise self.wrong("a number or a name")

    def _number(self, piece: _Piece) -> RuleSum:
        try:
            value = read_number(piece.text)
        except ValueError as error:
            raise Refused(Problem(f"{error}.", place_in_rule(piece.start))) from error
        self.at += 1
        if self._takes("%"):
            return RuleSum("number", piece.start, value=value / 100)
        unit = self._word(self.at)
        if unit in _UNITS and self._name(self.at) is None:
            self.at += 1
            return RuleSum("number", piece.start, value=value, unit=unit)
        return RuleSum("number", piece.start, value=value)

    def _name(self, at: int) -> tuple[str, int] | None:
        """The longest known name that starts at a piece, and of how many pieces it is."""
        for count in range(self.longest, 0, -1):
            run = self.pieces[at : at + count]
            if len(run) < count or any(piece.kind != "word" for piece in run):
                continue
            written = " ".join(piece.text for piece in run)
            known = written if written in self.names else written.lower()
            if known not in self.names:
                known = next((name for name in self.names if name.lower() == written.lower()), "")
            if known:
                return known, count
        return None

    def _is_times_x(self) -> bool:
        """Whether an x stands for times: between two things that can be multiplied, and not as in 2X."""
        if self._word(self.at) != "x" or not self._opens(self.at + 1):
            return False
        before, here, after = self.pieces[self.at - 1], self.pieces[self.at], self.pieces[self.at + 1]
        is_glued = before.kind == "number" and before.end == here.start and here.end < after.start
        return not (is_glued and self._name(self.at))

    def _opens(self, at: int) -> bool:
        """Whether a number, a name or a bracket starts at a piece."""
        while at < len(self.pieces) and self._word(at) in _EMPTY and self._name(at) is None:
            at += 1
        if at >= len(self.pieces):
            return False
        piece = self.pieces[at]
        is_word = piece.kind == "word" and (self._word(at) not in _SAID or self._word(at) == "sqrt")
        return piece.kind == "number" or piece.text in ("(", "√") or is_word

    def _is_power_two(self) -> bool:
        texts = [piece.text for piece in self.pieces[self.at : self.at + 2]]
        self.at += 2 if texts == ["^", "2"] else 0
        return texts == ["^", "2"]

    def _word(self, at: int) -> str:
        return self.pieces[at].text.lower() if at < len(self.pieces) else ""

    def _takes(self, *signs: str) -> str:
        """The sign that stands here, if it is one of these, said as a sign or as a word."""
        word = self._word(self.at)
        sign, count = _SAID.get(word, word), 1
        if word == "divided" and self._word(self.at + 1) == "by":
            sign, count = "/", 2
        if sign not in signs or (sign != word and self._name(self.at)):
            return ""
        self.at += count
        return sign

    @property
    def _place(self) -> int:
        return self.end if self.is_over else self.pieces[self.at].start

    def wrong(self, expected: str) -> Refused:
        """What to raise where something else was expected."""
        if self.is_over:
            return Refused(_unreadable(expected, "", self.end))
        piece = self.pieces[self.at]
        do = ""
        if piece.kind == "word":
            like = nearest(piece.text, self.names)
            do = f"Did you mean {like}?" if like else f"Known here: {', '.join(self.told)}."
        return Refused(_unreadable(expected, piece.text, piece.start, do))


def _unreadable(expected: str, got: str, at: int, do: str = "") -> Problem:
    return Problem(f"expected {expected}, got {shortened(got) if got else 'the end'}.", place_in_rule(at), do)
