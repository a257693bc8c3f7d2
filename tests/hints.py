"""hints.py PROGRAM: what growers write keeps its amount. Values as growers write them are put into a farm file one by one. What
can mean one thing alone must be read, and give the figures that the same amount by GNU units gives in the usual unit, from what
a grower means by the words (the third column, written by hand in the words of GNU units). Where a text may mean several things
the hint must ask, and each answer must read. Exit status 1 and a line for each that fails.
"""
import os
import re
import subprocess
import sys
import tempfile

FARM = """
houses:
  - name: H
    length: <length>
    width: <width>
    bedding: [{material: pine shavings, depth: <bedding>, date: 2025-12-01}]
    flocks:
      - birds: <birds>
        count: <count>
        placed: <placed>
        removed: 2026-01-26
        lost: <lost>
        weight: <weight>
        feed: {eaten: <eaten>, protein: <protein>}
    measured: {depth: <depth>, loose_density: <density>, moisture: <moisture>}
    lab: [{date: 2026-01-29, N: <N>, P2O5: 50 lb/ton, K2O: 50 lb/ton}]
    last_cleanout: {date: 2025-02-12, weighed: <weighed>, bird_days: <bird_days>}
trucks: [{name: truck, count: 2, payload: <payload>, body: <body>, swath: <swath>, road: <road>}]
crew: {arrives: 2026-02-23, starts: <starts>, hours: <hours>, loader: {bucket: 2 yd3, fill: 90 %, load_and_dump: 30 s, travel: 5 mph}}
costs: {take_out: <take_out>, haul: <haul>, crew: <crew>}
fertilizer: {urea: <urea>}
buyers:
  - name: B
    distance: <distance>
    price: <price>
    order: {most: <order>}
    fields:
      - name: U
        area: <area>
        crop: wheat grain
        yield: <yield>
        nitrogen: <nitrogen>
        phosphate: <phosphate>
        soil: {date: 2025-10-14, method: Mehlich-1, P: <P>, K: 160 lb/ac}
        phosphorus: {rating: <rating>, date: 2025-10-30}
        most: <most>
        incorporated: <incorporated>
        open: <open>
stop: here
"""
USUAL = {
    "length": "400 ft", "width": "40 ft", "bedding": "3 in", "birds": "broiler", "count": "24000", "placed": "2025-12-08",
    "lost": "4 %", "weight": "6.2 lb", "eaten": "100 g/bird/day", "protein": "20 %", "depth": "4 3.5 4.5 in",
    "density": "33 31 lb/ft3", "moisture": "24 27 %", "N": "60 lb/ton", "weighed": "128 ton", "bird_days": "1000000",
    "payload": "11 ton", "body": "20 yd3", "swath": "32 ft", "road": "30 mph", "starts": "07:00", "hours": "9 h/day",
    "take_out": "9 $/ton", "haul": "2.10 $/mi", "crew": "180 $/h", "urea": "610 $/ton", "distance": "6.5 mi",
    "price": "31 $/ton", "order": "14 loads", "area": "26 ac", "yield": "60 bu/ac", "nitrogen": "120 lb/ac",
    "phosphate": "40 lb/ac", "P": "34 lb/ac", "rating": "medium", "most": "3 ton/ac", "incorporated": "never",
    "open": "2026-02-20..2026-04-15"}

# What GNU units lacks: things that are counted, money, and our spelling.
UNITS = """bird !bird!
hen bird
load !load!
bu !bu!
bale !bale!
buck !buck!
tons shortton
tonnes tonne
ac acre
ha hectare
mph mile/hour
h hour
"""

