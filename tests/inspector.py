"""An inspector with the dossier of a week of hauling: twelve questions, each answered on the pages in front or by one link from
there, followed by a browser. The answers are our own: which load went where, who signed, what was put right. And the print:
how many pages, what stands at their foot, none half empty. Needs chromium and poppler-utils: inspector.py build/littershed"""
import datetime
import html
import json
import os
import re
import subprocess
import sys
import tempfile

PROGRAM = os.path.abspath(sys.argv[1])
DRIVER = """<!DOCTYPE html><title>x</title><iframe src="dossier.html" style="width:1200px;height:800px"></iframe>
<script>onload=function(){var f=document.querySelector("iframe"),d=f.contentDocument,all=[],first=d.querySelector("#field-1"),
words=function(e){return e?(e.innerText||e.textContent).replace(/\\s+/g," "):null};
var range=d.createRange();range.setStart(d.body,0);range.setEndBefore(first);
for(var a of d.querySelectorAll("a[href^='#']"))if(a.compareDocumentPosition(first)&4&&!a.closest("nav")){a.click();
all.push([a.textContent,a.getAttribute("href"),words(d.querySelector(":target"))])}
var holder=d.createElement("div");holder.append(range.cloneContents());d.body.append(holder);
var told=words(holder);document.body.innerHTML="";document.body.append("@@"+JSON.stringify([told,all])+"@@")}</script>"""


def fail(words):
    sys.exit(words)


class Week:
    """The loads of a week, logged as the plan has them, but for what goes wrong."""

    def __init__(self, folder):
        self.folder, self.loads, self.clock = folder, {}, {}

    def file(self, name, changes):
        text = open(f"tests/story/{name}", encoding="utf-8").read()
        for old, new in changes:
            if text.count(old) != 1:
                fail(f"{name} has {old!r} {text.count(old)} times")
            text = text.replace(old, new)
        with open(os.path.join(self.folder, name), "w", encoding="utf-8") as out:
            out.write(text)

    def run(self, command, *options):
        done = subprocess.run([PROGRAM, command, "house.yaml", "fields.yaml", *options], cwd=self.folder, text=True,
                              capture_output=True, check=False)
        if done.returncode != 0:
            fail(f"{command} {options}: {done.stderr}")
        return done.stdout

    def log(self, ticket, tons, day, place, *options):
        minute = self.clock[day] = self.clock.get(day, 6 * 60) + 35
        out = self.run("record", "--ticket", ticket, "--tons", f"{tons:.2f}", "--weighed", "--when",
                       f"{day}T{minute // 60:02}:{minute % 60:02}", "--field", place, "--driver", "R. Alder", *options)
        entry = int(re.search(r"entry (\d+)", out).group(1))
        self.loads[ticket] = {"entry": entry, "tons": tons, "place": place}
        return entry


def live(week):
    week.file("house.yaml", [("    phone: 555-0171", "    phone: 555-0171\n    calibrated: 2026-01-20\n    inspected: 2026-02-14")])
    rating = "phosphorus: {rating: medium, rated_by: county plan writer, date: 2025-10-30}\n        most: 3 ton/ac"
    week.file("fields.yaml", [(rating, rating.replace("10-30}", "10-30, ledger: [{year: 2025, P2O5: 61 lb/ac, removed: 38 lb/ac}]}")
                               + "\n        days_before_grazing: 30\n        grazing: 2026-04-10")])
    plan = json.loads(week.run("plan", "--format", "json"))
    loads = [x for x in plan["loads"] if x["certainty"] != "possible"]
    for load in loads:
        drops = [f"{load['buyer']}/{x['field']} ({x['tons']:.2f} ton)" for x in load["drops"]]
        place = "stack" if load["to"] == "stack" else drops[0].split(" (")[0] if len(drops) == 1 else "; ".join(drops)
        signed = ["--received-by", "J. Larkspur", "--analysis", "report of 2026-01-29"] if place.startswith("Larkspur") else []
        week.log(load["ticket"], load["tons"], load["day"], place, *signed)
    spare = [x["ticket"] for x in plan["loads"] if x["certainty"] == "possible"]
    week.stacked = week.log(spare[0], 6.5, "2026-02-19", "stack")
    week.over = week.log(spare[1], 6.25, "2026-02-19", "Whitcomb Pasture/Ridge", "--sure")
    week.wrong = week.loads[loads[0]["ticket"]]["entry"]
    out = week.run("record", "--replaces", str(week.wrong), "--tons", "7.77", "--weighed")
    week.loads[loads[0]["ticket"]].update(entry=int(re.search(r"entry (\d+)", out).group(1)), tons=7.77, was=loads[0]["tons"])
    week.spare = spare


