"""What a plan measures in one's own hands: sums by hand, Monte Carlo, and the bench's own joins."""

from dataclasses import replace
from functools import cache
from pathlib import Path

import msgspec
import numpy as np
import pytest

from piecewright.bench.bench import seam_of
from piecewright.bench.cloth import SeamSize, piece
from piecewright.bench.joining import Joining, join
from piecewright.design.read import design_from, read_design
from piecewright.geometry.polygon import rectangle
from piecewright.measure.length import ZERO, inches, mm
from piecewright.methods.trial import try_out
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.planning.things import Cut, Joined, UnitThing
from piecewright.sewing.stations import Station
from piecewright.tolerance.chances import below, beyond, both_below, cut_off
from piecewright.tolerance.hands import Hands, hands_from, hands_of
from piecewright.tolerance.measuring import measure, mismatches_in
from piecewright.tolerance.model import LineSize, UnitSize, model_of, unit_size
from piecewright.tolerance.propagation import propagated
from piecewright.tolerance.verdicts import judge
from piecewright.tolerance.virtual import VirtualQuilts, virtual_quilts
from piecewright.toml_places import toml_from_text
from piecewright.workroom.own_seam import own_seam
from piecewright.workroom.strip_sums import StripTest
from piecewright.workroom.workroom import INCH_WORKROOM, Workroom, default_workroom

EXAMPLES = Path(__file__).parent.parent / "examples"
SQUARES = "sea sea sea\nsky sky sea\nsky sky sky"
FOUR_SIGMA = 4.0  # A sample lies farther off once in 16,000 times.


@cache
def planned(picture: str, across: int = 1, down: int = 1, choices: str = "", trim: str = "1/8") -> Job:
    """Blocks of a picture, 6 in each; rounded to 1/4 in, so that some units are trimmed."""
    text = (
        'title = "T"\nreason = "R"\nunit = "in"\n[fabrics.sea]\nname = "sea"\ncolour = "#223355"\n'
        '[fabrics.sky]\nname = "sky"\ncolour = "#ddeeee"\n'
        f'[blocks.one]\nname = "One"\nsize = "6"\npicture = """\n{picture}\n"""\n'
        f'[setting]\nacross = {across}\ndown = {down}\narrangement = """\none\n"""\n{choices}'
    )
    design, problems = design_from(toml_from_text(text, "t.toml"))
    assert design is not None, [*map(str, problems)]
    return make_plan(design, msgspec.structs.replace(INCH_WORKROOM, trim=inches(trim)))


@cache
def example(name: str) -> Job:
    design, problems = read_design(EXAMPLES / f"{name}.toml")
    assert design is not None, problems
    return make_plan(design, default_workroom(design.unit))


def steady(job: Job, **more: str) -> Hands:
    """Hands without any spread, and the needle so much farther out than planned."""
    room = job.workroom
    needle = room.needle + inches(more["needle"]) if "needle" in more else room.needle
    return hands_of(room, needle, None, ZERO, ZERO)


def as_wide(job: Job, **spreads: str) -> Hands:
    """Hands as planned, with these spreads."""
    lengths = {name: inches(text) for name, text in spreads.items()}
    return hands_of(job.workroom, None, None, lengths.get("spread", ZERO), lengths.get("cut_spread", ZERO))


# ---------------------------------------------------------------- what is the same for all adds up in a line


def test_steady_hands_that_sew_as_planned_make_everything_as_the_sheet_says():
    for name in ("harbour-lights", "metric-nets"):
        job = example(name)
        outlook = measure(job, steady(job))
        for one in outlook.outcomes:
            assert one.expected == pytest.approx(one.nominal, abs=1e-6)
            assert (one.verdict, one.do) == ("fine", "Go on.")
        assert outlook.larger == ()
        assert outlook.not_followed == ()
        assert outlook.top.nominal == pytest.approx(job.things[job.plan.finish.top].cloth.size)


