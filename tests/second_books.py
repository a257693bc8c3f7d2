"""A second bookkeeper: farms of three years drawn at random, their books kept here once more, by other code and without a
worksheet, and held against what the dossier says: the period, the stack by side, each file's totals, the ledger of each field,
and what is found of rates and days. Usage: second_books.py PROGRAM [FARMS [FIRST]]."""
import datetime
import json
import os
import random
import subprocess
import sys
import tempfile

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
LETTERS = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
LOTS = ["NORTH-LEFT", "NORTH-RIGHT", "SOUTH-LEFT", "SOUTH-RIGHT"]
MEADOW, BARN, MILL, WHEAT = ("Larkspur Hay/Upper Meadow", "Larkspur Hay/Barn Field", "Osgood Row Crops/Mill Forty",
                             "Osgood Row Crops/Wheat Strip")
PLACES = [MEADOW, BARN, MILL, WHEAT]
RATES = {MEADOW: (3.0, 26 - 980 * 100 / 43560), WHEAT: (1.5, 22.0)}  # ton/ac, ac
YEARS = [2024, 2025, 2026]
HOLDS = {2024: (34, 50, 30), 2025: (30, 40, 33), 2026: (38, 56, 36)}  # lb of N, P2O5, K2O in a ton of its litter
COLUMNS = ("entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,analysis,incorporated,"
           "weather_before,weather,weather_after,soil,note")
REST = 1 / 2000  # tons that scales leave over
faults = 0


def check_character(text):
    product = 36
    for c in text:
        if c in LETTERS:
            product = ((product + LETTERS.index(c)) % 36 or 36) * 2 % 37
    return LETTERS[(37 - product) % 36]


def house(year):
    """The demo's houses with flocks, report and cleanout of that year; every side has the report."""
    text = open(os.path.join(ROOT, "fixtures/demo-house.yaml")).read()
    n, p, k = HOLDS[year]
    report = ("    lab:\n      - {date: %d-01-29, by: L, basis: as received, moisture: 33 %%, N: %d lb/ton, NH4N: 8 lb/ton, "
              "P2O5: %d lb/ton, K2O: %d lb/ton}\n" % (year, n, p, k))
    lines = text.split("\n")
    at = next(i for i, line in enumerate(lines) if line == "    lab:")
    lines[at:at + 2] = [report.rstrip("\n")]
    text = "\n".join(lines).replace("lost: 7 %}\n", "lost: 7 %}\n" + report)
    for old in (2026, 2025):
        text = text.replace("removed: %d" % old, "removed: <%d>" % (year - 2026 + old))
    for word in ("placed: ", "cleanout: {date: ", "in, zone: scratch, date: "):
        text = text.replace(word + "2025", "%s%d" % (word, year - 1))
    for word in ("next_flock: ", "arrives: ", "kept_until: "):
        text = text.replace(word + "2026", "%s%d" % (word, year))
    return text.replace("<", "").replace(">", "")


def draw_log(draw, year):
    """Loads as (number, ticket, lot, out of the stack, day, tons, [(place, tons)])."""
    rows, count = [], {}
    for number in range(1, draw.randrange(4, 28)):
        lot, stack = draw.choice(LOTS), draw.random() < 0.2
        count[lot, stack] = count.get((lot, stack), 0) + 1
        ticket = "%s-%s%02d" % (lot, "S" if stack else "", count[lot, stack])
        day = datetime.date(year, 2, 16) + datetime.timedelta(days=draw.randrange(60))
        tons, way = round(draw.uniform(2, 4), 2), draw.random()
        if way < 0.25 and not stack:
            parts = [("stack", tons)]
        elif way < 0.45:
            one, other = draw.sample(PLACES, 2)
            part = round(tons * draw.uniform(0.3, 0.7), 2)
            parts = [(one, part), (other, round(tons - part, 2))]
        else:
            parts = [(None if way < 0.5 else draw.choice(PLACES), tons)]
        rows.append((number, ticket + "-" + check_character(ticket), lot, stack, day, tons, parts))
    return rows