def browse(folder, *options):
    done = subprocess.run(["chromium", "--headless", "--no-sandbox", "--disable-gpu", f"--user-data-dir={folder}/profile", *options],
                          text=True, capture_output=True, check=False)
    if done.returncode != 0:
        fail(f"chromium: {done.stderr}")
    return done.stdout


def look(folder):
    """What the pages in front say; and of each link on them what it says and leads to."""
    with open(f"{folder}/driver.html", "w", encoding="utf-8") as out:
        out.write(DRIVER)
    dom = browse(folder, "--allow-file-access-from-files", "--virtual-time-budget=20000", "--dump-dom", f"file://{folder}/driver.html")
    front, links = json.loads(html.unescape(dom.split("@@")[1]))
    for words, href, target in links:
        if target is None:
            fail(f"the link {words!r} leads to {href}, which is not there")
    return front, links


def questions(week, front, links):
    def behind(link, answer):
        found = [t for words, _, t in links if re.search(link, words)]
        if not found:
            fail(f"no link {link!r} in front")
        return any(re.search(answer, t) for t in found)

    ticket = week.spare[1]
    first = next(x for x in week.loads.values() if x.get("was"))
    hay = [(t, x) for t, x in week.loads.items() if x["place"] == "Larkspur Hay/Upper Meadow"]
    last = max(datetime.date.fromisoformat(day) for day in week.days)
    until = last + datetime.timedelta(days=30)
    loads = r"^\d+ Loads$"
    streams = re.search(r"No nearest stream is given\. Fix: .*? under the buyer (.*?)\. ", front)
    buyers = {x["place"].split("/")[0] for x in week.loads.values() if "/" in x["place"]}
    asked = {
        "where did a load go": behind(loads, rf"{week.over} {ticket} Thu, Feb 19 \d+ Ridge 6\.25"),
        "has the field setbacks": behind("^1 Upper Meadow", "18 ac to spread, no setbacks given"),
        "what was its analysis": behind(loads, rf"{hay[0][0]} .*?J\. Larkspur; report of 2026-01-29")
                                 and behind("Litter", r"North/left .*? 38 56 36 "),
        "why this limit": behind("^1 Upper Meadow", r"Limit 3 tons/ac: the plan, fields\.yaml:\d+\. Phosphorus rating: medium, by "
                                                    r"county plan writer"),
        "what lay in the stack on a day": behind("Stacking site", r"left, tons .*?Thu, Feb 19 6\.50 - 6\.50"),
        "who signed": behind(loads, rf"{hay[-1][0]} .*?{hay[-1][1]['tons']:.2f} R\. Alder; J\. Larkspur"),
        "what was corrected": behind(loads, rf"Corrections.*{first['entry']} {week.wrong} \S+ {first['was']:.2f} 7\.77"),
        "is anything over": re.search(r"limits exceeded [1-9]", front) and behind(f"entry {week.over}$", rf"^{week.over} {ticket}"),
        "what is missing, and how do I mend it": re.search(r"Nobody signed for it\. Fix: littershed record FILE\.\.\. --replaces \d+ "
                                                           r"--received-by", front)
                                               and streams and set(re.split(", |; so for ", streams.group(1))) == buyers,
        "which report should it have been": re.search(r"\"report of 2026-01-29\" gives no date of a report on file: which one was it\. "
                                                      r"Fix: [^;]*--analysis \"report of 2026-01-30\"", front),
        "how was it spread": behind("^1 Upper Meadow", r"how spread 9 .*? on top 10 "),
        "of which fields are there papers": all(behind("Papers", rf"{words} - - - Thu, Oct 30") for words, href, _ in links
                                                if href.startswith("#field-") and "/" in words),
        "which birds, and what size": behind("Litter", r"North broiler breeder 8,580") and behind("Annual summary", r"below medium"),
        "each year's phosphorus": behind("^1 Upper Meadow", r"2025 61 38 23 .*this litter \d+ \d+ \d+"),
        "when was the spreader calibrated": behind("calibration", r"spreader truck Tue, Jan 20"),
        "were the waits kept": behind("^1 Upper Meadow", rf"animals not before {until:%a, %b} {until.day}, 30 days after the last load, "
                                                         r"by the farm file; kept: Fri, Apr 10"),
    }
    unanswered = [q for q, answered in asked.items() if not answered]
    if unanswered:
        fail("no answer in front or one link away: " + "; ".join(unanswered))
    return len(asked)


