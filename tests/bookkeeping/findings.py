"""What the audit has to find, by the second bookkeeper's own reckoning.

A finding is (id, state, field, entries).
"""
import collections
import re

from .books import day_of, minute_of, number
from .farms import WEEKDAYS, ticket
from .plots import OPEN, Plot

Finding = collections.namedtuple("Finding", "id state field entries")
FEDERAL = set("crop and yield,application date,weather,test methods,test results,basis of rate,"
              "planned nutrients,applied nutrients,method,calibration,setbacks kept,"
              "phosphorus ledger,transfer date,recipient,tons,analysis handed over,plan on site,"
              "yearly totals".split(","))
STATE = {"acknowledgement", "source farm", "hauler", "place of use"}
RATE_ITEMS = ("more litter than the rate", "more nitrogen than the need",
              "more phosphate than the rating allows")
GOOD_PRACTICE = {"spreadable acres", "soil condition", "planting and harvest"}


def slug(text):
    return re.sub("[^a-z0-9]+", "_", text.lower()).strip("_")


def ident(item, of, *more):
    return ".".join(slug(s) for s in (item, *of.split("/"), *more))


def in_hold(hold, minute):
    """Of "2026-02-23 until 12:00" only the hours; a load without an hour is not held to them."""
    if len(hold) == 10:
        return True
    _, which, hour = hold.split()
    limit = minute_of("2000-01-01T" + hour)
    return minute is not None and (minute < limit if which == "until" else minute >= limit)


def same_day(date, years):
    """So many years later; of February 29 the 28th where there is none."""
    leap = date.month == 2 and date.day == 29
    return date.replace(year=date.year + years, day=28 if leap and (date.year + years) % 4 else
                        date.day)


