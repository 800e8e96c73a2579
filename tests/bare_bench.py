"""A process that has only a bench: it replays plans, and cannot plan.

Run as a script it reads one JSON object a line, `{"design": TEXT, "plan": TEXT}`, and answers each with a
line. Whatever chooses or writes steps cannot be imported there, so that nothing of it can leak into a replay.
"""

from __future__ import annotations

import json
import subprocess
import sys
from importlib import import_module
from pathlib import Path
from types import TracebackType

NOT_HERE = ("planning", "methods", "piecing", "batches", "cutting", "pressing", "sewing", "finishing")


class BareBench:
    """The process, for as long as a test needs it."""

    def __enter__(self) -> BareBench:
        self.process = subprocess.Popen(
            [sys.executable, str(Path(__file__))], stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
        )
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        assert self.process.stdin
        assert self.process.stdout
        self.process.stdin.close()
        self.process.wait(timeout=10)
        self.process.stdout.close()

    def replay(self, design: str, plan: str) -> dict[str, object]:
        """What came of a plan: `made`, `problems`, `operations`, and `loaded`, what was imported."""
        return self._ask({"design": design, "plan": plan})

    def refused(self, module: str) -> object:
        """Why a module cannot be imported there; None when it can."""
        return self._ask({"import": module})["refused"]

    def _ask(self, question: dict[str, str]) -> dict[str, object]:
        assert self.process.stdin
        assert self.process.stdout
        self.process.stdin.write(json.dumps(question) + "\n")
        self.process.stdin.flush()
        line = self.process.stdout.readline()
        assert line, "the bare process has ended"
        answer: dict[str, object] = json.loads(line)
        return answer


class _Blocker:
    """Refuses to find the packages that plan."""

    def find_spec(self, name: str, path: object = None, target: object = None) -> None:
        package, _, inner = name.partition(".")
        if package == "piecewright" and inner.partition(".")[0] in NOT_HERE:
            raise ImportError(f"{name} cannot be imported on a bare bench")


def serve() -> None:
    """Answers line by line until the input ends."""
    sys.meta_path.insert(0, _Blocker())  # type: ignore[arg-type]
    from piecewright.bench.plan_file import plan_from_text
    from piecewright.bench.replay import replay
    from piecewright.design.draw_quilt import draw_quilt
    from piecewright.design.model import fabric_of
    from piecewright.design.read import design_from
    from piecewright.toml_places import toml_from_text

    def replayed(text: str, plan: str) -> dict[str, object]:
        design, _ = design_from(toml_from_text(text, "random.toml"))
        assert design is not None
        fabrics = {role.key: fabric_of(design, role.key) for role in design.roles}
        verdict = replay(plan_from_text(plan), draw_quilt(design).top, fabrics)
        return {
            "made": verdict.made_as_drawn,
            "problems": [*map(str, verdict.problems)],
            "operations": verdict.operations,
            "loaded": [name for name in sys.modules if name.startswith("piecewright.")],
        }

    for line in sys.stdin:
        asked = json.loads(line)
        answer = _imported(asked["import"]) if "import" in asked else replayed(asked["design"], asked["plan"])
        print(json.dumps(answer), flush=True)


def _imported(module: str) -> dict[str, object]:
    try:
        import_module(module)
    except ImportError as error:
        return {"refused": str(error)}
    return {"refused": None}


if __name__ == "__main__":
    serve()
