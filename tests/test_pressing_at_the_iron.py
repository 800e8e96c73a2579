"""Advice at the iron is chosen by the facts of a plan."""

import pytest

from piecewright.pressing.at_the_iron import LONG_BIAS, LONG_SEAM, IronFacts, advice

PLAIN = IronFacts(longest_seam=6.0)


def told(facts: IronFacts) -> str:
    return " ".join(advice(facts, "in"))


@pytest.mark.parametrize("words", ["Set every seam first", "Lift the iron", "the makers of both"])
def test_some_advice_is_always_right(words: str) -> None:
    assert words in told(PLAIN)


@pytest.mark.parametrize(
    ("facts", "words"),
    [
        (IronFacts(6.0, cut_on_bias=True), "Starch the cloth before it is cut"),
        (IronFacts(6.0, bias_edge=3.0), "No steam on bias edges"),
        (IronFacts(6.0, bias_seam=3.0), "No steam on bias edges"),
        (IronFacts(6.0, bias_edge=LONG_BIAS), "Stay-stitch long bias edges (here up to 8 in)"),
        (IronFacts(LONG_SEAM), "Press a long seam (the longest is 20 in) a hand's width at a time"),
        (IronFacts(6.0, opened=True), "with the tip of the iron"),
        (IronFacts(6.0, spun=True), "Where a seam changes side"),
    ],
)
def test_each_fact_brings_its_sentence_and_nothing_else_does(facts: IronFacts, words: str) -> None:
    assert words in told(facts)
    assert words not in told(PLAIN)


def test_a_short_bias_edge_and_a_short_seam_need_no_more() -> None:
    facts = told(IronFacts(LONG_SEAM - 0.1, bias_edge=LONG_BIAS - 0.1))
    assert "Stay-stitch" not in facts
    assert "hand's width" not in facts


def test_lengths_are_told_in_the_unit_of_the_quilt() -> None:
    assert "here up to 25.4 cm" in " ".join(advice(IronFacts(6.0, bias_edge=10.0), "cm"))
