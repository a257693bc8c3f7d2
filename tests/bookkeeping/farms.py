"""Random farms of three years: what their farm files and haul logs say, and how they are written.

A year is a dict: name ("2026"), farm (as its YAML file has it) and log (a list of entries). The
newest year comes first. All litter is weighed and analyzed, so that the books need no estimate.
"""
import csv
import datetime
import json
import os
import random

CROPS = {"tall fescue hay": ("ton/ac", 2.5, 4.5), "bermudagrass hay": ("ton/ac", 3, 6),
         "corn grain": ("bu/ac", 110, 190), "wheat grain": ("bu/ac", 45, 80)}
COLUMNS = ("entry,replaces,ticket,when,tons,weighed,cleared,field,truck,driver,received_by,"
           "analysis,incorporated,weather_before,weather,weather_after,soil,note,confirmed,acres,"
           "certainty,planned,loads,price,batch,kind").split(",")
LABORATORY = "County Laboratory"
WEEKDAYS = "monday tuesday wednesday thursday friday saturday sunday".split()


def ticket(code, number, stack=False):
    """Lot, running number and the check character of ISO 7064 MOD 37,36."""
    text = f"{code}-{'S' if stack else ''}{number:02d}"
    alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    product = 36
    for c in text:
        if c in alphabet:
            product = ((product + alphabet.index(c)) % 36 or 36) * 2 % 37
    return f"{text}-{alphabet[(37 - product) % 36]}"


def place_text(parts):
    """As the log has it: one place, or several with their tons and acres."""
    def one(place, tons, acres):
        return place + (f" {tons} tons" if tons else "") + (f" {acres} ac" if acres else "")
    return "; ".join(one(*p) for p in parts)


def ticket_text(part):
    """As a ticket that was handed out has it."""
    place, tons, acres = part
    return f"{place} ({tons} ton, {acres} ac)" if acres else place


def write_log(path, log):
    with open(path, "w", newline="", encoding="utf-8") as f:
        rows = csv.DictWriter(f, COLUMNS, restval="", extrasaction="ignore")
        rows.writeheader()
        for number, e in enumerate(log, 1):
            kind = "issued" if e.get("issued") else "hauled" if not e["replaces"] else \
                "correction" if e["tons"] else "strike"
            rows.writerow({**e, "entry": number, "replaces": e["replaces"] or "", "truck": "1",
                           "weighed": "yes" if e["weighed"] else "no", "driver": "D. Ames",
                           "ticket": ticket(e["code"], e["number"], e["stack"]), "kind": kind,
                           "field": ticket_text(e["to"][0]) if e.get("issued") else
                           place_text(e["to"]), "acres": e["acres"] or ""})


def write(folder, years):
    """Returns the name of the newest farm file."""
    for year in years:
        with open(os.path.join(folder, year["name"] + ".yaml"), "w", encoding="utf-8") as f:
            json.dump(year["farm"], f, indent=1)
        write_log(os.path.join(folder, year["name"] + ".haul.csv"), year["log"])
    return os.path.join(folder, years[0]["name"] + ".yaml")


# ---- drawing ----