class Audit:
    """All findings of the newest file."""

    def __init__(self, books):
        self.books, self.year, self.farm = books, books.now, books.now.farm
        self.found, self.asked = [], {}
        facts = self.farm["farm"]
        self.records = facts.get("plan", {}).get("records", "")
        self.fields = {place: Plot(books, place) for place in self.year.fields}
        self.plots = [p for p in self.fields.values() if p.own or p.spread]
        self.limits()
        self.old_papers()
        self.stack()
        self.days()
        self.of_farm()
        for load in self.year.loads:
            self.transfer(load)
        for plot in self.plots:
            self.of_field(plot)

    def add(self, item, of, state, field=None, entries=(), more=()):
        self.found.append(Finding(ident(item, of, *more), state, field,
                                  tuple(str(e) for e in entries)))
        required = (state == "missing" and item not in GOOD_PRACTICE and
                    not (item in FEDERAL and "federal" not in self.records) and
                    not (item in STATE and "state" not in self.records))
        if field is not None and item in FEDERAL:  # others' fields are theirs to keep
            required = required and self.year.is_own(field)
        self.asked[self.found[-1].id] = required or state == "limit exceeded"

    def ask(self, item, of, given, **more):
        self.add(item, of, "present" if given else "missing", **more)

    def strict(self):
        return 1 if any(self.asked.values()) else 0

    # ---- rates ----

    def limits(self):
        for plot in self.fields.values():
            whose = "limit exceeded" if "phosphorus" in plot.field else "caution"
            if not plot.rows and plot.phosphate is not None and plot.bought > plot.phosphate * OPEN:
                self.add(RATE_ITEMS[2], plot.place, whose, plot.place)  # no litter, bought alone
        for plot in self.plots:
            rows = plot.rows
            if not rows:
                continue
            phosphate = plot.pounds("P2O5") / plot.acres() + plot.bought
            usable = sum(r.pounds for r in rows) / plot.acres()
            self.over(plot, RATE_ITEMS[0], [(r.load, r.rate, r.limit, r.whose, "rate" in r.allowed)
                                            for r in rows], plot.overlap and plot.is_crowded())
            self.over(plot, RATE_ITEMS[1], [(r.load, usable if plot.overlap else r.usable,
                                             plot.nitrogen, "limit exceeded",
                                             "nitrogen" in r.allowed) for r in rows])
            if plot.phosphate is not None:
                whose = "limit exceeded" if "phosphorus" in plot.field else "caution"
                self.over(plot, RATE_ITEMS[2], [(r.load, phosphate if plot.overlap else r.phosphate,
                                                 plot.phosphate, whose, "phosphate" in r.allowed)
                                                for r in rows])
            if not plot.overlap and plot.logged_acres() > plot.spreadable * OPEN:
                self.add("more acres than the field has", plot.place, "limit exceeded", plot.place,
                         [load.entry for load, i in plot.spread if load.parts[i].acres])

    def over(self, plot, item, rows, all_of_them=False):
        """Of loads, each with what went on, the limit, the class and whether its ticket allowed it:
        one finding a field, of the class of the worst; of those allowed a caution of its own."""
        above = [r for r in rows if all_of_them or r[1] > r[2] * OPEN]
        over, allowed = [r for r in above if not r[4]], [r for r in above if r[4]]
        if over:
            worst = max(over, key=lambda r: r[1] - r[2])
            self.add(item, plot.place, worst[3], plot.place, [r[0].entry for r in over])
        if allowed:
            self.add(item + " as counted since", plot.place, "caution", plot.place,
                     [r[0].entry for r in allowed])

    # ---- papers ----

    def old_papers(self):
        facts, ages = self.farm["farm"], self.farm.get("ages", {})
        every = self.year.loads
        self.paper("nutrient management plan", "plan", "the farm",
                   facts.get("plan", {}).get("date"), 5, False, every)
        for year in self.books.years:
            for lot in year.lots.values():
                of = lot.name if year is self.year else f"{lot.name} of {year.name}.yaml"
                self.paper("litter analysis", "litter analysis", of, lot.lab["date"],
                           number(ages.get("litter", 1)), "litter" in ages,
                           [load for load in every if lot in self.books.all_litters(load)])
        for plot in self.plots:
            self.paper("soil test", "soil test", plot.place,
                       plot.field.get("soil", {}).get("date"), number(ages.get("soil", 3)),
                       "soil" in ages, [load for load, _ in plot.spread])
        for truck in self.farm.get("trucks", []):
            for what, key in (("calibration", "calibrated"), ("inspection", "inspected")):
                self.paper(what, what, truck["name"], truck.get(key), 1, False, every)

    def paper(self, what, short, of, date, years, own, loads):
        if date is None or not loads:
            return
        date, first = day_of(date), min(load.day for load in loads)
        if date > first:
            self.add("dated after litter went out", of, "caution", more=[what])
        if max(load.day for load in loads) > same_day(date, int(years)):
            self.add(f"old {short}", of, "limit exceeded" if own else "caution")

    # ---- the stack ----

    def stack(self):
        rules, stay = self.farm.get("stack"), self.books.longest_stay()
        if self.books.unlogged() > .0005:
            self.add("more out of the stack than went in", "the stack", "missing")
        if rules is None or stay is None:
            return
        if "most_days" in rules and stay[0] > number(rules["most_days"]):
            self.add("longer in the stack than allowed", "the stack", "limit exceeded")
        if self.books.emptied() > day_of(rules["kept_until"]):
            self.add("in the stack past its last day", "the stack", "limit exceeded")

    # ---- days ----

    def days(self):
        for plot in self.plots:
            self.waits(plot)
        for load in self.year.loads:
            entry = f"entry {load.entry}"
            for p in (p for p in load.parts if p.place != "stack"):
                first, last = self.fields[p.place].open_days()
                if not first <= load.day <= last:
                    self.add("spread outside the open days", p.place, "limit exceeded", p.place,
                             [load.entry], [entry])
            self.crew(load, entry)
            if not load.parts:
                self.add("load of unknown place", load.ticket, "missing", None, [load.entry],
                         [entry])
        for n, e in self.year.strange:
            self.add("load of an unknown side", ticket(e["code"], e["number"], e["stack"]),
                     "missing", None, [n], [f"entry {n}"])

    def crew(self, load, entry):
        crew = self.farm["crew"]
        for hold in crew.get("hold_days", []):
            if hold[:10] == str(load.day) and in_hold(hold, load.minute):
                self.add("hauled on a hold day", load.ticket, "limit exceeded", None, [load.entry],
                         [entry])
        if WEEKDAYS[load.day.weekday()] in crew["days_off"]:
            self.add("hauled on a day off", load.ticket, "note", None, [load.entry], [entry])
        if load.minute is not None and "starts" in crew:
            start = minute_of("2000-01-01T" + crew["starts"])
            if not start <= load.minute <= start + number(crew["hours"]) * 60:
                self.add("hauled outside the crew's hours", load.ticket, "note", None,
                         [load.entry], [entry])

    def waits(self, plot):
        f = plot.field
        organic = [(120, "caution")] if f.get("grown_for") == "organic food in the soil" else []
        harvest = ([(f["days_before_harvest"], "limit exceeded")]
                   if "days_before_harvest" in f else []) + organic
        grazing = [(f["days_before_grazing"], "limit exceeded")] \
            if "days_before_grazing" in f else []
        self.too_soon(plot, "harvested too soon", f.get("harvested"), harvest)
        self.too_soon(plot, "grazed too soon", f.get("grazing"), grazing + [(21, "caution")])
        if "planted" in f and "days_before_planting" in f:
            early = [load.entry for load, _ in plot.spread
                     if (day_of(f["planted"]) - load.day).days > f["days_before_planting"]]
            if early:
                self.add("spread too long before planting", plot.place, "limit exceeded",
                         plot.place, early)

    def too_soon(self, plot, item, day, waits):
        for days, state in waits if day else ():
            soon = [load.entry for load, _ in plot.spread
                    if 0 <= (day_of(day) - load.day).days < days]
            if soon:
                self.add(item, plot.place, state, plot.place, soon)
                return

    # ---- records of the farm and of what left it ----

    def of_farm(self):
        self.ask("plan on site", "the farm",
                 self.farm["farm"].get("plan", {}).get("on_site") == "yes")
        self.ask("yearly totals", "the farm", all("flocks" in h for h in self.farm["houses"]))
        if "trucks" not in self.farm and self.year.loads:
            self.ask("calibration", "the farm", False)
        for truck in self.farm.get("trucks", []):
            self.ask("calibration", truck["name"], {"calibrated", "inspected"} <= set(truck))

    def transfer(self, load):
        of, more = f"load {load.ticket}", {"entries": [load.entry],
                                           "more": [f"entry {load.entry}"]}
        if not load.parts:
            for item in ("recipient", "applied nutrients"):
                self.ask(item, of, False, **more)
            return
        buyers = []
        for p in load.parts:
            if p.place != "stack" and not self.year.is_own(p.place):
                buyer = self.year.fields[p.place][0]
                buyers += [buyer] if buyer not in buyers else []
        for n, buyer in enumerate(buyers):
            name = of if n == 0 else f"{of}, to {buyer['name']}"
            self.ask("recipient", name, "address" in buyer, **more)
            self.ask("tons", name, True, **more)
            self.ask("place of use", name, "stream" in buyer, **more)
        if buyers:
            crew = self.farm["crew"]
            self.ask("transfer date", of, True, **more)
            self.ask("analysis handed over", of, self.is_its_report(load), **more)
            self.ask("acknowledgement", of, bool(load.words["received_by"]), **more)
            self.ask("source farm", of, "permit" in self.farm["farm"], **more)
            self.ask("hauler", of, {"hauler", "hauler_permit"} <= set(crew), **more)

    def is_its_report(self, load):
        """Of litter that is in the load, with its laboratory."""
        labs = [lot.lab for lot in self.books.all_litters(load)]
        return any(lab["date"] in load.words["analysis"] and "by" in lab for lab in labs)

    # ---- records of a field ----

    def of_field(self, plot):
        f, place = plot.field, plot.place

        def file(item, given):
            self.ask(item, place, given, field=place)
        file("spreadable acres", True)
        file("crop and yield", True)
        file("planting and harvest", {"harvested", "yield_got"} <= set(f) and
             ("hay" in f["crop"] or "planted" in f))
        self.from_log(plot)
        lots = [lot for mix in plot.litter.values() for lot in mix.tons]
        file("test methods", "method" in f.get("soil", {}) and
             all("method" in lot.lab for lot in lots))
        file("test results", "soil" in f)
        file("basis of rate", "rated_by" in f.get("phosphorus", {}))
        file("planned nutrients", "trucks" in self.farm)
        self.ledgers(plot, file)
        setbacks = f.get("setbacks")
        file("setbacks kept", setbacks == "none" or
             (setbacks is not None and all("rule" in s for s in setbacks)))

    def from_log(self, plot):
        loads = list(dict.fromkeys(load.entry for load, _ in plot.spread))
        words_of = {load.entry: load.words for load, _ in plot.spread}
        asked = {"application date": (), "applied nutrients": (), "soil condition": ("soil",),
                 "weather": ("weather_before", "weather", "weather_after")}
        if plot.field.get("incorporated") != "never":
            asked["method"] = ("incorporated",)
        elif loads:
            self.ask("method", plot.place, True, field=plot.place)
        for item, keys in asked.items() if loads else ():
            bare = [e for e in loads if not all(words_of[e][k] for k in keys)]
            self.ask(item, plot.place, not bare, field=plot.place, entries=bare or loads)

    def ledgers(self, plot, file):
        rated = plot.field.get("phosphorus", {})
        told = "ledger" in rated or "earlier_litter" in plot.field
        if told or "bank" in rated:
            file("phosphorus ledger", told or bool(plot.past))
        for year, (own, logged, _) in plot.ledger.items():
            if None not in (own, logged) and differ(own, logged):
                self.add("ledger differs from the logs", plot.place, "missing", plot.place,
                         more=[str(year)])
        for year, logged in plot.logged_nitrogen.items():
            own = plot.told_nitrogen(year)
            if own is not None and differ(own, logged):
                self.add("earlier litter differs from the logs", plot.place, "missing",
                         plot.place, more=[str(year)])


def differ(a, b):
    return a > b * OPEN or b > a * OPEN