@pytest.mark.parametrize(("more", "short"), [("1/64", 1 / 4), ("1/32", 1 / 2)])
def test_a_row_with_eight_seams_comes_out_short_by_all_of_them(more, short):
    # trade-checks.csv: seam_loss (1/32 a seam, both allowances together) 1/4 in, and seam_loss_needle (each
    # patch loses 1/32) 1/2 in; order of magnitude adonising.blogspot.com 2019/03
    job = planned("sea", across=9)
    outlook = measure(job, steady(job, needle=more))
    assert outlook.top.nominal[0] - outlook.top.expected[0] == pytest.approx(short)
    (seams,) = [c for c in outlook.contributions if c.cause == "seams"]
    assert (seams.count, seams.off) == (8, pytest.approx((-short, 0.0)))


def test_the_plan_and_what_made_as_drawn_means_stay_as_they_are():
    job = example("harbour-lights")
    before = msgspec.json.encode(msgspec.to_builtins(job.plan, enc_hook=str))
    measure(job, steady(job, needle="1/32"))
    assert msgspec.json.encode(msgspec.to_builtins(job.plan, enc_hook=str)) == before
    assert job.replay.made_as_drawn


def test_a_block_of_squares_is_what_the_bench_makes_of_the_same_pieces_with_another_seam():
    """The bench joins the pieces as cut, under the hands' own seam; the model is asked for the same."""
    job = planned(SQUARES)
    for needle in ("-1/32", "1/64", "1/16"):
        hands = steady(job, needle=needle)
        block = _on_the_bench(job, hands, lambda name: job.things[name].cloth.size)
        outcome = measure(job, hands).of("One")
        assert sorted(block.size) == pytest.approx(sorted(outcome.expected), abs=1e-9)
        # arithmetic: two inner seams each way, each takes twice the needle's shift
        assert outcome.expected[0] == pytest.approx(6.5 - 4 * float(inches(needle)))


def _on_the_bench(job: Job, hands: Hands, size_of):
    """The block joined on the bench's own kernel, from pieces of these sizes."""
    seam = SeamSize(float(hands.needle), float(hands.fold))
    cloths = {}
    for name, thing in job.things.items():
        if isinstance(thing, Joined) and thing.station <= Station.BLOCK:
            row = [Joining(cloths[p.name], p.entry, p.exit) for p in thing.parts for _ in range(p.count)]
            cloths[name] = join(row, name, seam)
        elif thing.station is Station.PIECE:
            cloths[name] = piece("sea", rectangle(*size_of(name)), seam)
    return cloths["One"]


class _Sampled:
    """Deviations that were drawn before: the same for each copy of a thing, so that a bench can follow."""

    def __init__(self, numbers: list[float]) -> None:
        self.numbers = numbers

    def standard_normal(self, size: tuple[int, ...]) -> np.ndarray:
        return np.full(size, self.numbers.pop(0))


@pytest.mark.parametrize("seed", range(5))
def test_a_virtual_row_is_what_the_bench_makes_of_pieces_cut_just_so_and_sewn_just_so(seed):
    rng = np.random.default_rng(seed)
    job = planned("sea", across=4)
    model = model_of(job, as_wide(job, spread="1/32", cut_spread="1/16"))
    (row,) = [size for size in model.sizes.values() if isinstance(size, LineSize)]
    wide, high, seam = rng.standard_normal(3)
    numbers = [wide, high] + [seam] * (len(row.parts) - 1)
    quilt = virtual_quilts(model, 1, _Sampled(numbers)).dims[model.top][0]
    cut = piece("sea", rectangle(6.5 + wide / 16, 6.5 + high / 16), SeamSize(0.0, 0.25 + seam / 32))
    made = join([Joining(cut, (3,), (1,))] * 4, "row", SeamSize(0.0, 0.25 + seam / 32))
    assert sorted(quilt) == pytest.approx(sorted(made.size))


