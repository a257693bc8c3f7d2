"""What the subjects of the bench share: running things, medians, rows of the table."""
import os
import statistics
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

HERE = Path(__file__).parent
DEMO_HOUSE = HERE.parent.parent / "fixtures" / "demo-house.yaml"
DEMO_FIELDS = HERE.parent.parent / "fixtures" / "demo-fields.yaml"
DEMO = [str(DEMO_HOUSE), str(DEMO_FIELDS)]


class Wrong(Exception):
    """A wrong result: the one thing that fails the bench."""


@dataclass
class Row:
    what: str
    measured: str  # what was measured, in words
    figure: float = None  # what the aim is about
    unit: str = ""
    most: float = None  # the aim: at most, or
    least: float = None  # at least


@dataclass
class Tools:
    program: str  # littershed
    tool: str  # the bench's own
    folder: Path  # for files of this run

    def say(self, *command):
        """Run it; its words by their first word; points by key."""
        environment = {k: v for k, v in os.environ.items() if k not in ("OPENBLAS_CORETYPE", "OPENBLAS_L2_SIZE")}
        run = subprocess.run([str(c) for c in command], capture_output=True, text=True, env=environment)
        if run.returncode != 0:
            raise Wrong(f"{' '.join(map(str, command))}: exit {run.returncode}\n{run.stderr}")
        told = {"points": {}}
        for line in (run.stdout + run.stderr).splitlines():
            word, *rest = line.split()
            if word == "points":
                told["points"][rest[0]] = [float(v) for v in rest[1:]]
            else:
                told[word] = float(rest[0])
        return told

    def text(self, *command):
        """What it writes, as it is."""
        run = subprocess.run([str(c) for c in command], capture_output=True, text=True)
        if run.returncode != 0:
            raise Wrong(f"{' '.join(map(str, command))}: exit {run.returncode}\n{run.stderr}")
        return run.stdout

    def process(self, *arguments):
        """Seconds and peak (KiB) of a whole run of littershed."""
        return self.say(self.tool, "run", self.program, *arguments)

    def numpy(self, what, draws):
        return self.say(sys.executable, HERE / "numpy_side.py", self.folder, what, draws)


def in_turn(rounds, *things):
    """Run the things A B A B ..., so that a busy moment of the machine hits all alike; for each the median of
    every figure it told."""
    told = [[] for _ in things]
    for _ in range(rounds):
        for i, thing in enumerate(things):
            told[i].append(thing())
    return [{k: statistics.median(t[k] for t in some) for k in some[0] if k != "points"} for some in told]
