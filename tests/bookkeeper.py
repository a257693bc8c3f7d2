"""A second bookkeeper: the books and the findings of random farms of three years, by other code.

    python3 -B tests/bookkeeper.py build/littershed [FARMS [FIRST]]

Each farm's files and haul logs are written, `dossier` reads them, and what it says is compared with
what bookkeeping/ reckons from the model: balances, years, months and periods, tons by receiver and
field, parts of loads, corrections, days in the stack, and every finding with its class, field and
entries. Then breaches are put into a clean log, one at a time.
"""
import collections
import datetime
import json
import multiprocessing
import os
import random
import subprocess
import sys
import tempfile

from bookkeeping import breaches
from bookkeeping.books import Books
from bookkeeping.farms import Farm, write
from bookkeeping.findings import Audit, Finding

LB = {"tons": "tons", "N": "N_lb", "P2O5": "P2O5_lb", "K2O": "K2O_lb"}


class Comparison:
    """What differs between the program's dossier and the books of one farm."""

    def __init__(self, told, books):
        self.told, self.books = told, books
        self.wrong = []

    def same(self, what, theirs, ours):
        if theirs != ours:
            self.wrong.append(f"{what}: the program says {theirs}, the books {ours}")

    def near(self, what, theirs, ours, unit="tons"):
        close = abs((theirs or 0) - ours) <= (0.01 if unit in ("tons", "ac") else 0.1)
        self.same(what, ours if close else theirs, ours)

    def balance(self):
        theirs = {row["way"]: row["tons"] for row in self.told["balance"]}
        for way, tons in self.books.balance().items():
            self.near(f"balance, {way}", theirs[way], tons)

    def years(self):
        for row, year in zip(self.told["years"], self.books.years):
            for key, value in self.books.year_row(year).items():
                self.near(f"year {year.name}, {key}", row[key], value)

    def days(self):
        row = self.told["period"][0]
        return [datetime.date.fromisoformat(row[key]) for key in ("from", "to")]

    def months(self):
        for what, value in self.books.months(*self.days()).items():
            rows = [r for r in self.told["months"] if r["what"] == what]
            self.near(f"months, {what}", sum(r["tons"] or r["acres"] or r["bird"] or
                                             r["count"] or 0 for r in rows), value)

    def period(self):
        first, last = self.days()
        books, sums = self.books.period(first, last), collections.Counter()
        for row in self.told["period"]:
            what = row["what"]
            for nutrient, key in LB.items():
                sums[nutrient] += row[key] * (1 if what == "made" or what.endswith("start") else -1)
                self.near(f"period {first} to {last}, {what}, {key}", row[key],
                          books[what][nutrient], nutrient)
        for nutrient, rest in sums.items():
            self.near(f"period, what does not add up, {nutrient}", rest, 0.0, nutrient)

    def stack(self):
        stay = self.books.longest_stay()
        self.near("longest in the stack", self.told["stack"]["longest_days"], stay[0] if stay
                  else 0)

    def fields(self, audit):
        rows = {f"{r['buyer']}/{r['field']}": r for r in self.told["fields"]}
        self.same("fields", set(rows), {p.place for p in audit.plots})
        for plot in audit.plots:
            row, name = rows.get(plot.place, {}), plot.place
            self.near(f"{name}, acres", row.get("spreadable_ac"), plot.spreadable)
            for nutrient, key in LB.items():
                self.near(f"{name}, {key}", row.get(key), plot.pounds(nutrient), nutrient)
            for one, spread in zip(sorted(row["spread"], key=lambda x: int(x["entry"])),
                                   sorted(plot.rows, key=lambda x: int(x.load.entry))):
                what = f"{name}, entry {spread.load.entry}"
                self.same(what, one["entry"], spread.load.entry)
                self.near(f"{what}, rate", one["ton_per_ac"], spread.rate, "ton/ac")
                self.near(f"{what}, P2O5 of the litter", one["P2O5_lb_per_ac"], spread.own, "lb")
            self.near(f"{name}, nitrogen limit", row.get("N_limit_lb_per_ac"), plot.nitrogen, "lb")

    def ledger(self, audit):
        theirs = {(f"{r['buyer']}/{r['field']}", r["year"]): r for r in self.told["ledger"]}
        for plot in audit.plots:
            for year, (told, logged, left) in plot.ledger.items():
                row, what = theirs.get((plot.place, str(year)), {}), f"{plot.place}, {year}"
                self.near(f"{what}, by the file", row.get("file_says_lb_per_ac"), told or 0.0, "lb")
                self.near(f"{what}, by the logs", row.get("logs_say_lb_per_ac"), logged or 0.0,
                          "lb")
                self.near(f"{what}, left", row.get("left_lb_per_ac"), left, "lb")
            if plot.spread:
                row = theirs.get((plot.place, "this litter"), {})
                self.near(f"{plot.place}, left after", row.get("left_lb_per_ac"),
                          plot.left_after(), "lb")

    def flocks(self):
        rows = {(r["house"], r["placed"]): r for r in self.told["flocks"]}
        for house, placed, birds, alike, tons in self.books.flock_rows():
            row = rows.get((house, placed), {})
            self.same(f"birds of {house}, {placed}", (row.get("count"), row.get("flocks")), (birds, alike))
            self.near(f"made by the flock of {house}, {placed}", row.get("made_tons"), tons)

    def loads(self):
        theirs = sorted((r["entry"], r["to"], r["tons"]) for r in self.told["loads"])
        ours = sorted((load.entry, {None: "not known", "stack": "the stack"}.get(p.place, p.place),
                       p.tons)
                      for load in self.books.now.loads for p in Books.parts(load))
        self.same("loads", len(theirs), len(ours))
        for one, other in zip(theirs, ours):
            self.same("load", one[:2], other[:2])
            self.near(f"load of entry {one[0]}", one[2], other[2])

    def receivers(self):
        theirs, now = collections.Counter(), self.books.now
        for row in self.told["transfers"]:
            theirs[row["receiver"]] += row["tons"] or 0
        for buyer in now.farm["buyers"]:
            if buyer.get("own") != "yes":
                self.near(f"tons of {buyer['name']}", theirs[buyer["name"]], now.tons(
                    lambda p: p.place != "stack" and now.fields[p.place][0] is buyer))

    def corrections(self):
        log = self.books.now.log
        self.same("corrections",
                  [(r["entry"], r["corrects"], r["was_tons"], r["tons"])
                   for r in self.told["corrections"]],
                  [(n, e["replaces"], log[e["replaces"] - 1]["tons"], e["tons"])
                   for n, e in enumerate(log, 1) if e["replaces"]])

    def findings(self, audit):
        ours = {f.id: f for f in audit.found}
        self.same("findings told twice", [], [i for i, n in collections.Counter(
            f.id for f in audit.found).items() if n > 1])
        theirs = {f["id"]: Finding(f["id"], f["state"], f["field"], tuple(f["entries"]))
                  for f in self.told["findings"]}
        for one in sorted(set(ours) | set(theirs)):
            self.same("finding", theirs.get(one), ours.get(one))
        for f in self.told["findings"]:
            binds = f["required"] == "yes" and f["state"] != "present"
            if theirs[f["id"]] == ours.get(f["id"]):
                self.same(f"required: {f['id']}", binds and f["state"] in ("missing",
                                                                           "limit exceeded"),
                          audit.asked[f["id"]])

    def all(self):
        audit = Audit(self.books)
        for part in (self.balance, self.years, self.months, self.period, self.stack, self.loads,
                     self.receivers, self.corrections, self.flocks):
            part()
        self.fields(audit)
        self.ledger(audit)
        self.findings(audit)
        return audit