# key, as written, what it means: in GNU units, or a text that must be offered as it is; ASKS: it may be several things.
ASKS = "asks"
VALUES = [
    ("length", "400 feet", "400 foot"), ("length", "400'", "400 foot"), ("length", "43'6\"", "43 foot + 6 inch"),
    ("length", "43' 6\"", "43 foot + 6 inch"), ("length", "122 metres", "122 m"), ("length", "122m", "122 m"),
    ("length", "~400 ft", "400 foot"), ("length", "+400 ft", "400 foot"), ("length", "133.3 yards", "133.3 yard"),
    ("length", "400", ASKS), ("length", "forty feet", ASKS), ("width", "480\"", "480 inch"), ("width", "-40 ft", ASKS),
    ("width", "40 ft.", "40 foot"), ("width", "40 x 400 ft", ASKS),
    ("bedding", "3 inches", "3 inch"), ("bedding", "3-4 in", "3 inch..4 inch"), ("bedding", "3 to 4 in", "3 inch..4 inch"),
    ("bedding", "1/2 in", "0.5 inch"), ("bedding", "2 1/2 in", "2.5 inch"), ("bedding", "75 millimeters", "75 mm"),
    ("bedding", "3,5 in", "3.5 inch"), ("count", "24000 birds", "24000"), ("count", "24k", "24000"), ("count", "24 tons", ASKS),
    ("lost", "4 percent", "4 percent"), ("lost", "0.04", ASKS), ("lost", "960 birds", ASKS),
    ("weight", "6.2 pounds", "6.2 lb"), ("weight", "2800 grams", "2800 g"), ("weight", "2.8 kilos", "2.8 kg"),
    ("weight", "6.2 lb/bird", ASKS), ("eaten", "22.5 lb/100 hens/day", "22.5 lb/(100 bird)/day"),
    ("eaten", "22.5 pounds per hundred hens per day", "22.5 lb/(100 bird)/day"), ("eaten", "10.2 kg/100 birds/day", "10.2 kg/(100 bird)/day"),
    ("eaten", "225 lb/1,000 birds/day", "225 lb/(1000 bird)/day"), ("eaten", "102 g/hen/d", "102 g/bird/day"),
    ("eaten", "102 g", ASKS), ("eaten", "22.5 lb/100 birds", ASKS), ("eaten", "3.5 oz/day", ASKS), ("eaten", "14 lb/bird", ASKS),
    ("protein", "200 g/kg", "20 percent"), ("protein", "20", "20 percent"), ("depth", "4, 3.5, 4.5 in", "4 inch,3.5 inch,4.5 inch"),
    ("depth", "10 9 centimeters", "10 cm,9 cm"), ("depth", "4in 5in", "4 inch,5 inch"), ("density", "33 lb/cu ft", "33 lb/foot^3"),
    ("density", "33 pcf", "33 lb/foot^3"), ("density", "530 kg/m³", "530 kg/m^3"), ("density", "22 lb/pail", ASKS),
    ("moisture", "75 % dry matter", ASKS), ("N", "60 lb N/ton", "60 lb/shortton"), ("N", "3 pct", "3 percent"),
    ("N", "30 kg/t", ASKS), ("N", "60", ASKS), ("N", "60 lb P2O5/ton", ASKS), ("weighed", "116 metric tons", "116 tonne"),
    ("weighed", "128 short tons", "128 shortton"), ("weighed", "2560 cwt", "2560 hundredweight"), ("weighed", "116 MT", "116 tonne"),
    ("weighed", "128 T", ASKS), ("weighed", "128", ASKS), ("bird_days", "1 million", "1000000"), ("payload", "24000", ASKS),
    ("payload", "24000 tons", ASKS), ("payload", "24000 pounds", "24000 lb"), ("payload", "11 t", ASKS), ("body", "20 cubic yards", "20 yard^3"),
    ("body", "20 cu. yd", "20 yard^3"), ("body", "540 cu ft", "540 foot^3"), ("body", "15 m³", "15 m^3"), ("body", "20 yards", ASKS),
    ("road", "50 kph", "50 km/hour"), ("road", "30 miles per hour", "30 mile/hour"), ("road", "30", ASKS),
    ("starts", "7 am", "07:00"), ("starts", "1:30 PM", "13:30"), ("hours", "9 hours per day", "9 hour/day"), ("hours", "9 hours", "9 hour/day"),
    ("take_out", "$9/ton", "9 buck/shortton"), ("take_out", "9 dollars a ton", "9 buck/shortton"), ("take_out", "9 €/ton", ASKS),
    ("take_out", "9 CAD/tonne", ASKS), ("take_out", "£9/ton", ASKS), ("haul", "210 cents/mile", "2.10 buck/mile"),
    ("haul", "$1.30/kilometer", "1.30 buck/km"), ("haul", "2.10 $/loaded mile", ASKS), ("crew", "$180 per hour", "180 buck/hour"),
    ("urea", "$0.60/lb N", ASKS), ("urea", "$30.50/cwt", "30.50 buck/hundredweight"), ("urea", "670 $/t", ASKS), ("urea", "$30/50 lb", "30 buck/(50 lb)"),
    ("distance", "10.5 kilometers", "10.5 km"), ("distance", "15 minutes", ASKS), ("price", "31 $/load", ASKS),
    ("price", "31 USD/ton", "31 buck/shortton"), ("price", "$31", ASKS), ("price", "-$5/ton", "-5 buck/shortton"), ("price", "-25 cents/ton", "-0.25 buck/shortton"), ("price", "-5", ASKS), ("order", "14 truckloads", "14 load"), ("order", "14", ASKS),
    ("area", "22 hectares", "22 hectare"), ("area", "1132560 sq ft", "1132560 foot^2"), ("area", "100000 m²", "100000 m^2"),
    ("area", "26", ASKS), ("area", "26 a", ASKS), ("yield", "160 bushels per acre", "160 bu/acre"), ("yield", "60 bu", ASKS),
    ("yield", "4 t/ha", ASKS), ("nitrogen", "180 kg N/ha", "180 kg/hectare"), ("nitrogen", "120 lb N per acre", "120 lb/acre"),
    ("nitrogen", "120 lb/A", "120 lb/acre"), ("nitrogen", "120 units", ASKS), ("nitrogen", "1.2 cwt/acre", "120 lb/acre"),
    ("phosphate", "40 lb P/ac", ASKS), ("phosphate", "45 kg P2O5/ha", "45 kg/hectare"), ("P", "78 lb P2O5/ac", ASKS),
    ("P", "17 ppm P", "17 ppm"), ("most", "3 tons per acre", "3 shortton/acre"), ("most", "3 T/A", ASKS), ("most", "6.7 metric tons/hectare", "6.7 tonne/hectare"),
    ("placed", "12/8/2025", ASKS), ("placed", "12/28/2025", "2025-12-28"), ("placed", "Dec 8, 2025", "2025-12-08"),
    ("placed", "12/8", ASKS), ("placed", "8 December 25", "2025-12-08"), ("open", "Feb 20 to Apr 15, 2026", "2026-02-20..2026-04-15"),
    ("open", "2/20/2026 - 4/15/2026", "2026-02-20..2026-04-15"), ("incorporated", "within 48 hours", "within 2 days"),
    ("incorporated", "same day", ASKS), ("birds", "hens", ASKS), ("birds", "turkeys", ASKS), ("rating", "moderate", ASKS)]

