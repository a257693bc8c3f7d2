"""Breaches, one at a time, in a log that was hauled exactly as its tickets were handed out.

The program hands the tickets out, and each load goes as its ticket says: that gives no finding but
records that are present. Each breach then gives its own findings, no others.
"""
import copy
import csv
import json
import os
import subprocess
import tempfile

from .farms import COLUMNS, LABORATORY, ticket, write

REPORT = "report of 2026-01-20"
HILL, STRIP = "Home Place/Hill", "Larkspur Hay/Strip"
SOIL = {"date": "2025-10-14", "method": "Mehlich-1", "P": "60 lb/ac", "K": "150 lb/ac"}
MEADOW, CORN = "Larkspur Hay/Meadow", "Osgood Row Crops/Corn"


def lab(n):
    return [{"date": "2026-01-20", "by": LABORATORY, "method": "combustion", "moisture": "30 %",
             "N": f"{n} lb/ton", "NH4N": "8 lb/ton", "P2O5": "40 lb/ton", "K2O": "36 lb/ton"}]


def field(name, area, crop, yields, most, opens, **more):
    return {"name": name, "area": f"{area} ac", "crop": crop, "yield": yields,
            "yield_got": yields, "nitrogen": "220 lb/ac", "most": f"{most} ton/ac", "open": opens,
            "setbacks": "none", "incorporated": "at once",
            "soil": SOIL,
            "phosphorus": {"rating": "low", "rated_by": "plan writer", "date": "2025-10-30"},
            **more}


def buyers():
    hay, corn = "tall fescue hay", "corn grain"
    return [
        {"name": "Home Place", "own": "yes", "distance": "1 mi", "fields": [
            field("Hill", 6, hay, "4 ton/ac", 2.5, "2026-02-16..2026-06-30",
                  harvested="2026-07-20",
                  phosphorus={"rating": "high", "rated_by": "plan writer", "bank": "3 years",
                              "ledger": [{"year": 2025, "P2O5": "20 lb/ac",
                                          "removed": "48 lb/ac"}]})]},
        {"name": "Larkspur Hay", "address": "212 Ferry Road", "stream": "Ferry Branch",
         "distance": "4 mi", "price": "30 $/ton", "fields": [
             field("Strip", 8, hay, "4 ton/ac", 4, "2026-02-16..2026-05-29",
                   harvested="2026-08-03", days_before_harvest=60, harvest="2026-08-03",
                   window_caps=[{"between": "2026-02-16..2026-03-06",
                                 "total_nitrogen": "100 lb/ac"}]),
             field("Meadow", 12, hay, "4 ton/ac", 2, "2026-03-16..2026-08-28",
                   harvested="2026-09-30", grazing="2026-09-25", days_before_grazing=20)]},
        {"name": "Osgood Row Crops", "address": "88 Quarry Lane", "stream": "Quarry Branch",
         "distance": "6 mi", "price": "30 $/ton", "fields": [
             field("Corn", 12, corn, "150 bu/ac", 2, "2026-02-16..2026-04-17",
                   planting="2026-03-20", planted="2026-03-20", days_before_planting=35,
                   harvested="2026-09-15")]}]


