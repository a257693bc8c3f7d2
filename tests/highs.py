"""highs.py TOOL: the split beside HiGHS (scipy.optimize.milp), goal by goal, on 50 small farms made by chance.

Twice: on the program as GLPK is given it (its rows), and on a plain one written here from the problem alone, without any
row that only strengthens. Each goal is solved by HiGHS with the goals before held at what littershed reached; HiGHS's
optimum must lie between littershed's value and its bound, so where littershed says gap 0 the two are equal."""
import json
import math
import subprocess
import sys

import numpy
from scipy.optimize import Bounds, LinearConstraint, milp
from scipy.sparse import coo_array

INFEASIBLE = 2  # status of scipy.optimize.milp
FARMS, NEAR = 50, 0.011  # tons are decided to 0.01; a gap below that is told as 0
GOALS = ("tons", "short", "return")
MOST = {"tons": True, "short": False, "return": True}


class Program:
    """Columns (whole, low, high) and rows (low, high, terms {column: value}); goals are terms and a constant."""

    def __init__(self):
        self.columns, self.rows, self.goals = [], [], {}

    def column(self, whole, low, high):
        self.columns.append((whole, low, high))
        return len(self.columns) - 1

    def row(self, low, high, terms):
        self.rows.append((low, high, terms))

    def solve(self, goal, held, seconds=None):
        """The best of a goal, and a bound: both None if no answer was found in time."""
        rows = list(self.rows)
        for name, value in held.items():
            terms, constant = self.goals[name]
            low, high = (value - 1e-5 - constant, math.inf) if MOST[name] else (-math.inf, value + 1e-5 - constant)
            rows.append((low, high, terms))
        at = [(i, j, v) for i, (_, _, terms) in enumerate(rows) for j, v in terms.items()]
        i, j, v = zip(*at)
        matrix = coo_array((v, (i, j)), shape=(len(rows), len(self.columns))).tocsr()
        terms, constant = self.goals[goal]
        sign = -1 if MOST[goal] else 1
        cost = numpy.zeros(len(self.columns))
        for k, value in terms.items():
            cost[k] = sign * value
        options = {"mip_rel_gap": 0}
        if seconds is not None:
            options["time_limit"] = seconds
        whole, low, high = (numpy.array(x, dtype=float) for x in zip(*self.columns))
        limits = LinearConstraint(matrix, [r[0] for r in rows], [r[1] for r in rows])
        found = milp(cost, integrality=whole, bounds=Bounds(low, high), options=options, constraints=limits)
        if found.status == INFEASIBLE:  # its presolving is known to say so of programs that have an answer
            options["presolve"] = False
            found = milp(cost, integrality=whole, bounds=Bounds(low, high), options=options, constraints=limits)
        if found.x is None:
            return None, None
        bound = found.mip_dual_bound if found.mip_dual_bound is not None else found.fun
        return sign * found.fun + constant, sign * bound + constant


def given(value, otherwise):
    return otherwise if value is None else value


def strengthened(told):
    """The rows that GLPK was given."""
    p, program = Program(), told["program"]
    for whole, low, high in program["columns"]:
        p.column(whole, low, given(high, math.inf) if given(high, math.inf) < 1e100 else math.inf)
    for low, high, terms in program["rows"]:
        p.row(given(low, -math.inf), given(high, math.inf), dict(zip(terms[::2], terms[1::2])))
    for goal in GOALS:
        p.goals[goal] = (p.rows[program[goal]][2], program["shift"] if goal == "return" else 0)
    return p