def test_units_follow_their_seams_and_their_starts_as_plane_geometry_says():
    job = planned("sea.nw.sky", choices='[choices]\nhst = "two at a time"\n')
    hands = steady(job, needle="1/64")
    (unit,) = [size for size in model_of(job, hands).sizes.values() if isinstance(size, UnitSize)]
    # plane geometry: two at a time S - sqrt(2)s; a start of 6 7/8 in
    assert unit.by_seam == pytest.approx((-(2**0.5),) * 2)
    assert unit.by_cut == (pytest.approx((1.0, 1.0)),)
    assert unit.made == pytest.approx((6.875 - 2**0.5 * (0.25 + 1 / 64),) * 2)
    wide = replace(hands, cut_off=inches("1/32"))
    (unit,) = [size for size in model_of(job, wide).sizes.values() if isinstance(size, UnitSize)]
    assert unit.made == pytest.approx((6.875 + 1 / 32 - 2**0.5 * (0.25 + 1 / 64),) * 2)


@pytest.mark.parametrize("way", ["two at a time", "four at a time", "eight at a time"])
def test_what_the_bench_makes_of_sampled_cuts_and_seams_is_what_the_model_says(way):
    job = planned("sea.nw.sky sea\nsea sky.nw.sea", choices=f'[choices]\nhst = "{way}"\n')
    thing = next(t for t in job.things.values() if isinstance(t, UnitThing) and job.counts[t.name])
    unit = model_of(job, as_wide(job, spread="1/64")).sizes[thing.name]
    assert isinstance(unit, UnitSize)
    for seam, cut in np.random.default_rng(3).standard_normal((5, 2)) / 64:
        room = msgspec.structs.replace(job.workroom, needle=job.workroom.needle + inches(str(round(seam, 9))))
        sizes = tuple(float(size) + cut for size in thing.recipe.sizing.cut)
        made = try_out(thing.recipe.method, thing.recipe.unit, sizes, room).size
        by_cut = sum(by[0] for by in unit.by_cut)
        assert made[0] == pytest.approx(unit.made[0] + unit.by_seam[0] * seam + by_cut * cut, abs=1e-6)


def test_a_unit_on_its_side_is_measured_the_way_it_lies():
    job = planned("sky.n.sea -\nsea sea", choices='[choices]\ngeese = "stitch and flip"\n')
    (goose,) = [t for t in job.things.values() if isinstance(t, UnitThing) and job.counts[t.name]]
    lying = unit_size(goose.recipe, (6.5, 3.5), steady(job), job.workroom)
    standing = unit_size(goose.recipe, (3.5, 6.5), steady(job), job.workroom)
    assert lying.made == pytest.approx((6.5, 3.5), abs=1e-6)
    assert standing.made == lying.made[::-1]
    assert standing.by_cut == tuple(by[::-1] for by in lying.by_cut)


def test_what_is_no_rectangle_is_taken_as_drawn_and_named():
    job = planned(SQUARES)
    name = next(name for name, thing in job.things.items() if isinstance(thing, Cut) and "sea" in name)
    triangle = piece("sea", ((0.0, 0.0), (2.5, 0.0), (0.0, 2.5)), seam_of(job.workroom))
    other = replace(job, things={**job.things, name: replace(job.things[name], cloth=triangle)})
    outlook = measure(other, steady(job, needle="1/64"))
    rows = [t.name for t in job.things.values() if isinstance(t, Joined) and t.station is Station.ASSEMBLY]
    assert outlook.not_followed == (name, *rows)
    assert outlook.of(rows[0]).expected == pytest.approx((6.5, 2.5))
    # the rows as drawn, but two seams between them, each of which takes twice 1/64 in more
    assert sorted(outlook.top.expected) == pytest.approx([6.5 - 4 / 64, 6.5])


# ------------------------------------------------------------------------- what differs adds up in squares


def test_the_spread_of_a_row_adds_in_squares():
    job = planned("sea", across=9)
    outlook = measure(job, as_wide(job, spread="1/64", cut_spread="1/32"))
    # arithmetic: nine cuts of 1/32, eight seams that take twice 1/64 each
    expected = (9 / 32**2 + 8 * 4 / 64**2) ** 0.5
    assert outlook.top.deviation[0] == pytest.approx(expected)
    # across it the nine are eased to their mean
    assert outlook.top.deviation[1] == pytest.approx(1 / 32 / 9**0.5)
    low, high = outlook.top.lowest[0], outlook.top.highest[0]
    assert (high - low) / 2 == pytest.approx(1.959964 * expected)


