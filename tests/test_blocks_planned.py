"""Every traditional block is planned from its file alone, and the plan replays to the block that is drawn."""

import pytest

from piecewright.bench.steps import Close, Join
from piecewright.blocks.reading import find, traditional_blocks
from piecewright.blocks.traditional import Traditional
from piecewright.cli.blocks import facts_of
from piecewright.planning.job import Job
from piecewright.planning.make_plan import make_plan
from piecewright.workroom.workroom import default_workroom

BLOCKS = {block.key: block for block in traditional_blocks()}


def planned(block: Traditional) -> Job:
    return make_plan(block.design, default_workroom(block.design.unit))


def test_there_are_at_least_eighty() -> None:
    assert len(BLOCKS) >= 80


@pytest.mark.parametrize("key", sorted(BLOCKS))
def test_it_is_planned_and_made_as_drawn(key: str) -> None:
    job = planned(BLOCKS[key])
    assert (job.replay.made_as_drawn, job.replay.problems) == (True, ())
    assert job.replay.patches == BLOCKS[key].block.patch_count


@pytest.mark.parametrize("key", sorted(BLOCKS))
def test_what_is_told_of_it_agrees_with_its_steps(key: str) -> None:
    """What is set in or sewn in part is told, and nothing else is."""
    facts, steps = facts_of(BLOCKS[key]), planned(BLOCKS[key]).plan.steps
    own = [step for step in steps if isinstance(step, Join) and step.gives.startswith(BLOCKS[key].name)]
    turned = any(len(part.exit) > 1 for step in own for part in step.parts)
    closed = any(isinstance(step, Close) for step in steps)
    assert bool(facts.notes) == (turned or closed or any(step.part_sewn for step in own))


def test_a_block_of_straight_seams_has_nothing_to_tell() -> None:
    assert facts_of(find("churn dash")).notes == ()