def log_text(rows):
    text = COLUMNS + "\r\n"
    for number, ticket, _, _, day, tons, parts in rows:
        place = "; ".join("%s (%s ton)" % part for part in parts) if len(parts) > 1 else parts[0][0] or "Nobody/None"
        text += "%d,,%s,%s,%s,yes,,%s,1,D,J,r,not,dry,clear,rain,moist,\r\n" % (number, ticket, day, tons, place)
    return text


def ways_of(logs):
    """Every part that went out of a house or the stack: (day, year of its litter, year of the log, out of the stack, place,
    tons, day it went in); of each lot the stack goes first in, first out."""
    ways, left = [], []
    for lot in LOTS:
        moves, pile = [], []
        for year in YEARS:
            for number, _, of, stack, day, _, parts in logs[year]:
                for k, (place, tons) in enumerate(parts):
                    if of == lot and not stack:
                        ways.append((day, year, year, False, place, tons, None))
                    if of == lot and (stack or place == "stack"):
                        moves.append((day, stack, year, number, k, place, tons))
        for day, out, year, _, _, place, tons in sorted(moves, key=lambda m: m[:5]):
            if not out:
                pile.append([tons, year, day])
            while out and tons > REST:
                pile = [p for p in pile if p[0] > REST]
                part, of, since = (min(pile[0][0], tons), pile[0][1], pile[0][2]) if pile else (tons, year, None)
                part = tons if tons - part <= REST else part
                if pile:
                    pile[0][0] -= part
                ways.append((day, of, year, True, place, part, since))
                tons -= part
        left += [p for p in pile if p[0] > REST]
    return ways, left


def near(what, got, want, within):
    global faults
    if abs(got - want) > within:
        print("%s: %s, and by the second books %s" % (what, got, want))
        faults += 1


def check_period(what, told, ways, first, last):
    rows = {row["what"]: row for row in told["period"]}
    inside = [w for w in ways if first <= w[0] <= last]

    def stacked(until):
        return [(w[1], w[5] if not w[3] else -w[5]) for w in ways
                if w[0] < until and (w[4] == "stack" if not w[3] else w[6] is not None)]
    sums = {"on own fields": [(w[1], w[5]) for w in inside if w[4] in (MEADOW, BARN)],
            "moved to others": [(w[1], w[5]) for w in inside if w[4] in (MILL, WHEAT)],
            "in the stack at the start": stacked(first),
            "in the stack at the end": stacked(last + datetime.timedelta(days=1))}
    for name, parts in sums.items():
        near(what + name, rows[name]["tons"], sum(t for _, t in parts), 0.01)
        for k, key in enumerate(("N_lb", "P2O5_lb", "K2O_lb")):
            near(what + name + key, rows[name][key], sum(t * HOLDS[y][k] for y, t in parts), 0.1)
    names = list(rows)
    for key, within in (("tons", 0.01), ("N_lb", 0.1), ("P2O5_lb", 0.1), ("K2O_lb", 0.1)):
        near(what + "both sides", sum(rows[n][key] for n in names[:3]), sum(rows[n][key] for n in names[3:]), within)
        for name in names:
            if not name.startswith("lost"):
                near(what + name + " below nothing", min(rows[name][key], 0), 0, 0.01)


def check_files(what, told, logs):
    for row, year in zip(told["years"], reversed(YEARS)):
        parts = [part for load in logs[year] for part in load[6]]
        sums = {"house_tons": sum(load[5] for load in logs[year] if not load[3]),
                "own_tons": sum(t for p, t in parts if p in (MEADOW, BARN)),
                "moved_tons": sum(t for p, t in parts if p in (MILL, WHEAT))}
        for key, tons in sums.items():
            near("%s%d %s" % (what, year, key), row[key] or 0, tons, 0.01)