def test_what_is_cut_off_above_leaves_the_moments_that_a_sample_has():
    rng = np.random.default_rng(5)
    for most, mean, deviation in ((0.0, 0.3, 1.0), (1.0, 0.0, 0.5), (0.0, 0.0, 2.0)):
        sample = np.minimum(mean + deviation * rng.standard_normal(200_000), most)
        found, variance = cut_off(most, mean, deviation)
        assert found == pytest.approx(sample.mean(), abs=FOUR_SIGMA * sample.std() / 200_000**0.5)
        assert variance == pytest.approx(sample.var(), rel=0.02)
    assert cut_off(1.0, 2.0, 0.0) == (1.0, 0.0)


def test_chances_are_those_of_the_normal_law():
    # JCGM 100:2008, table G.1: 95 per cent within 1.96 of the mean; 5 per cent below -1.645
    assert beyond(1.959964, 0.0, 1.0) == pytest.approx(0.05, abs=1e-6)
    assert below(-1.644854, 0.0, 1.0) == pytest.approx(0.05, abs=1e-6)
    assert (beyond(0.1, 0.2, 0.0), beyond(0.1, 0.0, 0.0)) == (1.0, 0.0)
    # always together, always opposed
    assert both_below((1.0, -0.5), 1.0) == pytest.approx(below(-0.5, 0.0, 1.0))
    assert both_below((0.0, 0.0), -1.0) == 0.0


# --------------------------------------------------------------- checked against virtual quilts (Monte Carlo)


def assert_agree(job: Job, hands: Hands, names: list[str] | None = None) -> VirtualQuilts:
    """First-order figures lie within four times the sampling error of 10,000 virtual quilts.

    The standard error of a mean is s/sqrt(N), that of a standard deviation s/sqrt(2N) where the law is
    normal; of a law cut off on one side it is larger, by its kurtosis, which the sample tells.
    """
    model = model_of(job, hands)
    found, sewn = propagated(model), virtual_quilts(model, 10_000)
    assert sewn.quilts == 10_000
    for name in names or list(model.sizes):
        for k in (0, 1):
            sample = sewn.dims[name][:, k]
            spread = sample.std()
            if spread < 1e-9:
                assert found[name].mean[k] == pytest.approx(sample[0], abs=1e-9)
                assert found[name].deviation[k] < 1e-6
                continue
            error = spread / len(sample) ** 0.5
            assert abs(found[name].mean[k] - sample.mean()) < FOUR_SIGMA * error, name
            fourth = (((sample - sample.mean()) / spread) ** 4).mean()
            error = spread * ((fourth - 1) / 4 / len(sample)) ** 0.5
            assert abs(found[name].deviation[k] - spread) < FOUR_SIGMA * error, name
    return sewn


def test_a_row_of_joins_agrees_with_virtual_quilts():
    job = planned("sea", across=9)
    assert_agree(job, replace(as_wide(job, spread="1/64", cut_spread="1/32"), cut_off=inches("1/64")))


def test_a_unit_made_two_at_a_time_and_trued_agrees_with_virtual_quilts():
    job = planned("sea.nw.sky sea\nsky sea", choices='[choices]\nhst = "two at a time"\n')
    sewn = assert_agree(job, as_wide(job, spread="1/64", cut_spread="1/64"))
    (made,) = sewn.made.values()
    unit = next(size for size in model_of(job, as_wide(job)).sizes.values() if isinstance(size, UnitSize))
    assert unit.truing == "ease"
    assert 0.05 < (made[:, 0] < unit.dims[0]).mean() < 0.95  # some come out small, some are trued


@pytest.mark.parametrize("needle", ["0", "1/64", "-1/64"])
def test_the_whole_throw_agrees_with_virtual_quilts(needle):
    job = example("harbour-lights")
    wide = inches("1/64")
    hands = hands_of(job.workroom, job.workroom.needle + inches(needle), None, wide, wide)
    sewn = assert_agree(job, hands)
    top = measure(job, hands).top
    for found, expected in zip(sewn.range_of(job.plan.finish.top), (top.lowest, top.highest), strict=True):
        # a quantile of 95 in 100: its standard error is about 2.7 s/sqrt(N)
        assert found == pytest.approx(expected, abs=FOUR_SIGMA * 2.7 * max(top.deviation) / 100)


