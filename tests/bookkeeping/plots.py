"""Fields of the newest file: what went on each, its limits, and the years before."""
import collections
import datetime

from .books import Mix, day_of, number

Past = collections.namedtuple("Past", "year phosphate organic bought taken")  # lb an acre
# One part of a load on the field: tons, usable N, P2O5 and that with bought on an acre, its limit and
# the class of what passes it, usable N in all, what its ticket allowed.
Spread = collections.namedtuple("Spread", "load rate usable own phosphate limit whose pounds allowed")
OPEN = 1.01  # more than 1 % over a limit is flagged
REMOVES = {"tall fescue hay": 12, "bermudagrass hay": 12, "corn grain": .35, "wheat grain": .48}
PUBLISHED_MOST = 3.0  # tons an acre, where the file gives no most:
ORGANIC, AMMONIUM = .6, {"at once": .9, "never": .2}  # usable in the first year
RELEASED = {1: .55, 2: .12, 3: .05}  # of organic nitrogen; year 1: the first crop after spreading


def days_before(day, days):
    return day_of(day) - datetime.timedelta(int(days))


class Plot:
    """A field of the newest file with what went on it: limits, acres and rates."""

    def __init__(self, books, place):
        self.books, self.place, self.year = books, place, books.now
        self.buyer, self.field = self.year.fields[place]
        self.own = self.buyer.get("own") == "yes"
        self.spreadable = self.year.spreadable(place)
        self.spread = [(load, i) for load in self.year.loads
                       for i, p in enumerate(load.parts) if p.place == place]
        self.litter = {(load.entry, i): Mix(books.litters(0, load, i)) for load, i in self.spread}
        self.overlap = self.field.get("overlap") == "yes"
        self.worked_in = self.field.get("incorporated", "never")
        self.bought = self.bought_of(self.field)
        self.past = self.years_before()
        self.carried = self.carried_over()
        self.ledger = self.ledger_of()
        self.nitrogen = max(0.0, number(self.field["nitrogen"]) - sum(self.carried.values()) -
                            number(self.field.get("credits", {}).get("legume", 0)))
        self.phosphate = self.phosphate_left()
        self.needed = 0.0  # acres of all loads
        self.rows = list(self.applications())

    @staticmethod
    def bought_of(field):
        return sum(number(f["rate"]) * .46 for f in field.get("fertilizer", []))

    # ---- the years before ----

    def years_before(self):
        """By those files and their logs: what went on after the harvest is for the next crop."""
        on, crops = collections.defaultdict(collections.Counter), {}
        for k in range(len(self.books.years) - 1, 0, -1):
            year = self.books.years[k]
            field, acres = year.fields[self.place][1], year.spreadable(self.place)
            harvest = number(field.get("yield_got", field["yield"]))
            crops[year.number] = (self.bought_of(field), harvest * REMOVES[field["crop"]])
            for load in year.loads:
                late = "harvested" in field and load.day > day_of(field["harvested"])
                for i, p in enumerate(load.parts):
                    if p.place == self.place:
                        litter = Mix(self.books.litters(k, load, i))
                        of = on[year.number + late]
                        of["P2O5"] += p.tons / acres * litter.holds("P2O5")
                        of["organic"] += p.tons / acres * litter.organic()
        # the crop of this litter takes what it takes once, with this litter
        return [Past(y, on[y]["P2O5"], on[y]["organic"], *crops.get(y, (0.0, 0.0)))
                for y in sorted(set(on) | set(crops))]

    def told_nitrogen(self, year):
        """lb an acre that the file's own earlier litter of that year still gives; None: none."""
        told = [number(e["rate"]) * number(e["organic_nitrogen"])
                for e in self.field.get("earlier_litter", []) if e["year"] == year]
        return sum(told) * self.released(year) if told else None

    def released(self, year):
        return RELEASED[self.year.number - year + 1]

    def carried_over(self):
        """By year: what the file says or the logs tell, the greater."""
        logged = {p.year: p.organic * self.released(p.year) for p in self.past if p.organic}
        years = set(logged) | {e["year"] for e in self.field.get("earlier_litter", [])}
        self.logged_nitrogen = logged
        return {y: max(self.told_nitrogen(y) or 0.0, logged.get(y, 0.0)) for y in years}

    def ledger_of(self):
        """By year (told, logged, left): P2O5 an acre."""
        rows = {r["year"]: r for r in self.field.get("phosphorus", {}).get("ledger", [])}
        past = {p.year: p for p in self.past}
        left, out = 0.0, {}
        for year in sorted(set(rows) | set(past)):
            told = number(rows[year].get("P2O5", 0)) if year in rows else None
            logged = past[year].phosphate + past[year].bought if year in past else None
            taken = [number(rows[year]["removed"])] if year in rows else []
            taken = min(taken + ([past[year].taken] if year in past else []))
            left = max(0.0, left + max(told or 0.0, logged or 0.0) - taken)
            out[year] = (told, logged, left)
        return out

    # ---- limits ----

    def phosphate_left(self):
        """P2O5 an acre that the rating allows; None: it sets no limit."""
        rating = self.field.get("phosphorus", {}).get("rating")
        if rating in ("low", "medium"):
            return None
        left = list(self.ledger.values())[-1][2] if self.ledger else 0.0
        if rating == "very high" or left > 0:
            return 0.0
        years = number(self.field.get("phosphorus", {}).get("bank", 1))
        return number(self.field["yield"]) * REMOVES[self.field["crop"]] * years

    def usable(self, lot, worked_in):
        return ORGANIC * lot.organic() + AMMONIUM[worked_in] * lot.holds("NH4N")

    def caps(self, lot, day):
        """Limits of the season on that day, in tons an acre."""
        first, last = self.open_days()
        for cap in self.field.get("window_caps", []):
            a, b = (day_of(d) for d in cap["between"].split(".."))
            if a <= day <= b and a <= last and first <= b:
                yield (number(cap["most"]) if "most" in cap else
                       number(cap["total_nitrogen"]) / lot.holds("N") if "total_nitrogen" in cap
                       else number(cap["available_nitrogen"]) / self.usable(lot, self.worked_in))

    def limits(self, lot, day):
        """(tons an acre, whose) in the order that counts among equals."""
        f, all_limits = self.field, []
        if self.phosphate is not None:
            all_limits.append((max(0.0, self.phosphate - self.bought) / lot.holds("P2O5"),
                               "limit exceeded" if "phosphorus" in f else "caution"))
        all_limits.append((self.nitrogen / self.usable(lot, self.worked_in), "limit exceeded"))
        all_limits.append((number(f["most"]), "limit exceeded") if "most" in f else
                          (PUBLISHED_MOST, "caution"))
        return all_limits + [(x, "limit exceeded") for x in self.caps(lot, day)]

    def open_days(self):
        f = self.field
        first, last = (day_of(d) for d in f["open"].split(".."))
        if "planting" in f and "days_before_planting" in f:
            first = max(first, days_before(f["planting"], f["days_before_planting"]))
        for key in ("harvest", "grazing"):
            if key in f and f"days_before_{key}" in f:
                last = min(last, days_before(f[key], f[f"days_before_{key}"]))
        return first, last

    # ---- each application ----

    def applications(self):
        """Each is held to the limit of its own litter and day, on the acres logged, else on as many
        as its limit needs; where all need more than the field has, those share what is left."""
        rows = []
        for load, i in self.spread:
            part, litter = load.parts[i], self.litter[load.entry, i]
            limit, whose = min(self.limits(litter, load.day), key=lambda x: x[0])
            rate = load.words.get("ticket_rate", {}).get(self.place, limit)
            acres = part.tons / rate if rate > 0 else self.spreadable
            self.needed += acres if self.overlap or not part.acres else part.acres
            rows.append([load, part, litter, limit, whose, acres])
        share = self.share([row[5] for row in rows if not row[1].acres])
        for load, part, litter, limit, whose, acres in rows:
            rate = part.tons / (part.acres or acres * share)
            how = {"not": "never", "at once": "at once"}.get(load.words["incorporated"],
                                                            self.worked_in)
            usable = self.usable(litter, how)
            on = rate * litter.holds("P2O5")
            yield Spread(load, rate, rate * usable, on, on + self.bought, limit, whose,
                         part.tons * usable, self.allowed(load, litter, limit, rate, usable))

    def allowed(self, load, litter, limit, rate, usable):
        """By its ticket of this field: as much, for a day with no higher limit; and then as much N."""
        ticket = load.words.get("ticket_rate", {}).get(self.place)
        if ticket is None or rate > ticket * OPEN:
            return ()
        if min(x for x, _ in self.limits(litter, day_of(load.words["ticket_day"]))) > limit * OPEN:
            return ()
        planned = self.usable(litter, self.worked_in)
        return ("rate", "phosphate") + (("nitrogen",) if usable <= planned * OPEN else ())

    def share(self, without):
        """Of the acres that loads without acres need: the others leave those, or none is free."""
        left = self.spreadable - self.logged_acres()
        if not self.is_crowded():
            return 1.0
        return left / sum(without) if left > 0 and not self.overlap else \
            self.spreadable / self.needed

    def is_crowded(self):
        return self.needed > self.spreadable * OPEN

    def pounds(self, nutrient):
        """On the whole field; "tons" are tons."""
        return sum(load.parts[i].tons * self.litter[load.entry, i].holds(nutrient)
                   for load, i in self.spread)

    def acres(self):
        """An average acre is one of these: of all that it has, or of fewer that loads covered."""
        fewer = self.logged_acres() and not self.overlap and self.needed < self.spreadable
        return self.needed if fewer else self.spreadable

    def left_after(self):
        """P2O5 that this year's crop leaves of all that is there, an acre of the whole field as in the years before,
        whatever acres the loads covered."""
        before = list(self.ledger.values())[-1][2] if self.ledger else 0.0
        harvest = number(self.field.get("yield_got", self.field["yield"]))
        return max(0.0, self.pounds("P2O5") / self.spreadable + self.bought + before -
                   harvest * REMOVES[self.field["crop"]])

    def logged_acres(self):
        return sum(load.parts[i].acres or 0 for load, i in self.spread)
