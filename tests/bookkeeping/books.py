"""The second bookkeeper's books: loads, the stack, years and periods, reckoned from the model.

Nothing here is the program's: no worksheet, no estimate. A year is what farms.py draws.
"""
import collections
import datetime

from .farms import ticket

REST = 0.0006  # tons: what scales and tarps leave over, about a pound
NUTRIENTS = ("N", "P2O5", "K2O")

# A part of a load: who gets it ("stack", "Buyer/Field", None: nobody knows), tons, acres or None.
Part = collections.namedtuple("Part", "place tons acres")
Load = collections.namedtuple("Load", "entry words ticket lot day minute tons out parts")
# Litter on its way. year: whose litter; log: whose log tells it; out: of the stack; unlogged: never
# logged into the stack; index: of the part in its load.
Piece = collections.namedtuple("Piece", "year log lot day out place tons unlogged entry index")


def number(quantity):
    return float(str(quantity).split()[0])


def day_of(when):
    return datetime.date.fromisoformat(when[:10])


def minute_of(when):
    return int(when[11:13]) * 60 + int(when[14:16]) if len(when) > 10 else None


def shared_out(entry):
    """Tons of each part: what is told, scaled to the load; parts that tell nothing share the rest.
    Acres of the load go to the parts that tell none, by their tons."""
    told = sum(tons or 0 for _, tons, _ in entry["to"])
    silent = sum(not tons for _, tons, _ in entry["to"])
    rest = max(0.0, entry["tons"] - told) if silent else 0.0
    scale = entry["tons"] / told if told and (not silent or told > entry["tons"]) else 1.0
    parts = [Part(place, tons * scale if tons else rest / silent, acres)
             for place, tons, acres in entry["to"]]
    open_tons = sum(p.tons for p in parts if not p.acres and p.place != "stack")
    acres = (entry["acres"] or 0) - sum(p.acres or 0 for p in parts)
    return [p._replace(acres=acres * p.tons / open_tons)
            if acres > 0 and not p.acres and p.place != "stack" else p for p in parts]


def flocks_of(told):
    """(placed, removed, birds) of each of flocks alike: the last as told, the one before it left as it came."""
    first, last = day_of(told["placed"]), day_of(told["removed"])
    birds = told.get("count") or told["hens"] + told.get("males", 0)
    return [(first - k * (last - first), last - k * (last - first), birds)
            for k in reversed(range(told.get("flocks", 1)))]


class Lot:
    """Litter of one side, or of a house without sides: weighed, and analyzed."""

    def __init__(self, house, side):
        self.house = house
        self.name = house["name"] + (f"/{side['name']}" if side else "")
        self.code = self.name.upper().replace("/", "-")
        self.tons = number((side or house)["measured"]["weighed"])
        self.lab = ((side or {}).get("lab") or house["lab"])[0]
        self.flocks = [flock for f in house.get("flocks", []) for flock in flocks_of(f)]
        alike = any("flocks" in f for f in house.get("flocks", []))  # the first one's day is not told
        self.since = None if alike else min((placed for placed, _, _ in self.flocks), default=None)

    def holds(self, nutrient):
        return 1.0 if nutrient == "tons" else number(self.lab[nutrient])

    def made_before(self, day):
        """Tons: by bird-days; the day birds are placed counts, the day they leave does not."""
        whole = sum((b - a).days * n for a, b, n in self.flocks)
        done = sum(max(0, (min(b, day) - a).days) * n for a, b, n in self.flocks)
        return self.tons * (done / whole if whole else 1.0)


class Mix:
    """Litter of one or several lots in a load, each by its own report."""

    def __init__(self, tons):
        self.tons = tons

    def holds(self, nutrient):
        return sum(lot.holds(nutrient) * tons for lot, tons in self.tons.items()) / \
            sum(self.tons.values())

    def organic(self):
        return max(0.0, self.holds("N") - self.holds("NH4N"))


class Year:
    """One farm file with its haul log."""

    def __init__(self, model):
        self.farm, self.name, self.number = model["farm"], model["name"], int(model["name"])
        self.lots = {}
        for house in self.farm["houses"]:
            for side in house.get("sides", [None]):
                lot = Lot(house, side)
                self.lots[lot.code] = lot
        self.fields = {f"{b['name']}/{f['name']}": (b, f)
                       for b in self.farm["buyers"] for f in b["fields"]}
        self.log = model["log"]
        replaced = {e["replaces"] for e in self.log}
        standing = [(n, e) for n, e in enumerate(self.log, 1)
                    if n not in replaced and e["tons"] and not e.get("issued")]
        self.strange = [(n, e) for n, e in standing if e["code"] not in self.lots]
        self.loads = sorted((self.load(n, e) for n, e in standing if e["code"] in self.lots),
                            key=self.order)
        self.rank = {load.entry: i for i, load in enumerate(self.loads)}

    def order(self, load):
        """By day and time, a day alone at its end; a correction stands where the entry stood that
        it replaces."""
        first = load.entry
        while self.log[first - 1]["replaces"]:
            first = self.log[first - 1]["replaces"]
        return load.day, 24 * 60 if load.minute is None else load.minute, first

    def load(self, n, entry):
        parts = shared_out(entry)
        if any(p.place != "stack" and p.place not in self.fields for p in parts):
            parts = []
        return Load(n, entry, ticket(entry["code"], entry["number"], entry["stack"]),
                    self.lots[entry["code"]], day_of(entry["when"]), minute_of(entry["when"]),
                    entry["tons"], entry["stack"], parts)

    def is_own(self, place):
        return self.fields[place][0].get("own") == "yes"

    def spreadable(self, place):
        field = self.fields[place][1]
        setbacks = field.get("setbacks", [])
        strips = sum(number(s["edge"]) * number(s["width"]) / 43560 for s in setbacks
                     if setbacks != "none")
        return max(0.0, number(field["area"]) - strips)

    def tons(self, keep):
        return sum(p.tons for load in self.loads for p in load.parts if keep(p))