def test_a_block_and_the_gaps_in_it_agree_with_virtual_quilts():
    job = example("metric-nets")
    hands = hands_of(job.workroom, mm("7.3"), None, mm("0.3"), mm("0.2"))
    sewn = assert_agree(job, hands)
    model = model_of(job, hands)
    found = propagated(model)
    (net,) = [m for m in mismatches_in("Net", model, found) if m.first != m.second]
    gaps = np.abs(sewn.gaps["Net", 0])
    ease = model.ease(found[net.first].dims[0])
    assert net.beyond == pytest.approx((gaps > ease).mean(), abs=FOUR_SIGMA * 0.5 / 100)
    assert net.deviation == pytest.approx(sewn.gaps["Net", 0].std(), rel=FOUR_SIGMA / 20_000**0.5)


def test_virtual_quilts_are_the_same_each_time_and_fewer_where_a_quilt_is_vast():
    job = planned(SQUARES)
    model = model_of(job, as_wide(job, spread="1/64"))
    one, two = virtual_quilts(model, 300), virtual_quilts(model, 300)
    assert np.array_equal(one.dims[model.top], two.dims[model.top])
    vast = replace(model, counts={name: count * 10_000 for name, count in model.counts.items()})
    # about 30 deviations for each of 10,000 tops, and 50 million in all
    with pytest.raises(MemoryError, match=r"asked for \(1\d\d, "):
        virtual_quilts(vast, 300, _Counting())


class _Counting:
    def standard_normal(self, size: tuple[int, ...]) -> np.ndarray:
        raise MemoryError(f"asked for {size}")


# -------------------------------------------------------------------------------- verdicts, and what to do


@pytest.mark.parametrize(
    ("off", "beyond_ease", "beyond_little", "verdict"),
    [
        (0.0, 0.0, 0.0, "fine"),
        (0.01, 0.01, 0.5, "ease"),
        (0.01, 0.2, 0.5, "sew again"),
        (-0.07, 0.9, 1.0, "true all up alike"),
    ],
)
def test_one_or_a_few_are_sewn_again_and_all_are_trued_up_alike(off, beyond_ease, beyond_little, verdict):
    # the verdict table of the job sheet, at an ease of 1/16 in
    assert judge(off, lambda limit: beyond_ease if limit == 0.0625 else beyond_little, 0.0625) == verdict


def test_blocks_that_all_come_out_small_are_told_and_what_joins_them_is_to_follow():
    job = example("harbour-lights")
    outlook = measure(job, steady(job, needle="1/64"))
    star = outlook.of("Lantern star")
    assert star.verdict == "true all up alike"
    assert star.do == "All come out 1/16 in small: keep them alike, and let what joins them follow that size."
    worst = outlook.mismatches[0]
    # arithmetic: both rows have ten seams, but a block row has those within its five blocks as well
    assert (worst.line, worst.verdict) == ("centre", "true all up alike")
    assert worst.do == f"Measure some of {worst.first}, and true all of sashing row up alike to that."
    assert outlook.of(job.plan.finish.top).verdict == "fine"  # borders are trimmed to the measured top


def test_where_it_hurts_most_comes_first_and_all_of_it_adds_up_to_the_top():
    job = example("harbour-lights")
    outlook = measure(job, hands_of(job.workroom, inches("1/4")))
    assert (outlook.contributions[0].name, outlook.contributions[0].cause) == ("centre", "seams")
    # arithmetic: twelve seams between rows, each takes twice 1/64 in more
    assert outlook.contributions[0].off == (pytest.approx(-12 / 32), 0.0)
    for k in (0, 1):
        off = sum(one.off[k] for one in outlook.contributions)
        assert off == pytest.approx(outlook.top.expected[k] - outlook.top.nominal[k])
        squares = sum(one.deviation[k] ** 2 for one in outlook.contributions)
        assert squares**0.5 == pytest.approx(outlook.top.deviation[k])