def period_of(seed, newest):
    """Every other farm is asked for days of its own: a year, or any two days."""
    r = random.Random(f"period {seed}")
    if seed % 2 == 0:
        return []
    year = newest - r.randint(0, 2)
    days = sorted(f"{year - r.randint(0, 1)}-{r.randint(1, 12):02d}-{r.randint(1, 28):02d}"
                  for _ in range(2))
    return ["--period", r.choice((str(year), "..".join(days)))]


def dossier(program, path, *options):
    """Exit status of --strict, and the page."""
    run = subprocess.run([program, "dossier", path, "--format", "json", "--strict",
                          "--draws", "10000", *options], capture_output=True, text=True)
    if not run.stdout:
        sys.exit(f"bookkeeper: no dossier: {run.stderr}")
    return run.returncode, json.loads(run.stdout)


def one_farm(job):
    program, seed = job
    years = Farm(seed).years
    with tempfile.TemporaryDirectory() as folder:
        days = period_of(seed, int(years[0]["name"]))
        status, told = dossier(program, write(folder, years), *days)
    comparison = Comparison(told, Books(years))
    audit = comparison.all()
    comparison.same("exit status of --strict", status, audit.strict())
    return seed, comparison.wrong


def say(text):
    if sys.stdout.isatty():
        print(f"\r{text}\033[K", end="", flush=True)


def all_farms(program, first, n):
    """How many differ."""
    differ = 0
    with multiprocessing.Pool(os.cpu_count()) as pool:
        jobs = ((program, seed) for seed in range(first, first + n))
        for done, (seed, wrong) in enumerate(pool.imap(one_farm, jobs, 4), 1):
            differ += bool(wrong)
            for line in wrong[:5]:
                say("")
                print(f"farm {seed}: {line}")
            say(f"{done} farms of {n}")
    say("")
    return differ


def main():
    program = os.path.abspath(sys.argv[1])
    n, first = (int(a) for a in (sys.argv[2:4] + ["500", "0"][len(sys.argv) - 2:]))
    wrong = all_farms(program, first, n)
    breached = breaches.run(program, dossier)
    print(f"bookkeeper: {n} farms, {wrong} differ; {breaches.COUNT} breaches, {breached} wrong")
    return 1 if wrong or breached else 0


if __name__ == "__main__":
    sys.exit(main())