class Books:
    """Three years' books; years[0] is the newest."""

    def __init__(self, models):
        self.years = [Year(m) for m in models]
        self.now = self.years[0]
        self.pieces, self.stays, self.lying = [], [], []
        self.twice = self.count_once()
        for k, year in enumerate(self.years):
            for load in year.loads:
                if not load.out:
                    self.pieces += [Piece(k, k, load.lot.code, load.day, False, p.place, p.tons,
                                          False, load.entry, i)
                                    for i, p in enumerate(self.parts(load))]
        for code in self.now.lots:
            self.through_the_stack(code)

    def count_once(self):
        """How many loads two files have: they count in the newest."""
        seen, twice = set(), 0
        for year in self.years:
            once = [x for x in year.loads if (x.day, x.ticket) not in seen]
            twice += len(year.loads) - len(once)
            year.loads = once
            seen |= {(x.day, x.ticket) for x in year.loads}
        return twice

    @staticmethod
    def parts(load):
        return load.parts or [Part(None, load.tons, None)]

    def through_the_stack(self, code):
        """First in, first out; what goes in on a day is there before what comes out."""
        heap = collections.deque([p.day, p.year, p.tons] for p in sorted(
            (p for p in self.pieces if p.lot == code and p.place == "stack"),
            key=lambda p: (p.day, -p.log, self.years[p.log].rank[p.entry], p.index)))
        out = sorted(((load.day, -k, year.rank[load.entry], i, p, load.entry)
                      for k, year in enumerate(self.years)
                      for load in year.loads if load.out and load.lot.code == code
                      for i, p in enumerate(self.parts(load))), key=lambda x: x[:4])
        for day, log, _, index, part, entry in out:
            left = part.tons
            while left > REST:
                known = heap and heap[0][0] <= day
                tons = min(left, heap[0][2]) if known else left
                tons = left if left - tons <= REST else tons
                self.pieces.append(Piece(heap[0][1] if known else -log, -log, code, day, True,
                                         part.place, tons, not known, entry, index))
                left -= tons
                if known:
                    self.stays.append((heap[0][0], day))
                    heap[0][2] -= tons
                    if heap[0][2] <= REST:
                        heap.popleft()
        self.lying += [day for day, _, tons in heap if tons > REST]

    def litters(self, log, load, index):
        """Tons by lot of a part of a load: out of the stack of what lay there longest."""
        if not load.out:
            return {load.lot: load.parts[index].tons}
        tons = collections.Counter()
        for p in self.pieces:
            if p.out and (p.log, p.entry, p.index) == (log, load.entry, index):
                tons[self.years[p.year].lots[p.lot]] += p.tons
        return tons

    def all_litters(self, load):
        """The lots in a load of the newest file, wherever it went."""
        if not load.out:
            return [load.lot]
        return [self.years[p.year].lots[p.lot] for p in self.pieces
                if p.out and (p.log, p.entry) == (0, load.entry)]

    def newest_day(self):
        return max(load.day for load in self.now.loads)

    def longest_stay(self):
        """Days, from, to; what still lies there counts to the newest load."""
        stays = self.stays + [(day, self.newest_day()) for day in self.lying]
        return max((((b - a).days, a, b) for a, b in stays), key=lambda s: s[0], default=None)

    def emptied(self):
        """The last day on which litter lay in the stack."""
        if self.lying:
            return self.newest_day()
        return max((p.day for p in self.pieces if p.out), default=None)

    def way(self, piece):
        if piece.place in (None, "stack"):
            return piece.place or "nowhere"
        return "own" if self.years[piece.log].is_own(piece.place) else "moved"

    def unlogged(self):
        return sum(p.tons for p in self.pieces if p.unlogged and p.log == 0)

    # ---- the tables ----

    def balance(self):
        now, known = self.now, [p for p in self.pieces if p.log > 0 and not p.unlogged]
        made = sum(lot.tons for lot in now.lots.values())
        left = made - sum(load.tons for load in now.loads if not load.out)
        opening = sum(-p.tons if p.out else p.tons for p in known if p.out or p.place == "stack")
        books = {"made": made, "left": left, "opening": opening, "unlogged": self.unlogged(),
                 "own": now.tons(lambda p: p.place != "stack" and now.is_own(p.place)),
                 "moved": now.tons(lambda p: p.place != "stack" and not now.is_own(p.place))}
        books["stacked"] = (opening + books["unlogged"] +
                            now.tons(lambda p: p.place == "stack") -
                            sum(load.tons for load in now.loads if load.out))
        books["difference"] = (made + opening + books["unlogged"] - books["own"] - books["moved"] -
                               books["stacked"] - left)
        return books

    def year_row(self, year):
        used = {p.place for load in year.loads for p in load.parts} - {"stack"}
        return {"house_tons": sum(load.tons for load in year.loads if not load.out),
                "own_tons": year.tons(lambda p: p.place != "stack" and year.is_own(p.place)),
                "moved_tons": year.tons(lambda p: p.place != "stack" and
                                        not year.is_own(p.place)),
                "plan_ac": sum(number(f["area"]) for _, f in year.fields.values()),
                "used_ac": sum(number(year.fields[u][1]["area"]) for u in used)}

    def months(self, first, last):
        """Tons and acres between two days, all files together."""
        sums, used = dict.fromkeys(("out of houses", "own fields", "moved"), 0.0), {}
        for year in self.years:
            for load in (load for load in year.loads if first <= load.day <= last):
                sums["out of houses"] += 0 if load.out else load.tons
                for p in (p for p in load.parts if p.place != "stack"):
                    sums["own fields" if year.is_own(p.place) else "moved"] += p.tons
                    used.setdefault(p.place, number(year.fields[p.place][1]["area"]))
        own = sum(a for place, a in used.items() if self.now.is_own(place))
        return {**sums, "used": sum(used.values()), "used, own": own,
                "loads in two files": self.twice,
                "placed": sum(n for n, placed, _ in self.flocks() if first <= placed <= last),
                "in a house": sum(n for n, placed, removed in self.flocks()
                                  if placed <= last and removed >= first)}

    def flock_rows(self):
        """Birds, how many are alike, and tons of each flock of the newest file: its share of the bird-days."""
        rows = []
        for house in self.now.farm["houses"]:
            lots = [lot for lot in self.now.lots.values() if lot.house is house]
            days = [(b - a).days * n for a, b, n in lots[0].flocks]
            tons = sum(lot.tons for lot in lots)
            for told in house.get("flocks", []):
                alike = flocks_of(told)
                rows.append((house["name"], told["placed"], alike[-1][2], len(alike),
                             tons * sum((b - a).days * n for a, b, n in alike) / sum(days)))
        return rows

    def flocks(self):
        """Birds, first and last day of each, once a house."""
        return [(n, a, b) for year in self.years for h in year.farm["houses"]
                for a, b, n in Lot(h, h.get("sides", [None])[0]).flocks]

    # ---- the books of a period ----

    def newer(self, lot):
        """When newer litter of the side began."""
        since = [y.lots[lot.code].since for y in self.years]
        return min((s for s in since if s and lot.since and s > lot.since), default=None)

    def period(self, first, last):
        """Of each book tons and pounds: opening stack + in houses + made = what became of it."""
        sums = collections.defaultdict(lambda: collections.Counter())
        for k, year in enumerate(self.years):
            for lot in year.lots.values():
                books = self.period_of(k, lot, first, last)
                for book, tons in books.items():
                    for what in ("tons",) + NUTRIENTS:
                        sums[book][what] += tons * lot.holds(what)
        return sums

    def period_of(self, k, lot, first, last):
        mine = [p for p in self.pieces if p.year == k and p.lot == lot.code and p.day <= last]
        before = [p for p in mine if p.day < first and not p.unlogged]
        within = [p for p in mine if p.day >= first]
        dropped = self.newer(lot)
        gone = dropped is not None and dropped <= last

        def tons(pieces, keep):
            return sum(p.tons for p in pieces if keep(p))
        into, out = (lambda p: p.place == "stack"), (lambda p: p.out and not p.unlogged)
        opening = tons(before, into) - tons(before, out)
        made = lot.made_before(last + datetime.timedelta(1)) - lot.made_before(first)
        houses = lot.made_before(first) - tons(before, lambda p: not p.out)
        if dropped is not None and dropped < first:
            houses = 0.0  # it was lost before
        left = houses + made - tons(within, lambda p: not p.out)
        return {"in the stack at the start": opening, "in the houses at the start": houses,
                "made": made, "on own fields": tons(within, lambda p: self.way(p) == "own"),
                "moved to others": tons(within, lambda p: self.way(p) == "moved"),
                "lost, or gone to no known place": (left if gone else 0.0) +
                tons(within, lambda p: self.way(p) == "nowhere") -
                tons(within, lambda p: p.unlogged),
                "in the stack at the end": opening + tons(within, into) - tons(within, out),
                "in the houses at the end": 0.0 if gone else left}