# A yield by weight counts in bushels: GNU units has what the trade weighs one at.
YIELDS = [("wheat grain", "4 tonnes/ha", "wheatbushel"), ("corn grain", "9000 kg/ha", "cornbushel"),
          ("soybean", "1.5 tons/ac", "soybeanbushel"), ("barley grain", "4000 lb/ac", "barleybushel"),
          ("oat grain", "3 tonnes/ha", "oatbushel"), ("rye grain", "3 tonnes/ha", "ryebushel")]

def bushels(program, folder, definitions, crop, written, bushel):
    path = os.path.join(folder, "farm.yaml")
    with open(path, "w", encoding="utf-8") as f:
        f.write(farm({"yield": written}).replace("crop: wheat grain", "crop: " + crop).replace("stop: here", ""))
    said = subprocess.run([program, "explain", path, "b.u.yield", "--draws", "10000"], capture_output=True, text=True)
    found = re.search(r"([0-9.]+) bu/ac", said.stdout)
    want = float(amount("(%s) / (%s/acre)" % (written.replace("tons", "shortton"), bushel), definitions)[0])
    if not found or abs(float(found[1]) - want) > 1e-5 * want:
        return "%s %s: not %.6g bu/ac: %s" % (crop, written, want, said.stdout + said.stderr)
    with open(path, "w", encoding="utf-8") as f:
        f.write(farm({"yield": "60 bu/ac"}).replace("crop: wheat grain", "crop: " + crop).replace("stop: here", ""))
    said = subprocess.run([program, "rates", path, "--full", "--units", "metric", "--draws", "10000"], capture_output=True, text=True)
    found = re.search(r"([0-9.]+) tonnes/ha expected", said.stdout)
    want = float(subprocess.run(["units", "-t", "60 %s/acre" % bushel, "tonne/hectare"], capture_output=True, text=True).stdout)
    if not found or abs(float(found[1]) - want) > 0.051:
        return "60 bu/ac of %s: not %.3g tonnes/ha on a metric page: %s" % (crop, want, said.stderr)
    return None

def farm(values):
    return re.sub(r"<(\w+)>", lambda m: values.get(m[1], USUAL[m[1]]), FARM)

def messages(program, folder, values):
    """The messages at the place of the value: [(message, hint)]."""
    path = os.path.join(folder, "farm.yaml")
    key, text = next(iter(values.items()))
    with open(path, "w", encoding="utf-8") as f:
        f.write(farm(values))
    line = next(i for i, s in enumerate(FARM.split("\n"), 1) if "<%s>" % key in s)
    said = subprocess.run([program, "check", path], capture_output=True, text=True).stderr
    assert "unknown section \"stop\"" in said, said  # else nothing is known of the rest
    return re.findall(r"farm\.yaml:%d:\d+: error: (.*)\n(?:    .*\n)*?    hint: (.*)" % line, said)

