"""Haul logs opened and saved by LibreOffice, as three languages do: read to the same loads or refused
by line; with the copy beside them the weights are those that were recorded, or the line is told."""
import csv
import json
import os
import random
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.abspath(__file__)))
from farm import Farm, PROGRAM, ticket  # noqa: E402

LANGUAGES = {"American": 1033, "German": 1031, "British": 2057}
LOGS, MOST = int(os.environ.get("HAUL_OFFICE_LOGS", 4)), 12
home, failed = tempfile.mkdtemp(), 0


def check(name, right, told=""):
    global failed
    failed += not right
    print(("ok      " if right else "FAILED  ") + name + ("" if right else f": {told}"))


def converted(path, language):
    """The file as LibreOffice saves it, numbers and days found and written in that language."""
    out = tempfile.mkdtemp()
    subprocess.run(["soffice", "--headless", "--norestore", f"-env:UserInstallation=file://{home}",
                    "--convert-to", f"csv:Text - txt - csv (StarCalc):44,34,76,1,,{language}",
                    f"--infilter=CSV:44,34,76,1,,{language},false,true", "--outdir", out, path],
                   check=True, capture_output=True, timeout=300)
    with open(os.path.join(out, os.path.basename(path)), "rb") as f:
        return f.read()


def loads(farm):
    """What the program reads: its loads, or what it says."""
    run = subprocess.run([PROGRAM, "record", *farm.files, "--list", "--format", "json"],
                         capture_output=True, text=True)
    if run.returncode != 0:
        return None, run.stderr
    keys = ("entry", "ticket", "when", "tons", "weighed", "cleared", "field")
    return [[load[k] for k in keys] for load in json.loads(run.stdout)["loads"]], run.stderr


def any_log(chance):
    farm = Farm()
    for k in range(1, 1 + chance.randrange(1, MOST)):
        tons = round(chance.uniform(2, 10), chance.choice((0, 1, 2, 3, 4)))
        when = f"2026-02-{chance.randrange(16, 28)}" + chance.choice(("", "T09:06", "T14:30"))
        more = chance.choice(([], ["--weighed"], ["--cleared", "40 %"], ["--truck", "07"]))
        run = subprocess.run([PROGRAM, "record", *farm.files, "--ticket", ticket(k), "--tons",
                              str(tons), "--when", when, "--field", "stack", "--sure", *more],
                             capture_output=True, text=True)
        assert run.returncode == 0, run.stderr
    return farm


read = refused = 0
chance = random.Random(5)
for log in range(LOGS):
    farm = any_log(chance)
    before, _ = loads(farm)
    with open(farm.log, newline="", encoding="utf-8") as f:
        tons = [float(row["tons"]) for row in csv.DictReader(f)]
    copy, mine = farm.log + ".copy", farm.bytes()
    with open(copy, "rb") as f:
        copied = f.read()
    for name, language in LANGUAGES.items():
        theirs = converted(farm.log, language)
        with open(farm.log, "wb") as f:
            f.write(theirs)
        beside, told = loads(farm)
        check(f"log {log}, {name}, beside its copy", beside == before or
              beside is None and "haul.csv:" in told, (beside, before, told))
        os.remove(copy)
        alone, told = loads(farm)
        check(f"log {log}, {name}, alone", alone == before or
              alone is None and "haul.csv:" in told, (alone, before, told))
        read, refused = read + (alone is not None), refused + (alone is None)
        if name == "American":
            rows = list(csv.DictReader(theirs.decode().splitlines()))
            check(f"log {log}: LibreOffice reads the same tons",
                  [float(row["tons"]) for row in rows] == tons, rows)
        for path, content in ((farm.log, mine), (copy, copied)):
            with open(path, "wb") as f:
                f.write(content)
    farm.end()
check("most are read", read > refused, (read, refused))
print(f"{read} read, {refused} refused by line")
sys.exit(min(failed, 100))
