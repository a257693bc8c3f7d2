"""Sampling against the same graph in numpy, how time and memory grow with draws."""
import importlib.util
import math

from tools import DEMO, Row, Wrong, in_turn

DRAWS, MANY = 200_000, 1_000_000
STANDARD_ERRORS = 5


def compare_points(ours, theirs):
    """Two independent sets of as many draws: their difference has sqrt(2) times the error of one."""
    if ours.keys() != theirs.keys() or not ours:
        raise Wrong(f"littershed and numpy drew different lines: {sorted(ours.keys() ^ theirs.keys())}")
    worst = 0.0
    for key, points in ours.items():
        for k, name in enumerate(("10 %", "50 %", "90 %")):
            apart = abs(points[k] - theirs[key][k])
            error = math.sqrt(2) * theirs[key][3 + k]
            if apart > STANDARD_ERRORS * error:
                raise Wrong(f"{key}: {name} point {points[k]} by littershed, {theirs[key][k]} by numpy, "
                            f"standard error of the difference {error}")
            worst = max(worst, apart / error if error else 0.0)
    return worst


def against_numpy(tools):
    (tools.folder / "graph.py").write_text(export(tools))
    ours = tools.say(tools.tool, "graph", MANY, 1, *DEMO)["points"]
    if tools.say(tools.tool, "graph", MANY, 2, *DEMO)["points"] != ours:
        raise Wrong("two threads do not give the points of one")
    worst = compare_points(ours, tools.numpy("graph", MANY)["points"])
    leaves, their_leaves, one, theirs, two = in_turn(
        7,
        lambda: tools.say(tools.tool, "leaves", DRAWS, *DEMO),
        lambda: tools.numpy("leaves", DRAWS),
        lambda: tools.say(tools.tool, "graph", DRAWS, 1, *DEMO),
        lambda: tools.numpy("graph", DRAWS),
        lambda: tools.say(tools.tool, "graph", DRAWS, 2, *DEMO))

    def row(what, a, b, least, more=""):
        return Row(what, f"{DRAWS / a['seconds']:,.0f} draws/s, numpy {DRAWS / b['seconds']:,.0f}{more}",
                   b["seconds"] / a["seconds"], "x as fast", least=least)
    return [
        Row("same points as numpy", f"{3 * len(ours)} points, {MANY:,} draws; farthest apart", worst,
            "std. errors", most=STANDARD_ERRORS),
        row("leaves alone, one thread", leaves, their_leaves, 1),
        row("whole graph, one thread", one, theirs, 2),
        row("whole graph, two threads", two, theirs, 3.5, f"; {two['cores']:.1f} cores got"),
    ]


def export(tools):
    import subprocess
    return subprocess.run([tools.tool, "numpy", *DEMO], capture_output=True, text=True, check=True).stdout


def growth_with_draws(tools):
    few, many = in_turn(3, lambda: tools.say(tools.tool, "graph", MANY // 10, 1, *DEMO),
                        lambda: tools.say(tools.tool, "graph", MANY, 1, *DEMO))
    block, blocks, million = in_turn(3, *(lambda n=n: tools.process("estimate", "--draws", n, *DEMO)
                                          for n in (10_000, 20_000, MANY)))
    return [
        Row("time by draws", f"{MANY // 10:,}: {few['seconds']:.3f} s, {MANY:,}: {many['seconds']:.3f} s",
            many["seconds"] / few["seconds"] / 10, "x linear", most=1.1),
        Row("memory by draws", f"10,000 (one thread): {block['peak'] / 1024:.1f} MiB, 20,000 (two): "
            f"{blocks['peak'] / 1024:.1f}, {MANY:,}: {million['peak'] / 1024:.1f}",
            million["peak"] / blocks["peak"], "x of 20,000", most=1.05),
        Row("estimate, a million draws", "whole process", million["seconds"], "s", most=3),
    ]


def measure(tools):
    if importlib.util.find_spec("numpy") is None:
        rows = [Row("against numpy", "not measured: python3-numpy is not installed")]
    else:
        rows = against_numpy(tools)
    return rows + growth_with_draws(tools)