class Plain:
    """The problem in its own words: a lot's full loads and one part load to each buyer or the stack, tons on fields of
    a drop at least, trips out of the stack field by field."""

    def __init__(self, told):
        self.q = q = told["problem"]
        self.p = Program()
        self.lots, self.buyers, self.fields = len(q["tons"]), len(q["trip_cost"]), len(q["buyer"])
        self.drop, self.stack = q["smallest_drop"], q["stack_room"] > 0
        self.tons, self.money, self.short = {}, {}, {}
        self.columns()
        self.lots_rows()
        for f in range(self.fields):
            self.field_row(f)
        for b in range(self.buyers):
            self.order_rows(b)
        self.p.goals = {"tons": (self.tons, 0), "short": (self.short, 0), "return": (self.money, 0)}

    def columns(self):
        self.full, self.part, self.some, self.on, self.out, self.out_trips = {}, {}, {}, {}, {}, {}
        for i, payload in enumerate(self.q["payload"]):
            for to in range(self.buyers + self.stack):
                self.full[i, to] = self.p.column(True, 0, math.inf)
                self.part[i, to] = self.p.column(False, 0, payload)
                self.some[i, to] = self.drops(self.part[i, to], payload)
            for f in range(self.fields):
                self.pair(i, f, payload)

    def drops(self, column, most):
        """0, or a drop at least and most at most."""
        used = self.p.column(True, 0, 1)
        self.p.row(-math.inf, 0, {column: 1, used: -most})
        self.p.row(0, math.inf, {column: 1, used: -self.drop})
        return used

    def pair(self, i, f, payload):
        at = i * self.fields + f
        if self.q["use"][at] is None:
            return
        most = min(self.q["tons"][i], math.floor(self.q["capacity"][f] / self.q["use"][at] * 100 + 1e-6) / 100)
        if self.q["open"][at]:
            self.on[i, f] = self.p.column(False, 0, most)
            self.drops(self.on[i, f], self.q["tons"][i])
            self.money[self.on[i, f]] = self.q["value"][at]
            self.tons[self.on[i, f]] = 1
        if self.stack and self.q["later"][at]:
            out = self.out[i, f] = self.p.column(False, 0, most)
            self.drops(out, self.q["tons"][i])
            trips = self.out_trips[i, f] = self.p.column(True, 0, math.inf)
            self.p.row(0, payload - 0.01, {trips: payload, out: -1})
            self.p.row(0, math.inf, {trips: -self.drop, out: 1})
            self.money[out] = self.q["later_value"][at]
            self.money[trips] = -self.q["trip_cost"][self.q["buyer"][f]]
            self.tons[out] = 1

    def lots_rows(self):
        in_stack = {}
        for i, payload in enumerate(self.q["payload"]):
            gone, parts = {}, {}
            for to in range(self.buyers + self.stack):
                sent = {self.full[i, to]: payload, self.part[i, to]: 1}
                gone.update(sent)
                parts[self.some[i, to]] = 1
                if to == self.buyers:
                    in_stack.update(sent)
                    for column, value in sent.items():
                        self.money[column] = self.q["stack_value"] * value
                    waits = {self.out[key]: -1 for key in self.out if key[0] == i}
                    self.p.row(0, payload - 0.01, {**sent, **waits})
                else:
                    self.money[self.full[i, to]] = self.money[self.some[i, to]] = -self.q["trip_cost"][to]
                    carries = {self.on[key]: -1 for key in self.on if key[0] == i and self.q["buyer"][key[1]] == to}
                    self.p.row(0, 0, {**sent, **carries})
            self.p.row(-math.inf, self.q["tons"][i], gone)
            self.p.row(-math.inf, 1, parts)
        if self.stack:
            for i, slopes in enumerate(self.q["pile"]):
                sent = {self.full[i, self.buyers]: self.q["payload"][i], self.part[i, self.buyers]: 1}
                piled = self.p.column(True, 0, 1)
                self.p.row(-math.inf, 0, {**sent, piled: -self.q["tons"][i]})
                in_stack[piled] = slopes
            self.p.row(-math.inf, self.q["stack_room"], in_stack)

    def field_row(self, f):
        """Where all that may go there use it alike, it takes a whole number of hundredths of a ton."""
        columns = [(group[i, f], self.q["use"][i * self.fields + f])
                   for group in (self.on, self.out) for i in range(self.lots) if (i, f) in group]
        capacity = self.q["capacity"][f]
        uses = {use for _, use in columns}
        if len(uses) == 1:
            tons = math.floor(capacity / uses.pop() * 100 + 1e-6) / 100
            self.p.row(-math.inf, tons, {c: 1 for c, _ in columns})
        elif columns:
            self.p.row(-math.inf, capacity, dict(columns))

    def order_rows(self, b):
        tons, trips = {}, {}
        for i, payload in enumerate(self.q["payload"]):
            tons.update({self.full[i, b]: payload, self.part[i, b]: 1})
            trips.update({self.full[i, b]: 1, self.some[i, b]: 1})
        for (i, f), column in self.out.items():
            if self.q["buyer"][f] == b:
                tons[column] = 1
                trips[self.out_trips[i, f]] = 1
        self.p.row(-math.inf, given(self.q["most"][b], math.inf), tons)
        self.p.row(-math.inf, given(self.q["most_loads"][b], math.inf), trips)
        if self.q["least"][b] > 0 or self.q["least_loads"][b] > 0:
            lacks, load = self.p.column(False, 0, math.inf), max(self.q["payload"])
            self.short[lacks] = 1
            self.p.row(self.q["least"][b], math.inf, {**tons, lacks: 1})
            self.p.row(load * self.q["least_loads"][b], math.inf,
                       {**{c: load for c in trips}, lacks: 1})


def plain(told):
    return Plain(told).p


def told_by(tool, *arguments):
    run = subprocess.run([tool, "problem", *map(str, arguments)], capture_output=True, text=True, check=True)
    return json.loads(run.stdout)


def wrong(program, goals, goal):
    """HiGHS's optimum where it does not lie between value and bound; else None."""
    value, bound, gap = goals[goal]
    held = {name: goals[name][0] for name in GOALS[:GOALS.index(goal)]}
    best, _ = program.solve(goal, held)
    if best is None:
        return "no answer"
    low, high = (value, bound) if MOST[goal] else (bound, value)
    return None if low - NEAR <= best <= high + NEAR else f"{best:.4f} is not within {low:.4f} ... {high:.4f}"


def main(tool):
    passed = failed = proven = 0
    for seed in range(1, FARMS + 1):
        told = told_by(tool, seed)
        for kind, program in (("plain", plain(told)), ("same rows", strengthened(told))):
            for goal in GOALS:
                fault = wrong(program, told["goals"], goal)
                passed, failed = passed + (fault is None), failed + (fault is not None)
                proven += told["goals"][goal][2] == 0
                if fault is not None:
                    print(f"farm {seed}, {kind}, {goal}: {fault}")
    print(f"{proven} of {passed + failed} goals proven by littershed")
    print(f"tests against HiGHS: {passed} passed {failed} failed")
    return failed > 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