class Farm:
    """Draws one farm: what stays over the years, then each year."""

    def __init__(self, seed, newest=2026):
        self.r = random.Random(seed)
        self.houses = [("North", ["left", "right"]), ("South", []), ("East", [])]
        self.houses = self.r.sample(self.houses, self.r.randint(1, 3))
        self.bare = self.houses[0][0] if self.chance(0.1) else None  # no flocks are told
        self.plots = self.draw_plots()
        self.waiting = {}  # by lot: the reports of loads that went into the stack
        self.years = [self.draw_year(y) for y in range(newest - 2, newest + 1)][::-1]
        if self.chance(.15):
            self.keep_twice()
        files = [y["name"] + ".yaml" for y in self.years[1:]]
        self.years[0]["farm"]["farm"]["earlier"] = self.r.sample(files, len(files))

    def chance(self, p):
        return self.r.random() < p

    def number(self, low, high, digits=1):
        return round(self.r.uniform(low, high), digits)

    def day(self, first, last):
        first, last = (datetime.date.fromisoformat(d) for d in (first, last))
        return str(first + datetime.timedelta(days=self.r.randint(0, (last - first).days)))

    def maybe(self, p, **keys):
        return keys if self.chance(p) else {}

    def keep_twice(self):
        """A load of this year is in the log of the year before too."""
        log = self.years[0]["log"]
        replaced = {e["replaces"] for e in log}
        once = [e for n, e in enumerate(log, 1)
                if n not in replaced and not e["replaces"] and not e.get("issued")]
        self.years[1]["log"] += once[:1]

    # ---- houses ----

    def draw_lab(self, year):
        n = self.number(40, 70)
        return [{"date": self.day(f"{year}-01-05", f"{year}-02-20"), "moisture": "30 %",
                 "N": f"{n} lb/ton", "NH4N": f"{round(n * self.r.uniform(.1, .3), 1)} lb/ton",
                 "P2O5": f"{self.number(30, 65)} lb/ton", "K2O": f"{self.number(25, 55)} lb/ton",
                 **self.maybe(.9, by=LABORATORY), **self.maybe(.8, method="combustion")}]

    def draw_flocks(self, year):
        first, last = self.day(f"{year - 1}-04-10", f"{year - 1}-05-20"), \
            self.day(f"{year}-01-03", f"{year}-02-02")
        if self.chance(.5):
            return [{"birds": "broiler breeder", "hens": self.r.randint(5000, 9000),
                     "males": self.r.randint(300, 900), "placed": first, "removed": last}]
        if self.chance(.4):
            placed = datetime.date.fromisoformat(last) - datetime.timedelta(self.r.randint(38, 56))
            return [{"birds": "broiler", "count": self.r.randint(8000, 24000), "placed": str(placed),
                     "removed": last, "flocks": self.r.randint(2, 4)}]
        middle = self.day(f"{year - 1}-07-01", f"{year - 1}-09-01")
        again = self.day(f"{year - 1}-09-05", f"{year - 1}-10-30")
        return [{"birds": "broiler", "count": self.r.randint(8000, 24000), "placed": a,
                 "removed": b} for a, b in ((first, middle), (again, last))]

    def draw_house(self, name, sides, year):
        weighed = [{"weighed": f"{self.number(45, 95)} ton"} for _ in range(max(1, len(sides)))]
        house = {"name": name, "lab": self.draw_lab(year)}
        if sides:
            house["sides"] = [{"name": s, "measured": w,
                               **self.maybe(.15, lab=self.draw_lab(year))}
                              for s, w in zip(sides, weighed)]
        else:
            house["measured"] = weighed[0]
        if name != self.bare:
            house["flocks"] = self.draw_flocks(year)
        return house

    # ---- fields ----

    def draw_plots(self):
        plots = []
        for buyer, fields, most in (("Home Place", ("Hill", "Creek", "Barn Lot"), 3),
                                    ("Larkspur Hay", ("Upper Meadow", "Lane"), 2),
                                    ("Osgood Row Crops", ("Mill Forty",), 1)):
            for field in fields[:self.r.randint(1, most)]:
                plots.append((buyer, field, self.r.choice(sorted(CROPS)), self.number(9, 40)))
        return plots

    def draw_phosphorus(self, year):
        rating = self.r.choices(("low", "medium", "high", "very high"), (4, 4, 6, 1))[0]
        ledger = [{"year": y, "removed": f"{self.number(20, 60)} lb/ac",
                   **self.maybe(.8, P2O5=f"{self.number(0, 70)} lb/ac")}
                  for y in range(year - 3, year) if self.chance(.25)]
        return {"rating": rating, **self.maybe(.9, rated_by="plan writer"),
                **({"bank": f"{self.r.randint(1, 4)} years"} if rating == "high" and
                   self.chance(.6) else {}), **({"ledger": ledger} if ledger else {})}

    def draw_caps(self, year):
        caps = []
        for first, last in (("01-15", "03-01"), ("02-20", "03-20"))[:self.r.randint(0, 2)]:
            kind = self.r.choice((("total_nitrogen", f"{self.number(40, 150)} lb/ac"),
                                  ("available_nitrogen", f"{self.number(20, 80)} lb/ac"),
                                  ("most", f"{self.number(.8, 3)} ton/ac")))
            caps.append({"between": f"{year}-{first}..{year}-{last}", kind[0]: kind[1]})
        return {"window_caps": caps} if caps else {}

    def draw_setbacks(self):
        kind = self.r.randint(0, 3)
        if kind == 0:
            return {"setbacks": "none"}
        strip = {"from": "stream", "edge": f"{self.r.randint(200, 800)} ft", "width": "100 ft"}
        return {"setbacks": [{**strip, **self.maybe(.7, rule="plan")}]} if kind < 3 else {}

    def draw_waits(self, crop, year):
        day = self.day(f"{year}-05-15", f"{year}-09-20")
        after = {**self.maybe(.4, harvested=day), **self.maybe(.2, days_before_harvest=60)}
        if "hay" in crop:
            after.update(self.maybe(.25, grazing=self.day(f"{year}-04-10", f"{year}-06-20"),
                                    **self.maybe(.5, days_before_grazing=30)))
        else:
            after.update(self.maybe(.15, grown_for="organic food in the soil"))
            after.update(self.maybe(.5, planted=self.day(f"{year}-03-01", f"{year}-05-14"),
                                    **self.maybe(.5, days_before_planting=30,
                                                 planting=f"{year}-03-20")))
        return after

    def draw_field(self, name, crop, area, year):
        unit, low, high = CROPS[crop]
        harvest = self.number(low, high)
        return {"name": name, "area": f"{area} ac", "crop": crop, "yield": f"{harvest} {unit}",
                "nitrogen": f"{self.number(60, 220, 0)} lb/ac",
                "open": f"{self.day(f'{year}-01-20', f'{year}-03-05')}.."
                        f"{self.day(f'{year}-04-01', f'{year}-11-30')}",
                **self.draw_setbacks(), **self.draw_caps(year), **self.draw_waits(crop, year),
                **self.maybe(.9, phosphorus=self.draw_phosphorus(year)),
                **self.maybe(.75, most=f"{self.number(1.5, 5)} ton/ac"),
                **self.maybe(.2, overlap="yes"),
                **self.maybe(.3, incorporated=self.r.choice(("at once", "never"))),
                **self.maybe(.2, credits={"legume": f"{self.number(10, 40, 0)} lb/ac"}),
                **self.maybe(.25, fertilizer=[{"grade": "0-46-0",
                                               "rate": f"{self.number(20, 90, 0)} lb/ac"}]),
                **self.maybe(.15, earlier_litter=[
                    {"year": year - self.r.randint(1, 2), "rate": f"{self.number(.5, 2.5)} ton/ac",
                     "organic_nitrogen": f"{self.number(25, 45)} lb/ton"}]),
                **self.maybe(.8, soil={"date": self.day(f"{year - 4}-06-01", f"{year}-03-01"),
                                       "P": "60 lb/ac", "K": "150 lb/ac",
                                       **self.maybe(.8, method="Mehlich-1")}),
                **self.maybe(.4, yield_got=f"{self.number(.8 * harvest, 1.1 * harvest)} {unit}")}

    def draw_buyers(self, year):
        buyers = {}
        for buyer, field, crop, area in self.plots:
            one = buyers.setdefault(buyer, {"name": buyer, "fields": []})
            one["fields"].append(self.draw_field(field, crop, area, year))
        for one in buyers.values():
            one.update({"own": "yes"} if one["name"] == "Home Place" else
                       {**self.maybe(.8, address="212 Ferry Road"),
                        **self.maybe(.7, stream="Ferry Branch")})
        return list(buyers.values())

    # ---- the log ----

    def draw_entry(self, code, number, stack, first, last, tons, report):
        when = self.day(first, last)
        words = {"received_by": "J. Osgood", "incorporated": self.r.choice(("not", "at once")),
                 "weather_before": "dry", "weather": "clear", "weather_after": "rain",
                 "soil": "moist"}
        entry = {k: v if self.chance(.95) else "" for k, v in words.items()}
        entry["analysis"] = self.r.choices((f"report of {report}", "", "a paper"), (18, 1, 1))[0]
        time = f"T{self.r.randint(6, 18):02d}:{self.r.choice((0, 15, 40)):02d}"
        return {**entry, "code": code, "number": number, "stack": stack, "tons": tons,
                "when": when + (time if self.chance(.6) else ""), "weighed": self.chance(.8),
                "replaces": None, "to": self.draw_places(tons, stack), "acres": None}

    def draw_places(self, tons, stack):
        def acres(t):
            return round(t / self.r.uniform(1, 4), 2) if self.chance(.5) else None
        names = [f"{b}/{f}" for b, f, _, _ in self.plots]
        if not stack and self.chance(.3):
            return [("stack", None, None)]
        if self.chance(.03):
            return [("Old Mill/Back", None, None)]
        if len(names) < 2 or not self.chance(.2):
            return [(self.r.choice(names), None, acres(tons))]
        one, other = self.r.sample(names, 2)
        if not stack and self.chance(.2):
            other = "stack"
        first = round(tons * self.r.uniform(.2, .8), 2)
        second = self.r.choice((None, round(tons - first, 2), first))
        return [(one, first, acres(first)), (other, second, None)]

    def draw_log(self, houses, year):
        log = []
        for house in houses:
            for side in house.get("sides", [house]):
                report = side.get("lab", house["lab"])[0]["date"]
                code = house["name"].upper() + ("-" + side["name"].upper() if side is not house
                                                else "")
                left, number = float(side["measured"]["weighed"].split()[0]), 0
                for _ in range(self.r.randint(2, 6)):
                    tons, number = self.number(6, 11, 2), number + 1
                    left -= tons
                    if left > 6:  # what is weighed anew may be more
                        log.append(self.draw_entry(code, number, False, f"{year}-02-05",
                                                   f"{year}-04-05", tons, report))
                log += self.draw_from_stack(code, year, report, log)
        self.r.shuffle(log)
        if self.chance(.1):
            log.append({**self.r.choice(log), "code": "WEST"})
        issued = [self.hand_out(e, year) for e in log if self.chance(.3)]
        return self.corrected(issued + log, year)

    def hand_out(self, entry, year):
        """The ticket of a load, handed out before: for its field, or for another."""
        place, rate = entry["to"][0][0], self.number(1, 4)
        if self.chance(.2):
            place = "/".join(self.r.choice(self.plots)[:2])
        acres = round(entry["tons"] / rate, 2)
        entry["ticket_rate"] = {place: entry["tons"] / acres}
        entry["ticket_day"] = f"{year}-02-16"
        return {**entry, "issued": True, "when": f"{year}-02-04", "planned": entry["ticket_day"],
                "to": [(place, entry["tons"], acres if place != "stack" else None)],
                "weighed": False, "acres": None, "certainty": "firm"}

    def draw_from_stack(self, code, year, report, log):
        """What lies there of the lot may come out, of this year and of those before."""
        for e in log:
            if e["code"] == code and any(p[0] == "stack" for p in e["to"]):
                self.waiting.setdefault(code, []).append(report)
        out, waiting = [], self.waiting.get(code, [])
        while waiting and self.chance(.6):
            lay_longest = waiting.pop(0)
            first = "02-05" if self.chance(.4) else "04-06"
            out.append(self.draw_entry(code, len(out) + 1, True, f"{year}-{first}",
                                       f"{year}-10-20", self.number(4, 10, 2),
                                       self.r.choice((lay_longest, report))))
        return out

    def corrected(self, log, year):
        for number in range(1, len(log) + 1):
            kind = self.r.choices(("stands", "read anew", "struck"), (17, 2, 1))[0]
            if kind == "stands" or log[number - 1].get("issued"):
                continue
            now = {**log[number - 1], "replaces": number}
            if kind == "struck":
                now["tons"] = 0
            else:
                now["tons"] = round(now["tons"] * self.r.uniform(.9, 1.05), 2)
                now["when"] = self.day(f"{year}-02-05", f"{year}-04-05") if not now["stack"] \
                    else now["when"]
            log.append(now)
        return log

    # ---- a year ----

    def draw_crew(self, year):
        holds = [self.day(f"{year}-02-05", f"{year}-04-05") +
                 self.r.choices(("", " until 12:00", " from 12:00"), (6, 1, 1))[0]
                 for _ in range(self.r.randint(0, 2))]
        return {"arrives": f"{year}-02-05", "days_off": [self.r.choice(WEEKDAYS)],
                **({"hold_days": sorted({h[:10]: h for h in holds}.values())} if holds else {}),
                **self.maybe(.5, starts="07:00"), "hours": "9 h/day",
                **self.maybe(.8, hauler="Quarry Lane Cleanout",
                             **self.maybe(.8, hauler_permit="none"))}

    def draw_year(self, year):
        houses = [self.draw_house(name, sides, year) for name, sides in self.houses]
        facts = {"name": "Cedar Fork Flocks", **self.maybe(.7, permit="none"),
                 **self.maybe(.8, plan={
                     "on_site": self.r.choice(("yes", "no")),
                     **self.maybe(.8, date=self.day(f"{year - 6}-06-01", f"{year}-02-20")),
                     **self.maybe(.7, records=self.r.choice(("federal", "state",
                                                             "federal and state")))})}
        truck = {"name": "spreader truck", "count": 1, "payload": "11 ton", "body": "30 yd3",
                 **self.maybe(.7, calibrated=self.day(f"{year - 1}-01-01", f"{year}-02-20")),
                 **self.maybe(.7, inspected=self.day(f"{year - 1}-01-01", f"{year}-02-20")),
                 **self.maybe(.7, rate={"least": f"{self.number(.3, 2.5)} ton/ac",
                                        "most": f"{self.number(2.5, 6)} ton/ac",
                                        **self.maybe(.7, step="0.25 ton/ac")})}
        farm = {"farm": facts, "tables": {"removal": "us-crops", "nitrogen": "psu-pan",
                                          "carryover": "cornell-n"},
                "houses": houses, "buyers": self.draw_buyers(year), "crew": self.draw_crew(year),
                **self.maybe(.15, trucks=[truck]),
                **self.maybe(.3, ages={"soil": f"{self.r.randint(1, 4)} years"}),
                **self.maybe(.9, stack={
                    "roofed": "yes", "length": "80 ft", "width": "40 ft", "height": "6 ft",
                    "kept_until": self.day(f"{year}-06-01", f"{year}-12-31"),
                    **self.maybe(.5, most_days=f"{self.r.randint(20, 200)} days")})}
        return {"name": str(year), "farm": farm, "log": self.draw_log(houses, year)}