HOSTILE = {"Cedar Fork Flocks": "Cedar <b>Fork & Sons' {} Flocks of the Northern and the Southern Quarry Lane | Incorporated",
           "Larkspur Hay": "\u0645\u0632\u0631\u0639\u0629 \u0627\u0644\u0648\u0627\u062f\u064a <i>", "Upper Meadow": "Meadow {} | \U0001f33e & <script>",
           "Osgood Row Crops": "A" * 70, "Wheat Strip": "B" * 60, "spreader truck": "truck <u> \U0001f69b with a very long name of its own",
           "Whitcomb Pasture": "The Extraordinarily Long-Named Cooperative of Upper and Lower Creek Bottom Hay Growers",
           "Ridge": "The long meadow behind the old school house beside the second bridge over Tansy Creek"}


def renamed(week, folder):
    """The same week on a farm whose names are hard to print."""
    hostile = Week(os.path.join(folder, "hostile"))
    os.mkdir(hostile.folder)
    for name in ("house.yaml", "fields.yaml", "house.haul.csv"):
        with open(os.path.join(week.folder, name), encoding="utf-8", newline="") as file:
            text = file.read()
        for old, new in HOSTILE.items():
            text = text.replace("name: " + old + "\n", "name: " + json.dumps(new, ensure_ascii=False) + "\n")
            text = text.replace(old + "/", new + "/").replace("/" + old, "/" + new)
        with open(os.path.join(hostile.folder, name), "w", encoding="utf-8", newline="") as file:
            file.write(text)
    hostile.run("dossier", "--format", "html", "--without", "worksheet", "-o", f"{hostile.folder}/dossier.html")
    front, _ = look(hostile.folder)
    for new in HOSTILE.values():
        if new not in front and not new.startswith("truck"):
            fail(f"the name {new!r} is not in front")
    return printed(hostile.folder, 15, "Cedar <b>Fork & Sons' {} Flocks")


def printed(folder, most, farm="Cedar Fork Flocks."):
    pdf = f"{folder}/dossier.pdf"
    browse(folder, "--no-pdf-header-footer", f"--print-to-pdf={pdf}", f"file://{folder}/dossier.html")
    boxes = subprocess.run(["pdftotext", "-bbox", pdf, "-"], text=True, capture_output=True, check=True).stdout
    pages = re.findall(r'<page width="([\d.]+)" height="([\d.]+)">(.*?)</page>', boxes, re.S)
    if not 2 < len(pages) <= most:
        fail(f"{len(pages)} pages are printed")
    for number, (width, height, page) in enumerate(pages, 1):
        widest = max(float(x) for x in re.findall(r'xMax="([\d.]+)"', page))
        if widest > float(width) - 41:
            fail(f"page {number} is cut at the right, at {widest} of {width}")
        words = [(float(y), html.unescape(w)) for y, w in re.findall(r'yMax="([\d.]+)">(.*?)</word>', page)]
        foot = " ".join(w for y, w in words if y > float(height) - 43)
        for part in (farm, "2026", "Planning figures: your local code and licensed plan writer decide.",
                     f"Page {number} of {len(pages)}"):
            if part not in foot:
                fail(f"page {number} has no {part!r} at its foot: {foot}")
        body = " ".join(w for y, w in words if y <= float(height) - 43)
        for begins, ends in ((r"Transfer to", r"Signed: farm"), (r"\d+ Annual summary, and size of the farm From", r"The permit authority decides"),
                             (r"Crop: [\w ]+,", r"Together [\d.]+ tons")):
            if len(re.findall(begins, body)) != len(re.findall(ends, body)):
                fail(f"page {number} holds a part of what begins with {begins!r}")
        lowest = max(y for y, w in words if y <= float(height) - 43)
        if number < len(pages) and lowest < float(height) / 2:
            fail(f"page {number} of {len(pages)} is half empty")
    return len(pages)


def main():
    with tempfile.TemporaryDirectory() as folder:
        week = Week(folder)
        live(week)
        week.days = [x["date"] for f in json.loads(week.run("dossier", "--format", "json"))["fields"]
                     if f["field"] == "Upper Meadow" for x in f["spread"]]
        week.run("dossier", "--format", "html", "--without", "worksheet", "--printed", "2026-03-10", "-o", f"{folder}/dossier.html")
        front, links = look(folder)
        if "date printed Tue, Mar 10, 2026" not in front:
            fail("the date printed is not in front")
        n = questions(week, front, links)
        pages = printed(folder, 14)
        hostile = renamed(week, folder)
        lines = week.run("dossier").count("\n")
        if lines > 400:
            fail(f"the page of text has {lines} lines")
        print(f"{len(week.loads)} loads: {n} questions answered, {len(links)} links, {pages} pages ({hostile} with hard names), {lines} lines of text")


main()
