"""The haul log against crowds, kills and failing disks; and read by others.

Each check prints a line; the exit code is the number of those that failed. What is checked: every
acknowledged line is in the log, whole; the log stays readable; what fails changes nothing.
"""
import csv
import os
import random
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile

PROGRAM = os.path.abspath("build/littershed")
DEMO = [os.path.abspath(f"fixtures/demo-{part}.yaml") for part in ("house", "fields")]
FIELD = "Larkspur Hay/Upper Meadow"
failed = 0


def check(name, right, told=""):
    global failed
    failed += not right
    print(("ok      " if right else "FAILED  ") + name + ("" if right else f": {told}"))


def ticket(number, lot="NORTH-LEFT"):
    """Lot, number and the check character of ISO 7064 MOD 37,36."""
    text = f"{lot}-{number:02d}"
    alphabet = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    product = 36
    for c in text:
        if c in alphabet:
            product = ((product + alphabet.index(c)) % 36 or 36) * 2 % 37
    return f"{text}-{alphabet[(37 - product) % 36]}"


class Farm:
    """The demo farm in a folder of its own."""

    def __init__(self):
        self.folder = tempfile.mkdtemp()
        os.chmod(self.folder, 0o755)
        self.files = [shutil.copy(f, self.folder) for f in DEMO]
        self.log = os.path.join(self.folder, "demo-house.haul.csv")

    def command(self, number, *more):
        return [PROGRAM, "record", *self.files, "--ticket", ticket(number), "--tons", "8.5",
                "--weighed", "--when", "2026-02-16T10:00", "--field", FIELD, *more]

    def record(self, number, *more, **how):
        return subprocess.run(self.command(number, *more), capture_output=True, text=True, **how)

    def rows(self):
        with open(self.log, newline="", encoding="utf-8") as f:
            return list(csv.DictReader(f))

    def bytes(self):
        if not os.path.exists(self.log):
            return None
        with open(self.log, "rb") as f:
            return f.read()

    def list(self):
        return subprocess.run([PROGRAM, "record", *self.files, "--list"], capture_output=True,
                              text=True)

    def end(self):
        shutil.rmtree(self.folder)