def clean_year():
    house = {"name": "North", "lab": lab(50), "flocks": [
        {"birds": "broiler", "count": 16000, "placed": "2025-05-05", "removed": "2026-01-12"}],
        "sides": [{"name": "left", "measured": {"weighed": "37 ton"}},
                  {"name": "right", "measured": {"weighed": "38 ton"}, "lab": lab(40)}]}
    return {"name": "2026", "log": [], "farm": {
        "farm": {"name": "Cedar Fork Flocks", "permit": "none", "earlier": ["2025.yaml"],
                 "plan": {"on_site": "yes", "by": "plan writer", "date": "2025-10-30",
                          "records": "federal and state"}},
        "tables": {"removal": "us-crops", "nitrogen": "psu-pan", "carryover": "cornell-n"},
        "houses": [house], "buyers": buyers(),
        "trucks": [{"name": "spreader truck", "count": 1, "payload": "9.4 ton", "body": "30 yd3",
                    "road": "30 mph", "swath": "30 ft", "spreading": "5 mph",
                    "calibrated": "2026-01-20", "inspected": "2026-02-10"}],
        "crew": {"arrives": "2026-02-16", "starts": "07:00", "hours": "10 h/day",
                 "days_off": ["sunday"], "hold_days": ["2026-02-27", "2026-03-02 until 12:00"],
                 "hauler": "Quarry Lane Cleanout", "hauler_permit": "none",
                 "loader": {"bucket": "2.2 yd3", "fill": "95 %", "load_and_dump": "30 s",
                            "travel": "5 mph"}},
        "stack": {"roofed": "yes", "length": "80 ft", "width": "40 ft", "height": "6 ft",
                  "most_days": "60 days", "kept_until": "2026-06-30"}}}


def year_before():
    """The same farm a year earlier; 3 tons of 40 lb of P2O5 went on the 6 acres of the Hill."""
    text = json.dumps(clean_year()).replace("2025", "2024").replace("2026", "2025")
    year = json.loads(text)
    del year["farm"]["farm"]["earlier"]
    year["log"] = [{"code": "NORTH-LEFT", "number": 1, "stack": False, "when": "2025-02-17",
                    "tons": 3, "weighed": True, "replaces": None, "acres": None,
                    "to": [(HILL, None, None)]}]
    return year


def handed_out(program, folder):
    """The rows of the tickets, as the program writes them into the log."""
    path = write(folder, [clean_year(), year_before()])
    log = path.replace(".yaml", ".haul.csv")
    os.remove(log)
    run = subprocess.run([program, "tickets", path, "--issue"], capture_output=True, text=True)
    if run.returncode:
        raise SystemExit(f"bookkeeper: no tickets: {run.stderr}")
    with open(log, newline="", encoding="utf-8") as f:
        return list(csv.DictReader(f))


class Case:
    """The clean farm and its log, in which something is to be changed."""

    def __init__(self, issued):
        self.farm = clean_year()["farm"]
        self.issued = issued
        self.rows = [{**row, "entry": str(len(issued) + n), "kind": "hauled", "certainty": "",
                      "when": row["planned"], "planned": "", "batch": "", "weighed": "yes",
                      "received_by": "J. Osgood", "analysis": REPORT, "incorporated": "at once",
                      "weather_before": "dry", "weather": "clear", "weather_after": "rain",
                      "soil": "moist", "truck": "spreader truck"}
                     for n, row in enumerate(copy.deepcopy(issued), 1)]

    def to(self, place):
        """All loads that went there; into the stack too."""
        return [r for r in self.rows if r["field"].split(" (")[0] == place]

    def field(self, place):
        return next(f for b in self.farm["buyers"] for f in b["fields"]
                    if f"{b['name']}/{f['name']}" == place)

    def house(self):
        return self.farm["houses"][0]

    def change_load(self, place, changes):
        """Of the first load there. "rate" and "acres" say on how many acres it went."""
        row, acres = self.to(place)[0], changes.pop("acres", None)
        if "rate" in changes:
            acres = float(row["tons"]) / changes.pop("rate")
        if acres:
            row["field"] = f"{place} ({row['tons']} ton, {acres:.4f} ac)"
        row.update(changes)
        return row

    def change_field(self, place, changes):
        """None takes a key out."""
        one = self.field(place)
        one.update(changes)
        for key in (k for k, v in changes.items() if v is None):
            del one[key]

    def write(self, folder):
        path = write(folder, [{"name": "2026", "farm": self.farm, "log": []}, year_before()])
        if not self.issued and os.path.exists(path.replace(".yaml", ".haul.csv.copy")):
            os.remove(path.replace(".yaml", ".haul.csv.copy"))
        with open(path.replace(".yaml", ".haul.csv"), "w", newline="", encoding="utf-8") as f:
            rows = csv.DictWriter(f, COLUMNS, restval="")
            rows.writeheader()
            rows.writerows(self.issued + self.rows)
        return path


