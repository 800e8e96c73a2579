"""Every small change of a plan: each field of each step in turn, and steps left out or exchanged.

The changes know nothing of quilts: they follow the types of the fields. A length is off by a mark of the
ruler, a place by a twentieth of an inch, a count by one; a name is another name; a word is each other word
that may stand there; an entry of a list is missing, or two neighbours have changed places.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from types import NoneType, UnionType
from typing import Any, Literal, Union, get_args, get_origin, get_type_hints

import msgspec

from piecewright.bench.plan import Plan
from piecewright.bench.steps import AnyStep, Gather
from piecewright.measure.length import Length
from piecewright.measure.tolerance import WELD

UNKNOWN = "a pile that is not there"
A_LITTLE = 0.05
TURNS = (0.05, 90.0, 180.0, 270.0)


@dataclass(frozen=True)
class Change:
    """A changed plan: what was changed (`what` in words, `path` in fields), at which step (from 0)."""

    step: int
    path: tuple[str | int, ...]
    kind: str
    before: Any
    after: Any
    steps: tuple[AnyStep, ...]

    def __str__(self) -> str:
        field = ".".join(map(str, self.path)) or "the step"
        return f"step {self.step + 1}, {field} {self.kind}: {self.before!r} -> {self.after!r}"


@dataclass(frozen=True)
class Others:
    """What may stand in the place of a name: other piles, other fabrics; the mark of the ruler."""

    piles: Sequence[str]
    fabrics: Sequence[str]
    mark: Length


def changes(plan: Plan, mark: Length) -> Iterator[Change]:
    """Every change of every step of a plan."""
    steps = plan.steps
    others = Others(piles_of(steps), [supply.fabric for supply in plan.cloth], mark)
    for number, step in enumerate(steps):
        for path, kind, before, after, changed in _of_struct(step, others):
            if changed != step:
                new = (*steps[:number], changed, *steps[number + 1 :])
                yield Change(number, path, kind, before, after, new)
        yield Change(number, (), "left out", step, None, (*steps[:number], *steps[number + 1 :]))
        if number + 1 < len(steps):
            swapped = (*steps[:number], steps[number + 1], step, *steps[number + 2 :])
            yield Change(number, (), "exchanged with the next", step, steps[number + 1], swapped)


def piles_of(steps: Sequence[AnyStep]) -> list[str]:
    """The names of all piles that steps give, in order."""
    return list(dict.fromkeys(name for step in steps for name in names_given(step)))


def names_given(step: AnyStep) -> list[str]:
    """The piles that a step puts something on."""
    if hasattr(step, "sections"):
        return [section.gives for section in step.sections]
    if isinstance(step, Gather) and step.takes:
        return [step.pile]
    gives = getattr(step, "gives", ())
    return [gives] if isinstance(gives, str) else [name for name in gives if name]


def names_in(step: AnyStep) -> set[str]:
    """Every text in a step: piles, fabrics, seams, words."""
    found: set[str] = set()

    def walk(value: Any) -> None:
        if isinstance(value, str):
            found.add(value)
        elif isinstance(value, msgspec.Struct):
            for field in value.__struct_fields__:
                walk(getattr(value, field))
        elif isinstance(value, tuple):
            for inner in value:
                walk(inner)

    walk(step)
    return found


_Found = Iterator[tuple[tuple[str | int, ...], str, Any, Any, Any]]


def _of_struct(struct: Any, others: Others) -> _Found:
    hints = get_type_hints(type(struct))
    for field in struct.__struct_fields__:
        for path, kind, before, after, value in _of_value(
            getattr(struct, field), hints[field], field, others
        ):
            yield (field, *path), kind, before, after, msgspec.structs.replace(struct, **{field: value})


def _of_value(value: Any, hint: Any, field: str, others: Others) -> _Found:
    if isinstance(value, msgspec.Struct):
        yield from _of_struct(value, others)
    elif isinstance(value, tuple):
        yield from _of_tuple(value, hint, field, others)
    else:
        for kind, new in _of_plain(value, hint, field, others):
            yield (), kind, value, new, new
    if value is not None and NoneType in get_args(hint):
        yield (), "left out", value, None, None


def _of_tuple(value: tuple[Any, ...], hint: Any, field: str, others: Others) -> _Found:
    inner, any_number = _element_hints(hint, len(value))
    for k, entry in enumerate(value):
        for path, kind, before, after, new in _of_value(entry, inner[k], field, others):
            yield (k, *path), kind, before, after, (*value[:k], new, *value[k + 1 :])
        if any_number:
            yield (k,), "entry left out", entry, None, (*value[:k], *value[k + 1 :])
        if k + 1 < len(value) and not _as_good_as(entry, value[k + 1]):
            swapped = (*value[:k], value[k + 1], entry, *value[k + 2 :])
            yield (k,), "entry exchanged with the next", entry, value[k + 1], swapped


def _as_good_as(entry: Any, other: Any) -> bool:
    """Whether two places are one, but for the last digits."""
    return isinstance(entry, float) and isinstance(other, float) and abs(entry - other) <= WELD


def _element_hints(hint: Any, count: int) -> tuple[list[Any], bool]:
    """The type of each entry, and whether there may be any number of them."""
    for option in get_args(hint) if get_origin(hint) in (Union, UnionType) else (hint,):
        if get_origin(option) is tuple:
            args = get_args(option)
            return ([args[0]] * count, True) if args[-1] is Ellipsis else (list(args), False)
    raise TypeError(f"{hint} is no tuple")


def _of_plain(value: Any, hint: Any, field: str, others: Others) -> Iterator[tuple[str, Any]]:
    if value is None:
        return
    words = _words(hint)
    if words:
        yield from (("word", word) for word in words if word != value)
    elif isinstance(value, bool):
        yield "flag", not value
    elif isinstance(value, Length):
        yield "length", value + others.mark
        yield "length", value - others.mark
    elif isinstance(value, float):
        steps = TURNS if field == "turn" else (A_LITTLE, -A_LITTLE)
        yield from (("place", value + off) for off in steps)
    elif isinstance(value, int):
        yield from (("number", value + off) for off in (1, -1, 2))
    elif isinstance(value, str):
        yield "name", UNKNOWN
        names = others.fabrics if field == "fabric" else others.piles
        yield from (("name", other) for other in _near(value, names))


def _words(hint: Any) -> tuple[str, ...]:
    """The words that may stand in a place, if only certain words may."""
    if get_origin(hint) is Literal:
        return get_args(hint)
    for option in get_args(hint) if get_origin(hint) in (Union, UnionType) else ():
        if found := _words(option):
            return found
    return ()


def _near(name: str, names: Sequence[str]) -> list[str]:
    """The names before and after one in a list, and the most like it."""
    import difflib

    if name not in names:
        return list(names[:1])
    at = names.index(name)
    rest = [other for other in names if other != name]
    around = [names[k] for k in (at - 1, at + 1) if 0 <= k < len(names)]
    return list(dict.fromkeys([*around, *difflib.get_close_matches(name, rest, 1, 0.0)]))
