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
from .findings import KNOWN

REPORT = "report of 2026-01-20"
HILL, STRIP = "Home Place/Hill", "Larkspur Hay/Strip"
MEADOW, CORN = "Larkspur Hay/Meadow", "Osgood Row Crops/Corn"


def lab(n):
    return [{"date": "2026-01-20", "by": LABORATORY, "method": "combustion", "moisture": "30 %",
             "N": f"{n} lb/ton", "NH4N": "8 lb/ton", "P2O5": "40 lb/ton", "K2O": "36 lb/ton"}]


def field(name, area, crop, yields, most, opens, **more):
    return {"name": name, "area": f"{area} ac", "crop": crop, "yield": yields,
            "yield_got": yields, "nitrogen": "220 lb/ac", "most": f"{most} ton/ac", "open": opens,
            "setbacks": "none", "incorporated": "at once",
            "soil": {"date": "2025-10-14", "method": "Mehlich-1", "P": "60 lb/ac",
                     "K": "150 lb/ac"},
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
    """The clean farm and its log, in which something may be changed."""

    def __init__(self, issued):
        self.farm = clean_year()["farm"]
        self.issued = issued
        self.rows = [{**row, "entry": str(len(issued) + n), "kind": "hauled", "certainty": "",
                      "when": row["planned"], "planned": "", "batch": "", "weighed": "yes",
                      "received_by": "J. Osgood", "analysis": REPORT, "incorporated": "at once",
                      "weather_before": "dry", "weather": "clear", "weather_after": "rain",
                      "soil": "moist", "truck": "spreader truck"}
                     for n, row in enumerate(copy.deepcopy(issued), 1)]

    def to(self, place, n=0):
        """The load that went there, by number; into the stack too."""
        return [r for r in self.rows if r["field"].split(" (")[0] == place][n]

    def out(self):
        return [r for r in self.rows if "-S0" in r["ticket"]][0]

    def entries(self, place, keep=lambda row: True):
        return tuple(r["entry"] for r in self.rows if r["field"].startswith(place) and keep(r))

    def goes(self, row, place, acres=None):
        row["field"] = place + (f" ({row['tons']} ton, {acres:.4f} ac)" if acres else "")

    def field(self, place):
        return next(f for b in self.farm["buyers"] for f in b["fields"]
                    if f"{b['name']}/{f['name']}" == place)

    def write(self, folder):
        path = write(folder, [{"name": "2026", "farm": self.farm, "log": []}, year_before()])
        with open(path.replace(".yaml", ".haul.csv"), "w", newline="", encoding="utf-8") as f:
            rows = csv.DictWriter(f, COLUMNS, restval="")
            rows.writeheader()
            rows.writerows(self.issued + self.rows)
        return path


# ---- each returns the findings it is to give: (item, class, field, entries) ----

EXCEEDED, CAUTION, NOTE, MISSING = "limit exceeded", "caution", "note", "missing"
RATE, NEED = "more litter than the rate", "more nitrogen than the need"
RATING = "more phosphate than the rating allows"
BREACHES = []


def breach(status, known=None):
    """known: of KNOWN, by which the program gives otherwise."""
    assert known is None or known in KNOWN

    def keep(make):
        BREACHES.append((make, status, known))
        return make
    return keep


def one(row, item, state=EXCEEDED, place=None):
    return [(item, state, place, (row["entry"],))]


@breach(0)
def hauled_as_issued(c):
    return []


@breach(1)
def twice_the_rate(c):
    row = c.to(CORN)
    c.goes(row, CORN, float(row["tons"]) / 4)
    return one(row, RATE, place=CORN)


@breach(1)
def more_nitrogen_than_needed(c):
    c.field(CORN)["nitrogen"] = "40 lb/ac"
    return [(item, EXCEEDED, CORN, c.entries(CORN)) for item in (RATE, NEED)]


@breach(1)
def other_side_at_the_rate_of_the_first(c):
    """The left side holds 50 lb of N a ton, the right 40; a limit of 100 lb/ac holds."""
    left, right = c.to(HILL), c.to(STRIP)
    left["field"], right["field"] = right["field"], left["field"]
    return one(left, RATE, place=STRIP)


@breach(1)
def over_a_limit_of_the_season(c):
    """At the rate of the days after it, 4 tons an acre."""
    row = c.to(STRIP)
    c.goes(row, STRIP, float(row["tons"]) / 3.9)
    return one(row, RATE, place=STRIP)


@breach(0)
def after_the_limit_of_the_season(c):
    row = c.to(STRIP)
    row["when"] = "2026-03-09"
    c.goes(row, STRIP, float(row["tons"]) / 3.9)
    return []


@breach(0)
def published_limit(c):
    """Without most: the published 3 tons an acre stand in."""
    del c.field(CORN)["most"]
    row = c.to(CORN)
    c.goes(row, CORN, float(row["tons"]) / 4)
    return one(row, RATE, CAUTION, CORN)


@breach(1)
def before_the_open_days(c):
    row = c.to(HILL)
    row["when"] = "2026-02-14"
    return one(row, "spread outside the open days", place=HILL)


@breach(1)
def after_the_open_days(c):
    row = c.to(CORN)
    row["when"] = "2026-04-20"
    return one(row, "spread outside the open days", place=CORN)


@breach(1)
def on_a_hold_day(c):
    row = c.to(HILL)
    row["when"] = "2026-02-27"
    return one(row, "hauled on a hold day")


@breach(1, "half hold day")
def in_the_forenoon_of_a_hold_day(c):
    row = c.to(HILL)
    row["when"] = "2026-03-02T09:30"
    return one(row, "hauled on a hold day")


@breach(0)
def in_the_afternoon_of_a_hold_day(c):
    c.to(HILL)["when"] = "2026-03-02T13:30"
    return []


@breach(0)
def on_a_day_off(c):
    row = c.to(HILL)
    row["when"] = "2026-02-22"
    return one(row, "hauled on a day off", NOTE)


@breach(0)
def after_hours(c):
    row = c.to(HILL)
    row["when"] = "2026-02-16T17:40"
    return one(row, "hauled outside the crew's hours", NOTE)


@breach(1)
def harvested_before_the_wait(c):
    c.field(STRIP)["harvested"] = "2026-04-10"
    return [("harvested too soon", EXCEEDED, STRIP, c.entries(STRIP))]


@breach(1)
def grazed_before_the_wait(c):
    row = c.out()
    row["when"], c.field(MEADOW)["grazing"] = "2026-03-18", "2026-04-06"
    return [("grazed too soon", EXCEEDED, MEADOW, (row["entry"],)),
            ("spread outside the open days", EXCEEDED, MEADOW, (row["entry"],))]


@breach(0)
def cattle_too_soon(c):
    c.field(HILL)["grazing"] = "2026-03-05"
    return [("grazed too soon", CAUTION, HILL, c.entries(HILL))]


@breach(1)
def planted_late(c):
    c.field(CORN)["planted"] = "2026-03-26"
    return [("spread too long before planting", EXCEEDED, CORN, c.entries(CORN))]


@breach(1)
def acres_covered_twice(c):
    row = c.to(CORN)
    c.goes(row, CORN, 8)
    return [("more acres than the field has", EXCEEDED, CORN, c.entries(CORN))]


@breach(0)
def acres_may_overlap(c):
    c.field(CORN)["overlap"] = "yes"
    c.goes(c.to(CORN), CORN, 8)
    return []


@breach(1)
def bank_used_up(c):
    c.field(HILL)["phosphorus"]["ledger"] = [{"year": 2025, "P2O5": "150 lb/ac",
                                              "removed": "48 lb/ac"}]
    return [(item, EXCEEDED, HILL, c.entries(HILL)) for item in (RATE, RATING)] + [
        ("ledger differs from the logs", MISSING, HILL, ())]


@breach(1)
def bought_phosphate_over_the_rating(c):
    c.field(HILL)["fertilizer"] = [{"grade": "0-46-0", "rate": "120 lb/ac"}]
    return [(item, EXCEEDED, HILL, c.entries(HILL)) for item in (RATE, RATING)]


@breach(1)
def rated_very_high(c):
    c.field(HILL)["phosphorus"]["rating"] = "very high"
    del c.field(HILL)["phosphorus"]["bank"]
    return [(item, EXCEEDED, HILL, c.entries(HILL)) for item in (RATE, RATING)]


@breach(1)
def too_long_in_the_stack(c):
    c.out()["when"] = "2026-04-20"
    return [("longer in the stack than allowed", EXCEEDED, None, ())]


@breach(1)
def past_the_last_day_of_the_stack(c):
    del c.farm["stack"]["most_days"]
    c.out()["when"] = "2026-07-06"
    return [("in the stack past its last day", EXCEEDED, None, ())]


@breach(1)
def more_out_of_the_stack_than_in(c):
    c.rows.append({**c.to("stack"), "entry": str(len(c.issued + c.rows) + 1), "tons": "0",
                   "replaces": c.to("stack")["entry"], "kind": "strike"})
    return [("more out of the stack than went in", MISSING, None, ())]


@breach(1)
def of_an_unknown_side(c):
    row = c.to(HILL)
    row["ticket"] = ticket("WEST", 1)
    return one(row, "load of an unknown side", MISSING)


@breach(1)
def to_an_unknown_field(c):
    row = c.to(HILL)
    row["field"] = "Old Mill/Back"
    return [(item, MISSING, None, (row["entry"],))
            for item in ("load of unknown place", "recipient", "applied nutrients")]


@breach(0)
def acres_left_out(c):
    c.goes(c.to(HILL), HILL)
    return []


@breach(1)
def weather_left_out(c):
    row = c.to(HILL)
    row["weather_after"] = ""
    return one(row, "weather", MISSING, HILL)


@breach(0)
def weather_of_another_farm_s_field(c):
    row = c.to(STRIP)
    row["weather"] = ""
    return one(row, "weather", MISSING, STRIP)


@breach(0)
def soil_left_out(c):
    row = c.to(HILL)
    row["soil"] = ""
    return one(row, "soil condition", MISSING, HILL)


@breach(1)
def method_left_out(c):
    row = c.to(HILL)
    row["incorporated"] = ""
    return one(row, "method", MISSING, HILL)


@breach(1)
def nobody_signed(c):
    row = c.to(STRIP)
    row["received_by"] = ""
    return one(row, "acknowledgement", MISSING)


@breach(1)
def analysis_without_date(c):
    row = c.to(STRIP)
    row["analysis"] = "the newest one"
    return one(row, "analysis handed over", MISSING)


@breach(1)
def analysis_without_laboratory(c):
    house = c.farm["houses"][0]
    for report in house["lab"] + house["sides"][1]["lab"]:
        del report["by"]
    return [("analysis handed over", MISSING, None, (r["entry"],)) for r in c.rows
            if r["field"].split("/")[0] in ("Larkspur Hay", "Osgood Row Crops")]


@breach(1)
def own_ledger_against_the_log(c):
    c.field(HILL)["phosphorus"]["ledger"][0]["P2O5"] = "0 lb/ac"
    return [("ledger differs from the logs", MISSING, HILL, ())]


@breach(1)
def own_earlier_litter_against_the_log(c):
    c.field(HILL)["earlier_litter"] = [{"year": 2025, "rate": "0.2 ton/ac",
                                        "organic_nitrogen": "40 lb/ton"}]
    return [("earlier litter differs from the logs", MISSING, HILL, ())]


@breach(0, "ledger by logs")
def ledger_told_by_the_logs_alone(c):
    """They tell the year before, but not that nothing is told."""
    del c.field(HILL)["phosphorus"]["ledger"]
    return []


@breach(0)
def soil_test_too_old(c):
    c.field(HILL)["soil"]["date"] = "2022-11-02"
    return [("old soil test", CAUTION, None, ())]


@breach(1)
def soil_test_older_than_the_plan_has(c):
    c.farm["ages"] = {"soil": "2 years"}
    c.field(HILL)["soil"]["date"] = "2024-01-10"
    return [("old soil test", EXCEEDED, None, ())]


@breach(0)
def soil_test_dated_after(c):
    c.field(HILL)["soil"]["date"] = "2026-03-02"
    return [("dated after litter went out", CAUTION, None, ())]


@breach(1)
def no_plan_on_the_farm(c):
    c.farm["farm"]["plan"]["on_site"] = "no"
    return [("plan on site", MISSING, None, ())]


@breach(1)
def setback_without_rule(c):
    c.field(HILL)["setbacks"] = [{"from": "well", "edge": "10 ft", "width": "10 ft"}]
    return [("setbacks kept", MISSING, HILL, ())]


@breach(1)
def nobody_said_there_is_no_stream(c):
    del c.field(HILL)["setbacks"]
    return [("setbacks kept", MISSING, HILL, ())]


# ---- all of them ----

COUNT = len(BREACHES)


def run(program, dossier):
    """How many give other findings than theirs."""
    wrong = 0
    with tempfile.TemporaryDirectory() as folder:
        issued = handed_out(program, folder)
        for make, status, known in BREACHES:
            case = Case(issued)
            expected = sorted(make(case), key=str)
            got, told = dossier(program, case.write(folder))
            found = sorted(((f["item"], f["state"], f["field"], tuple(f["entries"]))
                            for f in told["findings"] if f["state"] != "present"), key=str)
            right = (found, got) == (expected, status)
            if right == (known is None):
                continue
            wrong += 1
            print(f"breach {make.__name__}: " + (
                f"no known fault any more, take {known!r} off" if right else
                f"exit status {got} for {status}; found {found}; expected {expected}"))
    return wrong
