"""What stands on every sheet, whatever the quilt: the verdicts of a check and the cautions."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Verdict:
    """One answer of a check: the verdict, when it is given, and what to do then."""

    verdict: str
    when: str
    do: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Caution:
    """Something that can hurt, and how it does not."""

    about: str
    words: str


# A check ends in a verdict; trimming all to the smallest would make every other part too large for them.
VERDICTS = (
    Verdict(verdict="fine", when="It measures what the sheet says.", do="Go on."),
    Verdict(
        verdict="ease",
        when="It is over or under by no more than the ease.",
        do="Leave it as it is; pin the ends and work the difference in.",
    ),
    Verdict(
        verdict="sew again",
        when="One or a few are out by more.",
        do="Open the seam, check the quarter inch, sew it again.",
    ),
    Verdict(
        verdict="true all up alike",
        when="All are out by the same amount.",
        do="Trim all to one size that the rest of the quilt can follow, and note that size here. "
        "Never trim all to the smallest.",
    ),
)

CAUTIONS = (
    Caution(
        about="Rotary cutter",
        words="Close the blade every time it leaves your hand, even for a moment. Cut away from yourself, "
        "standing, with the fingers well back from the ruler's edge; a guard on the ruler or a cut-proof "
        "glove keeps them there. Change a dull blade: it slips. Wrap old blades before you throw them away. "
        "Keep it where no child can reach it.",
    ),
    Caution(
        about="Iron",
        words="Lift it and set it down; stand it on its heel or in its rest, never face down. Steam burns "
        "too. Keep the cord where nobody trips over it, and pull the plug when you leave the room.",
    ),
    Caution(
        about="Needles and pins",
        words="Count them when you start and count them again when you stop; look for the missing one before "
        "anybody sits down. Take pins out before the machine's needle gets to them. Put broken needles in "
        "a closed tin.",
    ),
    Caution(
        about="Babies",
        words="No quilt in a baby's cot in the first year, however light: nothing loose over, under or "
        "beside a sleeping baby. Follow your local safe-sleep advice.",
    ),
    Caution(
        about="Local rules",
        words="Where your class, workshop or country has rules of its own for tools, wiring or things made "
        "for children, those come first.",
    ),
)