def check_fields(what, told, ways, logs):
    fields = {f["buyer"] + "/" + f["field"]: f for f in told["fields"]}
    for name, f in fields.items():
        # what came out of the stack has the report of the litter that leads the load
        near(what + name, f["tons"] or 0, sum(t for load in logs[2026] for p, t in load[6] if p == name), 0.01)
        for row in told["ledger"]:
            year = row["year"]
            if row["buyer"] + "/" + row["field"] != name or not year.isdigit():
                continue
            on = sum(w[5] * HOLDS[int(year)][1] for w in ways if w[2] == int(year) and w[4] == name)
            near("%s%s %s" % (what, name, year), row["P2O5_on_lb_per_ac"], on / f["spreadable_ac"], 0.01)


def check_findings(what, told, logs):
    found = told["findings"]
    for name, (rate, acres) in RATES.items():
        need = sum(t for load in logs[2026] for p, t in load[6] if p == name) / rate
        over = [f for f in found if f["item"] == "more litter than the rate" and f["field"] == name]
        near(what + "over the rate, " + name, len(over), need > acres * 1.01, 0)
    near(what + "days off", sum(f["state"] == "note" for f in found), sum(load[4].weekday() == 6 for load in logs[2026]), 0)
    near(what + "places", sum(f["item"] == "load of unknown place" for f in found),
         sum(load[6][0][0] is None for load in logs[2026]), 0)


def one_farm(program, seed, folder):
    draw = random.Random(seed)
    fields = open(os.path.join(ROOT, "fixtures/demo-fields.yaml")).read()
    for old, new in (("name: Larkspur Hay\n", "name: Larkspur Hay\n    own: yes\n"), ("        for_crop: 2026\n", ""),
                     ("        earlier_litter:\n", ""),
                     ("          - {year: 2024, for_crop: 2025, rate: 2 ton/ac, organic_nitrogen: 29 lb/ton}\n", "")):
        fields = fields.replace(old, new)
    logs = {year: draw_log(draw, year) for year in YEARS}
    first = datetime.date(2024, 1, 1) + datetime.timedelta(days=draw.randrange(800))
    last = first + datetime.timedelta(days=draw.randrange(450))
    texts = {}
    for year in YEARS:
        earlier = ", ".join("{file: %d.yaml, fields: f%d.yaml}" % (y, y) for y in (2025, 2024))
        texts["f%d.yaml" % year] = fields.replace("open: 2026", "open: %d" % year).replace("..2026", "..%d" % year)
        texts["%d.yaml" % year] = house(year) if year < 2026 else house(year).replace(
            "  permit: none\n", "  permit: none\n  earlier: [%s]\n" % earlier)
        texts["%d.haul.csv" % year] = log_text(logs[year])
    for name, text in texts.items():
        with open(os.path.join(folder, name), "w", newline="") as file:
            file.write(text)
    run = subprocess.run([program, "dossier", folder + "/2026.yaml", folder + "/f2026.yaml", "--draws", "10000", "--format", "json",
                          "--period", "%s..%s" % (first, last)], capture_output=True, text=True)
    if run.returncode != 0:
        sys.exit("farm %d: %s" % (seed, run.stderr))
    told, what = json.loads(run.stdout), "farm %d: " % seed
    ways, left = ways_of(logs)
    check_period(what, told, ways, first, last)
    check_files(what, told, logs)
    check_fields(what, told, ways, logs)
    check_findings(what, told, logs)
    newest = max([load[4] for load in logs[2026]])
    days = [(w[0] - w[6]).days for w in ways if w[3] and w[6] is not None] + [(newest - p[2]).days for p in left]
    near(what + "longest in the stack", told["stack"]["longest_days"] or 0, max(days, default=0), 0)


def main():
    farms = int(sys.argv[2]) if len(sys.argv) > 2 else 40
    start = int(sys.argv[3]) if len(sys.argv) > 3 else 1
    for seed in range(start, start + farms):
        with tempfile.TemporaryDirectory() as folder:
            one_farm(os.path.abspath(sys.argv[1]), seed, folder)
    print("%d farms, %d differences" % (farms, faults))
    sys.exit(faults > 0)


if __name__ == "__main__":
    main()
