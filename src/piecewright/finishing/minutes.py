"""Minutes by the person's own pace: of each step of a plan, and of the finishing after it; summed by station.

Terms:
- *pace*: seconds for one of each, and inches sewn in a minute, as the workroom has them;
- *finishing pace*: the same for what the workroom does not tell: basting, quilting, hemming by hand.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from piecewright.finishing.figures import in_unit, run_figure
from piecewright.finishing.how_quilted import QuiltedBy
from piecewright.finishing.step_work import StepWork, station_of
from piecewright.measure.length import Unit
from piecewright.methods.effort import SECONDS_PER_MINUTE
from piecewright.sewing.stations import Station
from piecewright.workroom.workroom import Pace

STATION_WORDS: Mapping[Station, str] = MappingProxyType(
    {
        Station.PIECE: "cutting",
        Station.UNIT: "units",
        Station.ASSEMBLY: "parts of blocks",
        Station.BLOCK: "blocks",
        Station.ROW: "rows",
        Station.STRIP: "long strips",
        Station.TOP: "top",
        Station.BACK: "backing",
        Station.BINDING: "binding strip",
    }
)


@dataclass(frozen=True)
class FinishingPace:
    """Inches in a minute, and minutes for a square yard (1296 square inches) of basting: from memory.

    One's own figures go before these.
    """

    quilted_by_hand: float = 1.5
    quilted_at_home: float = 30.0
    quilted_on_frame: float = 60.0
    hemmed_by_hand: float = 4.0
    basted: float = 15.0
    set_up: float = 10.0

    def quilted(self, by: QuiltedBy) -> float:
        """Inches of quilting in a minute."""
        at_home, on_frame = self.quilted_at_home, self.quilted_on_frame
        return {"hand": self.quilted_by_hand, "machine at home": at_home, "long frame": on_frame}[by]


@dataclass(frozen=True)
class StepMinutes:
    """The minutes of one step, by what the hands do."""

    work: StepWork
    marking: float
    cutting: float
    sewing: float
    pressing: float

    @property
    def all(self) -> float:
        """The minutes of the step."""
        return self.marking + self.cutting + self.sewing + self.pressing

    def sum_line(self, pace: Pace, unit: Unit) -> str:
        """The arithmetic of the minutes, in a line."""
        work = self.work
        parts = [
            f"{count:,} {what} x {seconds:g} s"
            for count, what, seconds in (
                (work.marks, "lines", pace.mark),
                (work.cuts, "cuts", pace.cut),
                (work.trued, "trued up", pace.true_up),
                (work.seams, "seams", pace.start_seam),
                (work.presses, "presses", pace.press),
            )
            if count
        ]
        if work.sewn:
            parts.append(_run_sum(work.sewn, pace.sew_inches, unit))
        return f"{work.told}: {' + '.join(parts) or 'no time'} = {self.all:,.1f} min"


def step_minutes(work: StepWork, pace: Pace) -> StepMinutes:
    """The minutes that a step takes at one's own pace."""
    return StepMinutes(
        work,
        marking=work.marks * pace.mark / SECONDS_PER_MINUTE,
        cutting=(work.cuts * pace.cut + work.trued * pace.true_up) / SECONDS_PER_MINUTE,
        sewing=work.seams * pace.start_seam / SECONDS_PER_MINUTE + work.sewn / pace.sew_inches,
        pressing=work.presses * pace.press / SECONDS_PER_MINUTE,
    )


@dataclass(frozen=True)
class StationMinutes:
    """The minutes of a station, with how they come about, a line for each thing that is done there."""

    name: str
    minutes: float
    sums: tuple[str, ...] = ()


@dataclass(frozen=True)
class Minutes:
    """All minutes of a quilt: of each step of its plan, and by station, those of finishing last."""

    steps: tuple[StepMinutes, ...]
    stations: tuple[StationMinutes, ...]

    @property
    def all(self) -> float:
        """The minutes of the whole quilt."""
        return sum(station.minutes for station in self.stations)


def minutes_of(
    steps: Sequence[StepWork],
    pace: Pace,
    stations: Mapping[str, Station],
    ways: int = 0,
    finishing: Sequence[StationMinutes] = (),
) -> Minutes:
    """The minutes of the steps and of the finishing, at one's own pace.

    `stations` tell where each pile is made; for each of so many `ways` of making units one gets ready once.
    """
    told = tuple(step_minutes(step, pace) for step in steps)
    by_station = {
        station: [one for one in told if station_of(one.work, stations) is station] for station in Station
    }
    found = [_station(station, steps, pace) for station, steps in by_station.items() if steps]
    ready = ways * pace.set_up / SECONDS_PER_MINUTE
    if ways:
        said = f"getting ready for {ways} {'way' if ways == 1 else 'ways'} of making units"
        set_up = StationMinutes(
            "getting ready", ready, (f"{said}: {ways} x {pace.set_up:g} s = {ready:,.1f} min",)
        )
        found.insert(0, set_up)
    return Minutes(told, (*found, *finishing))


def _station(station: Station, steps: Sequence[StepMinutes], pace: Pace) -> StationMinutes:
    cutting, marking = sum(step.cutting for step in steps), sum(step.marking for step in steps)
    sewing, pressing = sum(step.sewing for step in steps), sum(step.pressing for step in steps)
    hands = (("cutting", cutting), ("marking", marking), ("sewing", sewing), ("pressing", pressing))
    parts = " + ".join(f"{minutes:,.1f} {what}" for what, minutes in hands if minutes)
    whole = cutting + marking + sewing + pressing
    line = f"{STATION_WORDS[station]}: {parts or 'no time'} = {whole:,.1f} min"
    return StationMinutes(STATION_WORDS[station], whole, (line,))


def _run_sum(length: float, pace: float, unit: Unit) -> str:
    return f"{run_figure(length, unit)} / {in_unit(pace, unit):.3g} {unit} a minute"


def run_minutes(name: str, done: Sequence[tuple[str, float, float]], unit: Unit) -> StationMinutes:
    """The minutes of a station where runs are sewn: each what, how many inches, how many in a minute.

    Told in `unit`.
    """
    lines = [
        f"{what}: {_run_sum(length, pace, unit)} = {length / pace:,.1f} min"
        for what, length, pace in done
        if length
    ]
    return StationMinutes(name, sum(length / pace for _, length, pace in done), tuple(lines))


def with_more(station: StationMinutes, what: str, minutes: float) -> StationMinutes:
    """The station with something more that takes so many minutes."""
    line = f"{what}: {minutes:,.1f} min"
    return StationMinutes(station.name, station.minutes + minutes, (line, *station.sums))
