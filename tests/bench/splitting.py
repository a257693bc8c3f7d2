"""The split of large farms, beside HiGHS: 8 lots, 200 fields, 40 buyers, ten seeds; with litter as generated (some 80
ton a lot) and scaled until fields bind. HiGHS (scipy.optimize.milp) gets a plain program, written from the problem,
and the very rows that GLPK gets, each for as long as TIME_LIMIT; it has to reach the goals before the net return first.
Each heuristic around GLPK is left out in turn: what it does not earn tells what can go (dive is all that quick problems
have). Growth: fields from 10 to 2,000. BENCH_SEEDS and BENCH_HIGHS (farms given to HiGHS) make a shorter run."""
import json
import os
import statistics
import sys
import time

from tools import HERE, Row, Wrong

sys.path.insert(0, str(HERE.parent))
SEEDS, HIGHS = int(os.environ.get("BENCH_SEEDS", 10)), int(os.environ.get("BENCH_HIGHS", 2))
SIZE, FILLS, STACK, TIME_LIMIT = (8, 200, 40), {"as generated": 0, "fields bind": 1.1}, 0, 60
PARTS = ("dive", "improve", "tree", "cuts", "branch", "round", "top_up", "arrange", "few")  # see without.h
GROWTH = (10, 100, 1000, 2000)


def split(tools, seed, fill, size=SIZE, stack=STACK, *without):
    return tools.say(tools.tool, "split", seed, *size, fill, stack, *without)


def percent(told):
    return 100 * told["return-gap"] / told["turnover"]


def of_fill(name, told):
    took = [t["seconds"] for t in told]
    tons = [100 * t["tons-gap"] / t["tons"] for t in told]
    gaps = [percent(t) for t in told]
    peak = max(t["peak"] for t in told) / 1024
    return [
        Row(f"split, {name}", f"{SEEDS} farms: {min(took):.2f} to {max(took):.2f} s, work of the median "
            f"{statistics.median(t['work'] for t in told):.2f} s; peak {peak:.0f} MiB", statistics.median(took), "s median", most=3),
        Row("slowest", f"loads {max(t['loads'] for t in told):.0f}", max(took), "s", most=15),
        Row("tons proven", f"{sum(gap == 0 for gap in tons)} of {SEEDS} exactly; median gap {statistics.median(tons):.4f} %",
            max(tons), "% widest gap", most=0),
        Row("net return proven", f"of turnover, median {statistics.median(gaps):.3f} %; drops: "
            f"{sum(t['drops-gap'] for t in told):.0f} of {sum(t['drops'] for t in told):.0f} open",
            max(gaps), "% widest gap", most=0.2),
    ]


def earned(tools, name, fill, stack, told, part):
    """What a heuristic around GLPK earns: the same farms without it, in sums over all of them. Goals are lexicographic:
    dollars count where tons are equal. The work is in nodes and pivots counted, and seconds."""
    bare = [split(tools, seed, fill, SIZE, stack, part) for seed in range(1, SEEDS + 1)]
    key = lambda t: (t["tons"], -t["short"], round(t["return"], 2), -t["drops"])
    more = {goal: sum(b[goal] - t[goal] for b, t in zip(bare, told))
            for goal in ("tons", "tons-gap", "short", "return", "return-gap", "drops")}
    work = {what: sum(b[what] for b in bare) / max(1, sum(t[what] for t in told)) - 1 for what in ("nodes", "pivots", "work")}
    return Row(f"without {part}", f"{name}: worse on {sum(key(b) < key(t) for b, t in zip(bare, told))} farms, better on "
               f"{sum(key(b) > key(t) for b, t in zip(bare, told))}; tons {more['tons']:+.2f} (gap {more['tons-gap']:+.2f}), "
               f"short {more['short']:+.2f}, ${more['return']:+.0f} (gap {more['return-gap']:+.0f}), drops {more['drops']:+.0f}; "
               f"nodes {work['nodes']:+.0%}, pivots {work['pivots']:+.0%}, time {work['work']:+.0%}")


def earnings(tools, name, fill, told):
    rows = [earned(tools, name, fill, STACK, told, part) for part in PARTS]
    stacked = [split(tools, seed, fill, SIZE, 1) for seed in range(1, SEEDS + 1)]
    return rows + [earned(tools, f"{name}, a stack", fill, 1, stacked, "stack_up")]


def highs_seconds(program, goals):
    """Goal by goal up to the net return; seconds, and the gap that stayed open (None: no answer)."""
    begun, held = time.monotonic(), {}
    for goal in ("tons", "short", "return"):
        left = TIME_LIMIT - (time.monotonic() - begun)
        best, bound = program.solve(goal, held, max(left, 0.1))
        if best is None:
            return TIME_LIMIT, None
        held[goal] = best
    return time.monotonic() - begun, abs(bound - best)


def against_highs(tools, name, fill):
    try:
        import highs
    except ImportError as absent:
        return [Row(f"HiGHS, {name}", f"not measured: {absent}")]
    ratios, words = {"plain": [], "same rows": []}, []
    for seed in range(1, HIGHS + 1):
        told = json.loads(tools.text(tools.tool, "problem", seed, *SIZE, fill, STACK))
        own = split(tools, seed, fill)["seconds"]
        for kind, program in (("plain", highs.plain(told)), ("same rows", highs.strengthened(told))):
            seconds, gap = highs_seconds(program, told["goals"])
            ratios[kind].append(seconds / own)
            words.append(f"farm {seed}, {kind}: {seconds:.1f} s, "
                         + ("no answer" if gap is None else f"${gap:.0f} open") + f" (own {own:.1f} s, "
                         f"${told['goals']['return'][2]:.0f} open)")
    text = f"limit {TIME_LIMIT} s; " + "; ".join(words)
    return [Row(f"HiGHS same rows, {name}", text, statistics.median(ratios["same rows"]), "x as long", least=1),
            Row(f"HiGHS plain, {name}", "as above", statistics.median(ratios["plain"]), "x as long", least=10)]


def growth(tools):
    told = [split(tools, 1, 0, (8, n, max(1, n // 5))) for n in GROWTH]
    words = ", ".join(f"{n:,}: {t['seconds']:.2f} s, {t['peak'] / 1024:.0f} MiB" for n, t in zip(GROWTH, told))
    each = [t["seconds"] / n for t, n in zip(told, GROWTH)]
    return [Row("split by fields", f"8 lots; fields {words}", each[-1] / each[-2], f"x {GROWTH[-2]:,}'s", most=1.5),
            Row("memory", "of 2,000 fields", told[-1]["peak"] / told[-2]["peak"], f"x {GROWTH[-2]:,}'s", most=2.2)]


def measure(tools):
    rows = []
    for name, fill in FILLS.items():
        told = [split(tools, seed, fill) for seed in range(1, SEEDS + 1)]
        if any(t["tons"] <= 0 for t in told):
            raise Wrong(f"a split of {name} that places nothing")
        rows += of_fill(name, told) + earnings(tools, name, fill, told) + against_highs(tools, name, fill)
    return rows + growth(tools)