def amount(text, definitions):
    """As GNU units has it, in base units; of several numbers a list."""
    parts = []
    for part in re.split(r"\.\.|,", text):
        part = part.replace("$", "buck").replace("%", "percent").replace("bird-day", "bird day")
        part = re.sub(r"(ft|yd|m|cm|in)([23])\b", r"\1^\2", part)
        said = subprocess.run(["units", "-f", "", "-f", definitions, "-t", "-o", "%.12g", "--", part], capture_output=True, text=True)
        parts.append(said.stdout.strip())
        if said.returncode != 0:
            sys.exit("units: %s: %s" % (part, said.stdout + said.stderr))
    return parts

def usual(key, means, definitions):
    """The amount in the unit that the key has above."""
    unit = re.sub(r"^[0-9. ]+", "", USUAL[key])
    if unit == "" or re.match(r"\d+(:|-\d+-)|within", means):
        return means
    known = amount("1 " + unit, definitions)[0].split()
    numbers = ["%.10g" % (float(part.split()[0]) / float(known[0])) for part in amount(means, definitions)]
    if any(part.split()[1:] != known[1:] for part in amount(means, definitions)):
        return means  # ppm where pounds an acre are usual
    return ("..".join(numbers) if ".." in means else " ".join(numbers)) + " " + unit

def figures(program, folder, values):
    """Every number of the worksheet and of the plan."""
    path = os.path.join(folder, "farm.yaml")
    with open(path, "w", encoding="utf-8") as f:
        f.write(farm(values).replace("stop: here", ""))
    said = [subprocess.run([program, *words, path, "--draws", "10000"], capture_output=True, text=True)
            for words in (["explain"], ["plan", "--format", "json"])]
    assert all(run.returncode == 0 for run in said), said[0].stderr
    return [float(n) for run in said for n in re.findall(r"\d+(?:\.\d+)?", run.stdout.replace(",", ""))]

def alike(xs, ys):
    return len(xs) == len(ys) and all(abs(x - y) <= 2e-4 * max(abs(x), abs(y), 1e-3) for x, y in zip(xs, ys))

def misread(program, folder, definitions, key, text, means, plain):
    """What is wrong with a text that was read: other figures than the same amount gives, or figures that do not hang on it."""
    read = figures(program, folder, {key: text})
    same = usual(key, means, definitions)
    if not alike(read, figures(program, folder, {key: same})):
        return "is not read as " + same
    known = same.split()[0].replace(".", "") == USUAL[key].split()[0].replace(".", "").rstrip("0")
    return None if known or same == USUAL[key] or not alike(read, plain) else "its amount makes no difference"

def fault(program, folder, definitions, key, text, means, plain):
    said = messages(program, folder, {key: text})
    if not said and means != ASKS:
        return misread(program, folder, definitions, key, text, means, plain)
    if len(said) != 1:
        return "%d messages" % len(said)
    hint = said[0][1]
    offers = [re.sub(r"^%s: " % key, "", o) for o in re.findall(r'"([^"]+)"', hint.replace('\\"', ""))]
    asks = re.search(r"which|did you mean|\bor\b|for example|change it|add the year", hint)
    example = re.search(r"for example|add the year", hint)
    if not offers:
        return "no way out: " + hint
    for offer in offers:
        if not example and messages(program, folder, {key: offer}):
            return "what it offers does not read: " + hint
    if means == ASKS:
        return None if asks else "does not ask: " + hint
    if asks or len(offers) != 1:
        return "asks: " + hint
    return misread(program, folder, definitions, key, offers[0], means, plain)

def main():
    program, failed = os.path.abspath(sys.argv[1]), 0
    with tempfile.TemporaryDirectory() as folder:
        definitions = os.path.join(folder, "units")
        with open(definitions, "w", encoding="utf-8") as f:
            f.write(UNITS)
        if messages(program, folder, {"length": "400 ft"}):
            sys.exit("the farm itself has mistakes")
        plain = figures(program, folder, {})
        for key, text, means in VALUES:
            wrong = fault(program, folder, definitions, key, text, means, plain)
            if wrong:
                failed += 1
                print("%s: %s: %s" % (key, text, wrong))
        for crop, written, bushel in YIELDS:
            wrong = bushels(program, folder, definitions, crop, written, bushel)
            failed += wrong is not None
            print(wrong or "", end="")
    print("%d values, %d wrong" % (len(VALUES) + len(YIELDS), failed))
    return failed > 0

sys.exit(main())