# ---- changes that are more than words of one load or keys of one field ----

def swap_sides(c):
    """The left side holds 50 lb of N a ton, the right one 40."""
    left, right = c.to(HILL)[0], c.to(STRIP)[0]
    left["field"], right["field"] = right["field"], left["field"]


def strike_into_stack(c):
    row = c.to("stack")[0]
    c.rows.append({**row, "entry": str(len(c.issued + c.rows) + 1), "tons": "0", "kind": "strike",
                   "replaces": row["entry"]})


def no_laboratory(c):
    for report in c.house()["lab"] + c.house()["sides"][1]["lab"]:
        del report["by"]


def plan_not_on_site(c):
    c.farm["farm"]["plan"]["on_site"] = "no"


def soil_within_two_years(c):
    c.farm["ages"] = {"soil": "2 years"}


def no_days_in_stack(c):
    del c.farm["stack"]["most_days"]


def never_issued(c):
    """No ticket says what was allowed: the files do."""
    for n, row in enumerate(c.rows, 1):
        row["entry"] = str(n)
    c.issued = []


# ---- the breaches ----

EXCEEDED, CAUTION, NOTE, MISSING = "limit exceeded", "caution", "note", "missing"
RATE, NEED = "more litter than the rate", "more nitrogen than the need"
RATING = "more phosphate than the rating allows"
SINCE = " as counted since"
OUTSIDE, HOLD = "spread outside the open days", "hauled on a hold day"
HANDED = "analysis handed over"
# Whose a finding is: of the load on the field, of the load, of all loads of the field, of the field's
# other loads or of other farms', of the field, of none.
LOAD, ENTRY, ALL, REST, OTHERS, PLACE, FARM = range(7)


def breach(name, status, place, *finds, load=None, field=None, change=None):
    """Name, exit status of --strict, what is changed; finds: item, class, whose."""
    return name, status, place, finds, load or {}, field or {}, change


def ledger(year, on, removed):
    return {"rating": "high", "rated_by": "plan writer", "bank": "3 years",
            "ledger": [{"year": year, "P2O5": f"{on} lb/ac", "removed": f"{removed} lb/ac"}]}


