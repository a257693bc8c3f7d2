"""pictures.py PROGRAM [FARMS]: are the pictures of estimate and plan true? Each has a title and a description; what it draws, read
back by its own axis, is what the JSON of the same farm says. The demo, and farms drawn at random."""
import html
import json
import os
import random
import re
import subprocess
import sys
import tempfile
import xml.etree.ElementTree as xml

PROGRAM, FARMS = sys.argv[1], int(sys.argv[2]) if len(sys.argv) > 2 else 6
DEMO = [open(f"fixtures/demo-{part}.yaml", encoding="utf-8").read() for part in ("house", "fields")]
checked = 0


def run(*words):
    done = subprocess.run([PROGRAM, *words], stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    if done.returncode != 0:
        sys.exit(f"{words}: {done.stderr.decode()}")
    return done.stdout.decode("utf-8")


def same(what, drawn, meant, most):
    """A picture is 300 units wide and drawn to a hundredth of one; JSON has six digits."""
    global checked
    checked += 1
    if abs(drawn - meant) > 2e-4 * most + 1e-9:
        sys.exit(f"{what}: {drawn:.3f} is drawn, {meant:.3f} is meant")


def number(words):
    return float(re.sub(r"[^0-9.-]", "", words))


class Picture:
    def __init__(self, text):
        self.root = xml.fromstring(text)
        top = [child.tag for child in self.root]
        if top[:2] != ["title", "desc"] or not all((self.root[i].text or "").strip() for i in (0, 1)):
            sys.exit("a picture without a title or a description: " + text[:200])
        self.words = [(float(t.get("x")), float(t.get("y")), t.get("text-anchor"), t.text or "") for t in self.root.iter("text")]
        # those of the pattern have no stroke
        self.boxes = [dict(x=float(r.get("x")), y=float(r.get("y")), w=float(r.get("width")), h=float(r.get("height")),
                           fill="full" if r.get("fill") == "#444" else "open" if r.get("fill") == "#fff" else "hatched")
                      for r in self.root.iter("rect") if r.get("stroke")]
        self.lines = [(p.get("stroke-width"), p.get("stroke-dasharray"), [float(x) for x in re.findall(r"[0-9.]+", p.get("d"))])
                      for p in self.root.iter("path")]

    def axis(self):
        ticks = [w for w in self.words if w[2] == "middle"]
        (x1, _, _, a), (x2, _, _, b) = ticks[0], ticks[-1]
        return lambda x: number(a) + (x - x1) * (number(b) - number(a)) / (x2 - x1)

    def bars(self):
        """A bar of nothing is half a unit wide, to be seen."""
        at = self.axis()
        return [(at(b["x"]), at(b["x"] + (b["w"] if b["w"] > 0.5 else 0)), b["fill"]) for b in self.boxes if b["h"] == 14]

    def marks(self, width):
        at = self.axis()
        return [at(d[0]) for stroke, dashes, d in self.lines if stroke == width]


def pictures(page):
    found = {}
    ids = re.findall(r'id="([^"]*)"', page)
    if len(ids) != len(set(ids)):
        sys.exit("an id stands twice in a page")
    for text in re.findall(r"<svg.*?</svg>", page, re.S):
        if "font-size" in text:
            sys.exit("words of a size of their own: no longer 9 points on paper")
        for use in re.findall(r"url\(#([^)]*)\)", text):
            if f'id="{use}"' not in text:
                sys.exit(f"a pattern {use} that is not there")
        found[re.search(r'pattern id="(.*?)-hatch"', text).group(1)] = Picture(text)
    return found


def hidden(page, words):
    """The numbers of a picture stand in a table for those who cannot see it."""
    tables = " ".join(re.findall(r'<table class="unseen">.*?</table>', page, re.S))
    if words not in html.unescape(tables):
        sys.exit(f"no table tells {words}")


def fields(page, found, plan):
    rows = [r for r in plan["where"] if r["acres"] is not None]
    rows.sort(key=lambda r: float("inf") if r["distance_miles"] is None else r["distance_miles"])
    extra = [r for r in plan["where"] if r["where"] == "NO FIELD"]
    parts = [p for name, p in found.items() if re.fullmatch("fields[0-9]+-picture", name)]
    bars = [b for p in parts for b in p.bars()]
    limits = [m for p in parts for m in p.marks("3")]
    full = [b for b in bars if b[2] == "full"][:len(rows)]
    most = max([r["takes_tons"] for r in rows] + [r["tons"] for r in extra] + [1e-9])
    for row, bar, limit in zip(rows, full, limits):
        same(row["where"], bar[1] - bar[0], row["tons"], most)
        same(row["where"] + ", limit", limit, row["takes_tons"], most)
        hidden(page, row["where"][:20])
    if len(full) != min(len(rows), 12 * len(parts)) or len(limits) != len(full):
        sys.exit(f"{len(rows)} fields, {len(full)} bars, {len(limits)} limits")
    if [b for b in bars if b[2] == "hatched"] and not extra or extra and not [b for b in bars if b[2] == "hatched"]:
        sys.exit("litter without a field is not drawn as it is")
    for row, bar in zip(extra, [b for b in bars if b[2] == "hatched"]):
        same("no field", bar[1] - bar[0], row["tons"], most)


def money(page, found, plan):
    rows = [(row["item"], row["dollars"]) for row in plan["money"]]
    income, out = ([i for i, row in enumerate(rows) if row[0].split(" (")[0] == item][0] for item in ("in", "out"))
    steps = [rows[income][1]] + [-dollars for _, dollars in rows[income + 1:out]]
    at, most = 0, max(steps[0], abs(plan["net_return"]), 1)
    bars = found["money-picture"].bars()
    if len(bars) != len(steps) + 1:
        sys.exit(f"{len(steps)} steps of money, {len(bars)} bars")
    for step, bar in zip(steps + [plan["net_return"]], bars):
        start = 0 if step is plan["net_return"] else at
        same("money from", bar[0], min(start, start + step), most)
        same("money to", bar[1], max(start, start + step), most)
        at += step


def stack(page, found, plan):
    if not plan["stack_by_day"]:
        return
    picture, days = found["stack-picture"], plan["stack_by_day"]
    bars, most = picture.bars(), max(d["tons"] for d in days) + plan["stack_room_tons"]
    if len(days) == len(bars):
        for day, bar in zip(days, bars):
            same("stack on " + day["day"], bar[1] - bar[0], day["tons"], most)
    elif len(bars) > 12:
        sys.exit("too many days of the stack")
    same("room of the stack", picture.marks("2")[0], plan["stack_room_tons"], most)


def hour(words):
    n, half = words.split()
    return int(n) % 12 + (12 if half == "pm" else 0)


def calendar(page, found, plan):
    if "calendar" not in found and all(load["certainty"] == "possible" for load in plan["loads"]):
        return
    picture = found["calendar"]
    ticks = [w for w in picture.words if w[2] == "middle"]
    (x1, _, _, a), (x2, _, _, b) = ticks[0], ticks[-1]
    of = lambda x: hour(a) + (x - x1) * (hour(b) - hour(a)) / (x2 - x1)
    rows = sorted({b["y"] for b in picture.boxes if b["h"] == 14})
    days = sorted({l["day"] for l in plan["loads"] if l["certainty"] != "possible"})
    if len(days) > 6 or len(rows) != len(days):
        return
    for y, day in zip(rows, days):
        loads = sorted((l for l in plan["loads"] if l["day"] == day and l["certainty"] != "possible"), key=lambda l: l["start"])
        boxes = sorted((b for b in picture.boxes if b["y"] == y and b["h"] == 14), key=lambda b: b["x"])
        boxes = [b for b in boxes if b["w"] > 0]
        for load, box in zip(loads, boxes):
            clock = [int(load[k][11:13]) + int(load[k][14:16]) / 60 for k in ("start", "leave")]
            if load["leave"][:10] == day:
                same("load " + load["ticket"], of(box["x"]), clock[0], 100)  # JSON has minutes
                same("load " + load["ticket"] + " leaves", of(box["x"] + box["w"]), clock[1], 200)
            if box["fill"] != {"firm": "full", "likely": "hatched"}[load["certainty"]]:
                sys.exit(f"load {load['ticket']} is drawn {box['fill']}")
        if len(loads) > len(boxes):
            sys.exit(f"{day}: {len(loads)} loads, {len(boxes)} boxes")


def ranges(page, picture, rows, evidence, most):
    at = picture.axis()
    bars = picture.bars()
    marks = [at(b["x"] + b["w"] / 2) for b in picture.boxes if b["fill"] == "open" and b["h"] == 18]
    if not len(rows) == len(bars) == len(marks):
        sys.exit(f"{len(rows)} ranges, {len(bars)} bars, {len(marks)} marks")
    for tons, found, bar, mark in zip(rows, evidence, bars, marks):
        same("low", bar[0], tons["low"], most)
        same("likely", mark, tons["mid"], most)
        same("high", bar[1], tons["high"], most)
        if (bar[2] == "full") != found:
            sys.exit("measured and published are drawn alike")


def look(files, full):
    more = ["--full"] if full else []
    plan, page = json.loads(run("plan", *files, "--format", "json")), run("plan", *files, "--format", "html", *more)
    found = pictures(page)
    for check in (fields, money, stack, calendar):
        check(page, found, plan)
    said, page = json.loads(run("estimate", *files, "--format", "json")), run("estimate", *files, "--format", "html", *more)
    found = pictures(page)
    measured = {l["lot"]: any(m["kind"] == "evidence" for m in l["methods"]) for l in said["lots"]}
    sides = [s for s in said["sides"] if len(said["sides"]) == 1 or s is not said["sides"][-1]]
    most = max(s["tons"]["high"] for s in sides)
    ranges(page, found["sides"], [s["tons"] for s in sides], [measured[s["lots"][0]] for s in sides], most)
    for lot in said["lots"]:
        name = "methods-" + ".".join(re.sub("[^a-z0-9]+", "_", part.lower()) for part in lot["lot"].split("/"))
        if name in found:
            ranges(page, found[name], [m["tons"] for m in lot["methods"]], [m["kind"] == "evidence" for m in lot["methods"]],
                   max(m["tons"]["high"] for l in said["lots"] for m in l["methods"]))
    if full and not any(name.startswith("methods-") for name in found):
        sys.exit("no methods are drawn")
    return len(plan["loads"])


def drawn_at_random(chance):
    """The demo with other birds, trucks, hours, costs, shed, and fields of its own."""
    house = DEMO[0]
    house = re.sub(r"hens: (\d+)", lambda m: f"hens: {int(int(m[1]) * chance.uniform(0.3, 2))}", house)
    house = re.sub(r"payload: \S+", f"payload: {chance.randint(6, 22)}", house)
    house = re.sub(r"hours: \d+", f"hours: {chance.randint(6, 11)}", house)
    house = re.sub(r"take_out: \d+", f"take_out: {chance.randint(4, 30)}", house)
    house = re.sub(r"length: 80 ft", f"length: {chance.randint(60, 160)} ft", house)
    if chance.random() < 0.3:
        house = re.sub(r"\nstack:.*", "", house)
    text = "buyers:\n"
    for b in range(chance.randint(1, 4)):
        text += f"  - name: Buyer {b}\n    price: {chance.randint(5, 60)} $/ton\n    distance: {chance.randint(1, 40)} mi\n    fields:\n"
        for f in range(chance.randint(1, 6)):
            start = chance.choice(["2026-02-16", "2026-02-16", "2026-03-10", "2026-04-01"])
            text += (f"      - {{name: Field {b}-{f}, area: {chance.randint(3, 60)} ac, crop: tall fescue hay, yield: 3 ton/ac, nitrogen: "
                     f"{chance.randint(40, 220)} lb/ac, phosphorus: {{rating: low, rated_by: county plan writer, date: 2025-10-30}}, most: {chance.choice([1, 2, 3])} ton/ac, incorporated: never, weather: cool wet, "
                     f"open: {start}..2026-05-30}}\n")
    return house, text


with tempfile.TemporaryDirectory() as folder:
    chance, hauled = random.Random(7), 0
    for i in range(FARMS + 1):
        texts = DEMO if i == 0 else drawn_at_random(chance)
        files = [os.path.join(folder, f"{part}.yaml") for part in ("house", "fields")]
        for file, text in zip(files, texts):
            with open(file, "w", encoding="utf-8") as to:
                to.write(text)
        loads = look(files, i % 2 == 0)
        if i > 0:
            hauled += loads > 0
if hauled * 2 < FARMS:
    sys.exit(f"only {hauled} farms have loads")
print(f"{FARMS + 1} farms, {checked} lengths in their pictures")