def crowd():
    farm, n = Farm(), 200
    runs = [subprocess.Popen(farm.command(k + 1), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            for k in range(n)]
    codes = [run.wait() for run in runs]
    for run in runs:
        run.communicate()
    rows = farm.rows()
    check("200 at once: all say done", codes == [0] * n, codes)
    check("200 at once: 200 whole lines",
          [int(r["entry"]) for r in rows] == list(range(1, n + 1)) and
          sorted(r["ticket"] for r in rows) == sorted(ticket(k + 1) for k in range(n)), len(rows))
    farm.end()


def kills():
    farm, n, said = Farm(), 500, []
    chance = random.Random(7)
    for k in range(n):
        run = subprocess.Popen(farm.command(k + 1), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                               text=True)
        try:
            run.wait(timeout=chance.uniform(0, 0.12))
        except subprocess.TimeoutExpired:
            run.kill()
        out, _ = run.communicate()
        if out.startswith("entry "):
            said.append((int(out.split()[1].rstrip(":")), ticket(k + 1)))
    last = farm.record(n + 1)
    rows = {int(r["entry"]): r["ticket"] for r in farm.rows()}
    lost = [one for one in said if rows.get(one[0]) != one[1]]
    check("500 kills: some were in time, some not", 20 < len(said) < n - 20, len(said))
    check("500 kills: no acknowledged line is lost", not lost, lost)
    check("500 kills: the log can be read and added to",
          last.returncode == 0 and farm.list().returncode == 0, last.stderr)
    check("500 kills: numbers without gaps", sorted(rows) == list(range(1, len(rows) + 1)))
    farm.end()


def failing_disk():
    shim = os.path.join(tempfile.mkdtemp(), "failing_disk.so")
    subprocess.run(["cc", "-shared", "-fPIC", "-o", shim, "tests/haul_log/failing_disk.c", "-ldl"],
                   check=True)
    for call in ("write", "short", "fsync"):
        for before in (0, 1):
            farm = Farm()
            for k in range(before):
                farm.record(k + 1)
            bytes_before = farm.bytes()
            run = farm.record(50, env=dict(os.environ, LD_PRELOAD=shim, CALL=call, NTH="1",
                                           FILE_PART="haul.csv"))
            after = farm.bytes()
            check(f"{call} fails, {before} entries before: exit 3, told, nothing changed",
                  run.returncode == 3 and "nothing was recorded" in run.stderr and
                  run.stdout == "" and (after == bytes_before or (before == 0 and not after)),
                  (run.returncode, run.stderr, after))
            check(f"{call} fails, {before} entries before: the next one lands",
                  farm.record(51).returncode == 0 and len(farm.rows()) == before + 1)
            farm.end()
    farm = Farm()
    farm.record(1)
    with open(farm.log, "ab") as f:
        f.write(b"2,,NORTH")
    torn = farm.bytes()
    for call in ("write", "fsync"):
        run = farm.record(50, env=dict(os.environ, LD_PRELOAD=shim, CALL=call, NTH="1",
                                       FILE_PART=".torn"))
        check(f"a torn line cannot be set aside ({call}): nothing changed",
              run.returncode == 3 and farm.bytes() == torn, (run.returncode, run.stderr))
    run = farm.record(50)
    with open(farm.log + ".torn", "rb") as f:
        check("a torn line is set aside, and said", run.returncode == 0 and
              "not finished" in run.stderr and b"2,,NORTH" in f.read(), run.stderr)
    farm.end()


def no_room():
    farm = Farm()
    farm.record(1)
    before = farm.bytes()

    def small():
        resource.setrlimit(resource.RLIMIT_FSIZE, (len(before) + 10, len(before) + 10))
    run = farm.record(2, preexec_fn=small)
    check("no larger file is allowed: exit 3, nothing changed",
          run.returncode == 3 and farm.bytes() == before, (run.returncode, run.stderr))
    farm.end()


def folder_for_reading_only():
    farm = Farm()
    program = shutil.copy(PROGRAM, farm.folder)
    command = farm.command(1)
    run = subprocess.run(["setpriv", "--reuid=65534", "--clear-groups", program, *command[1:]],
                         capture_output=True, text=True)
    check("a folder for reading only: exit 3, told",
          run.returncode == 3 and "permission denied" in run.stderr and farm.bytes() is None,
          (run.returncode, run.stderr))
    farm.end()


def read_by_others():
    """RFC 4180 through Python's csv module and SQLite's reader."""
    farm = Farm()
    notes = ['a "quoted" word', "two, three", "line one\nline two", "=1+1", "'=1+1", "@cmd", "é€"]
    for k, note in enumerate(notes):
        run = farm.record(k + 1, "--note", note)
        check(f"note {k + 1} is taken", run.returncode == 0, run.stderr)
    guarded = [("'" if n[0] in "=+-@" or n.startswith("'=") else "") + n for n in notes]
    check("Python's csv module reads the notes", [r["note"] for r in farm.rows()] == guarded,
          [r["note"] for r in farm.rows()])
    out = subprocess.run(["sqlite3", ":memory:", "-cmd", ".mode csv", "-cmd",
                          f".import {farm.log} haul", "-cmd", ".mode quote",
                          "select note from haul"], capture_output=True, text=True).stdout
    with sqlite3.connect(":memory:") as db:
        quoted = "".join(db.execute("select quote(?)", (n,)).fetchone()[0] + "\n" for n in guarded)
    check("SQLite reads the notes", out == quoted, out)
    listed = subprocess.run([PROGRAM, "record", *farm.files, "--list", "--format", "csv"],
                            capture_output=True, text=True, encoding="utf-8").stdout
    rows = list(csv.DictReader(listed.splitlines(keepends=True)))
    check("the list as CSV has all entries", len(rows) == len(notes), len(rows))
    farm.end()


for part in (crowd, kills, failing_disk, no_room, folder_for_reading_only, read_by_others):
    part()
sys.exit(min(failed, 100))