BREACHES = (
    breach("hauled as issued", 0, HILL),
    breach("acres left out", 0, HILL, load={"field": HILL}),
    breach("twice the rate", 1, CORN, (RATE, EXCEEDED, LOAD), load={"rate": 4}),
    breach("above the published rate", 0, CORN, (RATE, CAUTION, LOAD), load={"rate": 4},
           field={"most": None}),
    breach("more nitrogen than needed", 1, CORN, (RATE, EXCEEDED, ALL), (NEED, EXCEEDED, ALL),
           field={"nitrogen": "40 lb/ac"}, change=never_issued),
    breach("more than found needed since", 0, CORN, (RATE + SINCE, CAUTION, ALL),
           (NEED + SINCE, CAUTION, ALL), field={"nitrogen": "40 lb/ac"}),
    breach("one side at the rate of the other", 1, STRIP, (RATE, EXCEEDED, LOAD),
           change=swap_sides),
    breach("above a limit of the season", 1, STRIP, (RATE, EXCEEDED, LOAD), load={"rate": 3.9}),
    breach("the same after the season", 0, STRIP, load={"rate": 3.9, "when": "2026-03-09"}),
    breach("before the open days", 1, HILL, (OUTSIDE, EXCEEDED, LOAD),
           load={"when": "2026-02-14"}),
    breach("after the open days", 1, CORN, (OUTSIDE, EXCEEDED, LOAD), load={"when": "2026-04-20"}),
    breach("on a hold day", 1, HILL, (HOLD, EXCEEDED, ENTRY), load={"when": "2026-02-27"}),
    breach("in the forenoon of a hold day", 1, HILL, (HOLD, EXCEEDED, ENTRY),
           load={"when": "2026-03-02T09:30"}),
    breach("in the afternoon of it", 0, HILL, load={"when": "2026-03-02T13:30"}),
    breach("on a day off", 0, HILL, ("hauled on a day off", NOTE, ENTRY),
           load={"when": "2026-02-22"}),
    breach("after hours", 0, HILL, ("hauled outside the crew's hours", NOTE, ENTRY),
           load={"when": "2026-02-16T17:40"}),
    breach("harvested before the wait", 1, STRIP, ("harvested too soon", EXCEEDED, ALL),
           field={"harvested": "2026-04-10"}),
    breach("grazed before the wait", 1, MEADOW, ("grazed too soon", EXCEEDED, LOAD),
           (OUTSIDE, EXCEEDED, LOAD), load={"when": "2026-03-18"},
           field={"grazing": "2026-04-06"}),
    breach("cattle too soon", 0, HILL, ("grazed too soon", CAUTION, ALL),
           field={"grazing": "2026-03-05"}),
    breach("planted late", 1, CORN, ("spread too long before planting", EXCEEDED, ALL),
           field={"planted": "2026-03-26"}),
    breach("acres covered twice", 1, CORN, ("more acres than the field has", EXCEEDED, ALL),
           load={"acres": 8}),
    breach("acres that may overlap", 0, CORN, load={"acres": 8}, field={"overlap": "yes"}),
    breach("bank used up", 1, HILL, (RATE, EXCEEDED, ALL), (RATING, EXCEEDED, ALL),
           ("ledger differs from the logs", MISSING, PLACE),
           field={"phosphorus": ledger(2025, 150, 48)}, change=never_issued),
    breach("own ledger against the log", 1, HILL, ("ledger differs from the logs", MISSING, PLACE),
           field={"phosphorus": ledger(2025, 0, 48)}),
    breach("own earlier litter against the log", 1, HILL,
           ("earlier litter differs from the logs", MISSING, PLACE),
           field={"earlier_litter": [{"year": 2025, "rate": "0.2 ton/ac",
                                      "organic_nitrogen": "40 lb/ton"}]}),
    breach("the year before told by its log alone", 0, HILL,
           field={"phosphorus": {"rating": "high", "rated_by": "plan writer", "bank": "3 years"}}),
    breach("bought phosphate over the rating", 1, HILL, (RATE, EXCEEDED, ALL),
           (RATING, EXCEEDED, ALL), field={"fertilizer": [{"grade": "0-46-0",
                                                           "rate": "120 lb/ac"}]},
           change=never_issued),
    breach("rated very high", 1, HILL, (RATE, EXCEEDED, ALL), (RATING, EXCEEDED, ALL),
           field={"phosphorus": {"rating": "very high", "rated_by": "plan writer"}},
           change=never_issued),
    breach("rated very high since", 0, HILL, (RATE + SINCE, CAUTION, ALL),
           (RATING + SINCE, CAUTION, ALL),
           field={"phosphorus": {"rating": "very high", "rated_by": "plan writer"}}),
    breach("more than its ticket, rated very high since", 1, HILL, (RATE, EXCEEDED, LOAD),
           (RATING, EXCEEDED, LOAD), (RATE + SINCE, CAUTION, REST),
           (RATING + SINCE, CAUTION, REST), load={"rate": 6},
           field={"phosphorus": {"rating": "very high", "rated_by": "plan writer"}}),
    breach("too long in the stack", 1, MEADOW, ("longer in the stack than allowed", EXCEEDED, FARM),
           load={"when": "2026-04-20"}),
    breach("past the last day of the stack", 1, MEADOW,
           ("in the stack past its last day", EXCEEDED, FARM),
           load={"when": "2026-07-06"}, change=no_days_in_stack),
    breach("more out of the stack than in", 1, MEADOW,
           ("more out of the stack than went in", MISSING, FARM), change=strike_into_stack),
    breach("of an unknown side", 1, HILL, ("load of an unknown side", MISSING, ENTRY),
           load={"ticket": ticket("WEST", 1)}),
    breach("to an unknown field", 1, HILL, ("load of unknown place", MISSING, ENTRY),
           ("recipient", MISSING, ENTRY), ("applied nutrients", MISSING, ENTRY),
           load={"field": "Old Mill/Back"}),
    breach("no weather", 1, HILL, ("weather", MISSING, LOAD), load={"weather_after": ""}),
    breach("no weather on another's field", 0, STRIP, ("weather", MISSING, LOAD),
           load={"weather": ""}),
    breach("no soil", 0, HILL, ("soil condition", MISSING, LOAD), load={"soil": ""}),
    breach("no method", 1, HILL, ("method", MISSING, LOAD), load={"incorporated": ""}),
    breach("nobody signed", 1, STRIP, ("acknowledgement", MISSING, ENTRY),
           load={"received_by": ""}),
    breach("analysis without date", 1, STRIP, (HANDED, MISSING, ENTRY),
           load={"analysis": "the newest one"}),
    breach("analysis without laboratory", 1, HILL, (HANDED, MISSING, OTHERS),
           change=no_laboratory),
    breach("soil test too old", 0, HILL, ("old soil test", CAUTION, FARM),
           field={"soil": {**SOIL, "date": "2022-11-02"}}),
    breach("soil test older than the plan has", 1, HILL, ("old soil test", EXCEEDED, FARM),
           field={"soil": {**SOIL, "date": "2024-01-10"}}, change=soil_within_two_years),
    breach("soil test dated after", 0, HILL, ("dated after litter went out", CAUTION, FARM),
           field={"soil": {**SOIL, "date": "2026-03-02"}}),
    breach("no plan on the farm", 1, HILL, ("plan on site", MISSING, FARM),
           change=plan_not_on_site),
    breach("setback without rule", 1, HILL, ("setbacks kept", MISSING, PLACE),
           field={"setbacks": [{"from": "well", "edge": "10 ft", "width": "10 ft"}]}),
    breach("nobody said there is no stream", 1, HILL, ("setbacks kept", MISSING, PLACE),
           field={"setbacks": None}),
)
COUNT = len(BREACHES)