def test_starts_are_cut_so_much_larger_that_95_of_100_can_be_trued_and_no_sliver_is_trimmed():
    picture = "sky.n.sea - sky.nw.sea\nsea sea sky.ns.sea\nsea sea sea"
    pins = '[choices]\nhst = "eight at a time"\ngeese = "four at a time"\nhourglass = "two at a time"\n'
    job = planned(picture, choices=pins)
    hands = hands_of(job.workroom, inches("1/4"))
    outlook = measure(job, hands)
    assert {one.name.split()[0] for one in outlook.larger} == {"half-square", "flying", "hourglass"}
    for one in outlook.larger:
        recipe = job.things[one.name].recipe
        assert one.planned == recipe.sizing.cut
        assert all(job.workroom.ruler.shows(size) for size in one.larger)
        assert one.enough < 0.95 <= one.then_enough
        assert one.over <= 1 / 16 + 1e-3 or one.over >= 1 / 8 - 1e-3
        larger = replace(recipe, sizing=replace(recipe.sizing, cut=one.larger))
        assert _enough(job, one.name, larger, hands) >= 0.95 - FOUR_SIGMA * 0.5 / 100
        assert _enough(job, one.name, recipe, hands) == pytest.approx(one.enough, abs=FOUR_SIGMA * 0.5 / 100)
    # plane geometry: eight at a time S/2 - sqrt(2)s; 5 7/8 in is the first mark that leaves ease enough
    (hst,) = [one for one in outlook.larger if one.name.startswith("half")]
    assert hst.larger == (inches("5 7/8"),)


def _enough(job: Job, name: str, recipe, hands: Hands) -> float:
    """The share of virtual units that come out large enough both ways."""
    things = {**job.things, name: replace(job.things[name], recipe=recipe)}
    model = model_of(replace(job, things=things), hands)
    made = virtual_quilts(model, 10_000).made[name]
    return float((made >= np.array(model.sizes[name].dims)).all(axis=1).mean())


def test_no_start_is_cut_larger_where_nothing_is_trued_up_later():
    job = planned("sky.n.sea -\nsea sea", choices='[choices]\ngeese = "stitch and flip"\n')
    assert measure(job, as_wide(job, cut_spread="1/32")).larger == ()


def test_borders_follow_the_top_as_measured():
    job = example("harbour-lights")
    outlook = measure(job, steady(job, needle="1/64"))
    centre, sides = outlook.of("centre"), outlook.of("with side borders")
    assert sides.expected[0] == pytest.approx(centre.expected[0])
    # arithmetic: two border strips of 1 1/2 in, two seams of twice 17/64 in
    assert sides.expected[1] == pytest.approx(centre.expected[1] + 3 - 4 * 17 / 64)


def test_what_is_left_over_in_units_adds_up_where_it_is_not_worked_in():
    job = planned("sea.nw.sky", across=8, choices='[choices]\nhst = "two at a time"\n')
    outlook = measure(job, steady(job))
    # plane geometry: each unit is 6 7/8 - sqrt(2)/4 instead of 6 1/2 in
    assert outlook.left_in[0] == pytest.approx(8 * (6.875 - 2**0.5 / 4 - 6.5))
    assert outlook.top.expected == pytest.approx(outlook.top.nominal)


# ------------------------------------------------------------------------------------------------- hands


def test_hands_come_from_the_workroom_what_was_measured_or_strip_tests():
    room = Workroom()
    assert hands_of(room).take_up == room.take_up
    seam = own_seam([StripTest(3, inches("1 1/2"), inches("3 7/16"), inches("15/16"))], room)
    hands = hands_from(seam, room)
    # exact: t = (3 7/16 - 3 x 15/16)/2 = 5/16, w = 3 7/16 - 2 x 15/16
    assert (hands.take_up, hands.cut_off) == (inches("5/16"), inches("1/16"))
    assert seam_of(hands.at(room)).take_up == float(inches("5/16"))
    with pytest.raises(ValueError, match="expected needle from 1/16 in to 1 in, got 2 in"):
        hands_of(room, inches(2))
    with pytest.raises(ValueError, match="expected spread from 0 in to 1/8 in"):
        hands_of(room, spread=inches("1/2"))