def expected(case, place, finds, entry):
    others = [r["entry"] for r in case.rows if r["field"].split("/")[0] in
              ("Larkspur Hay", "Osgood Row Crops")]
    whole = [r["entry"] for r in case.to(place)]
    whose = {LOAD: (place, [entry]), ENTRY: (None, [entry]), ALL: (place, whole),
             REST: (place, [e for e in whole if e != entry]), PLACE: (place, []), FARM: (None, [])}
    for item, state, of in finds:
        if of == OTHERS:
            yield from ((item, state, None, (e,)) for e in others)
        else:
            yield item, state, whose[of][0], tuple(whose[of][1])


def one_breach(program, dossier, folder, issued, row):
    """What is wrong; None: nothing."""
    name, status, place, finds, load, field, change = row
    case = Case(issued)
    if change:
        change(case)
    case.change_field(place, field)
    entry = case.change_load(place, dict(load))["entry"]
    got, told = dossier(program, case.write(folder))
    found = sorted(((f["item"], f["state"], f["field"], tuple(f["entries"]))
                    for f in told["findings"] if f["state"] != "present"), key=str)
    ours = sorted(expected(case, place, finds, entry), key=str)
    if (found, got) == (ours, status):
        return None
    return f"breach \"{name}\": exit status {got} for {status}; found {found}; expected {ours}"


def run(program, dossier):
    """How many give other findings than theirs."""
    with tempfile.TemporaryDirectory() as folder:
        issued = handed_out(program, folder)
        wrong = [one_breach(program, dossier, folder, issued, row) for row in BREACHES]
    for line in filter(None, wrong):
        print(line)
    return sum(map(bool, wrong))
