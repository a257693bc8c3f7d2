"""The haul log against crowds, kills and failing disks; and read by others.

Each check prints a line; the exit code is the number of those that failed. What is checked: every
acknowledged line is in the log, whole; the log stays readable; what fails changes nothing; the copy
beside the log gives no false alarm. HAUL_KILLS and HAUL_CROWD make a shorter run.
"""
import csv
import json
import os
import random
import resource
import shutil
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time

from farm import Farm, PROGRAM, ticket

KILLS, CROWD = int(os.environ.get("HAUL_KILLS", 500)), int(os.environ.get("HAUL_CROWD", 200))
failed = 0


def check(name, right, told=""):
    global failed
    failed += not right
    print(("ok      " if right else "FAILED  ") + name + ("" if right else f": {told}"))


def crowd():
    farm, n = Farm(), CROWD
    runs = [subprocess.Popen(farm.command(k + 1), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            for k in range(n)]
    codes = [run.wait() for run in runs]
    for run in runs:
        run.communicate()
    rows = farm.rows()
    check(f"{n} at once: all say done", codes == [0] * n, codes)
    check(f"{n} at once: as many whole lines",
          [int(r["entry"]) for r in rows] == list(range(1, n + 1)) and
          sorted(r["ticket"] for r in rows) == sorted(ticket(k + 1) for k in range(n)), len(rows))
    check(f"{n} at once: the copy is the same, nothing is told", farm.copied() and farm.quiet())
    farm.end()


def lost(run):
    """It said that the log changed, wrote no paper, and is to be run again."""
    return (run.returncode == 1 and run.stdout == "" and
            "changed while this was worked out; run the command again" in run.stderr)


def issue_until_done(farm, more, runs):
    runs.append(farm.issue(*more))
    while lost(runs[-1]):
        runs.append(farm.issue(*more))


def crowd_with_issues():
    """Tickets are handed out while others record: in one piece, or not at all as the log changed."""
    farm, n, issues = Farm(), CROWD, []
    ways = [["--lot", "North/right"], ["--lot", "South/left"], ["--lot", "South/right"],
            ["--promise"]]
    hands = [threading.Thread(target=issue_until_done, args=(farm, ways[k % len(ways)], issues))
             for k in range(n // 8)]
    for hand in hands:
        hand.start()
    runs = [subprocess.Popen(farm.command(k + 101), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
            for k in range(n - n // 8)]
    codes = [run.wait() for run in runs]
    for run in runs:
        run.communicate()
    for hand in hands:
        hand.join()
    rows, name = farm.rows(), f"{n} at once, issues among them"
    check(f"{name}: all records land",
          codes == [0] * len(runs) and sum(r["kind"] == "hauled" for r in rows) == len(runs), codes)
    bad = [(run.returncode, run.stderr) for run in issues if not lost(run) and (
        run.returncode != 0 or "issued: entr" not in run.stderr and "nothing new" not in run.stderr)]
    check(f"{name}: each issue lands, has nothing new, or says that the log changed", not bad,
          bad[:3])
    landed = [run for run in issues if "issued: entr" in run.stderr]
    check(f"{name}: some land, and some only later", landed and any(map(lost, issues)), len(issues))
    check(f"{name}: papers and entries are the same in number",
          sum(run.stdout.count("ISSUED ") for run in landed) ==
          sum(r["kind"] in ("issued", "promised", "correction") for r in rows))
    batches = [tuple(map(int, r["batch"].split(" of "))) for r in rows if r["batch"] != ""]
    wanted = [(k + 1, size) for k, size in batches if k == 1 for k in range(size)]
    check(f"{name}: batches are whole and in one piece",
          [int(r["entry"]) for r in rows] == list(range(1, len(rows) + 1)) and batches == wanted,
          batches)
    farm.issue()
    before = farm.bytes()
    again = farm.issue()
    check(f"{name}: afterwards nothing is issued twice", again.returncode == 0 and
          farm.bytes() == before and farm.copied() and farm.quiet(), again.stderr)
    farm.end()


def issue_and_fail():
    """Between log and paper: the log has it, and what is printed then is a copy."""
    for more in ({}, {"KILL": "1"}):
        farm = Farm()
        paper = os.path.join(farm.folder, "paper.txt")
        run = farm.issue("-o", paper, env=bad_disk("write", 1, ".littershed-", **more))
        n = len(farm.rows())
        copies = farm.tickets().stdout
        check(f"the paper cannot be written{', killed' if more else ''}: the tickets are issued",
              run.returncode != 0 and n > 0 and copies.count("COPY, issued ") == n and
              "DRAFT" not in copies and not os.path.exists(paper) and
              (more or "ARE issued all the same" in run.stderr), (run.returncode, run.stderr))
        before = farm.bytes()
        again = farm.issue()
        check("and not once more", again.returncode == 0 and farm.bytes() == before, again.stderr)
        farm.end()
    for call in ("open", "write", "short", "fsync"):
        farm = Farm()
        run = farm.issue(env=bad_disk(call, 3 if call == "open" else 1, "haul.csv"))
        check(f"the log cannot be written ({call}): no paper, nothing is issued",
              run.returncode == 3 and run.stdout == "" and not farm.bytes() and
              "COPY" not in farm.tickets().stdout, (run.returncode, run.stderr))
        farm.end()
    farm = Farm()
    farm.issue(env=bad_disk("short", 1, "haul.csv", KILL="1"))
    copies = farm.tickets().stdout.count("COPY, issued ")
    check("killed within the log's lines: nothing is issued", copies == 0, copies)
    check("and then it can be", "issued: entries 1 to" in farm.issue().stderr and farm.copied() and
          farm.quiet())
    farm.end()


def kills():
    farm, n, said = Farm(), KILLS, []
    chance = random.Random(7)
    begun = time.monotonic()
    farm.record(n + 2)
    took = time.monotonic() - begun
    for k in range(n):
        run = subprocess.Popen(farm.command(k + 1), stdout=subprocess.PIPE, stderr=subprocess.PIPE,
                               text=True)
        try:
            run.wait(timeout=chance.uniform(0, 2 * took))
        except subprocess.TimeoutExpired:
            run.kill()
        out, _ = run.communicate()
        if out.startswith("entry "):
            said.append((int(out.split()[1].rstrip(":")), ticket(k + 1)))
    last = farm.record(n + 1)
    rows = {int(r["entry"]): r["ticket"] for r in farm.rows()}
    lost = [one for one in said if rows.get(one[0]) != one[1]]
    check(f"{n} kills: some were in time, some not", n / 25 < len(said) < n - n / 25, len(said))
    check(f"{n} kills: no acknowledged line is lost", not lost, lost)
    check(f"{n} kills: the log can be read and added to",
          last.returncode == 0 and farm.list().returncode == 0, last.stderr)
    check(f"{n} kills: numbers without gaps", sorted(rows) == list(range(1, len(rows) + 1)))
    check(f"{n} kills: the copy is the same, nothing is told", farm.copied() and farm.quiet())
    farm.end()


SHIM = os.path.join(tempfile.mkdtemp(), "failing_disk.so")
subprocess.run(["cc", "-shared", "-fPIC", "-o", SHIM, "tests/haul_log/failing_disk.c", "-ldl"],
               check=True)


def bad_disk(call, nth, part, **more):
    return dict(os.environ, LD_PRELOAD=SHIM, CALL=call, NTH=str(nth), FILE_PART=part, **more)


def kills_between():
    """Killed behind the log's line and before the copy's, or within the copy's."""
    farm, n, said, alarms = Farm(), KILLS, [], []
    chance = random.Random(11)
    points = [("open", ".copy", 2), ("write", ".copy", 1), ("short", ".copy", 1),
              ("fsync", ".copy", 1), ("fsync", "haul.csv", 1), ("short", "haul.csv", 1)]
    farm.record(1)
    for k in range(1, n + 1):
        call, part, nth = points[chance.randrange(len(points))]
        farm.record(2 * k, env=bad_disk(call, nth, part, KILL="1"))
        run = farm.list()
        if run.returncode != 0 or (run.stderr != "" and "is not finished" not in run.stderr):
            alarms.append((call, part, run.stderr))
        if k % 3 == 0:
            run = farm.record(2 * k + 1)
            if run.returncode == 0:
                said.append((int(run.stdout.split()[1].rstrip(":")), ticket(2 * k + 1)))
    farm.record(2 * n + 2)
    rows = {int(r["entry"]): r["ticket"] for r in farm.rows()}
    check(f"{n} kills between log and copy: no acknowledged line is lost",
          len(said) == n // 3 and all(rows.get(e) == t for e, t in said), len(said))
    check(f"{n} kills between log and copy: no false alarm", not alarms, alarms[:3])
    check(f"{n} kills between log and copy: the copy is the same at last",
          farm.copied() and farm.quiet())
    farm.end()


def every_call():
    """Each call on the log, its copy and what is torn fails in turn."""
    for torn in (False, True):
        for call in ("open", "write", "short", "fsync", "ftruncate"):
            for nth in range(1, 8):
                farm = Farm()
                farm.record(1)
                if torn:
                    for name in (farm.log, farm.log + ".copy"):
                        with open(name, "ab") as f:
                            f.write(b"2,,NORTH")
                before = farm.bytes()
                run = farm.record(50, env=bad_disk(call, nth, "haul.csv"))
                after = farm.bytes()
                rows = [r["ticket"] for r in farm.rows()]
                name = f"{call} {nth} fails{', a torn line before' if torn else ''}"
                if run.returncode == 0:
                    told = "its copy" in run.stderr or "copy of the haul log" in run.stderr
                    check(f"{name}: a copy that lacks the entry is told", farm.copied() or told,
                          run.stderr)
                    check(f"{name}: said and there", ticket(50) in rows and
                          run.stdout.startswith("entry 2:"), (run.stderr, after))
                else:
                    check(f"{name}: exit 3, told, no entry",
                          run.returncode in (1, 3) and run.stdout == "" and
                          ticket(50) not in rows and
                          (after == before or torn and before.startswith(after)),
                          (run.returncode, run.stderr, after))
                again = farm.record(51)
                check(f"{name}: the next one lands, the copy is whole, nothing is told",
                      again.returncode == 0 and farm.copied() and farm.quiet(), again.stderr)
                farm.end()


def failing_disk():
    for call in ("write", "short", "fsync"):
        for before in (0, 1):
            farm = Farm()
            for k in range(before):
                farm.record(k + 1)
            bytes_before = farm.bytes()
            run = farm.record(50, env=bad_disk(call, 1, "haul.csv"))
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
        run = farm.record(50, env=bad_disk(call, 1, ".torn"))
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
    with sqlite3.connect(":memory:") as db:
        db.execute("create table haul(tons)")
        db.executemany("insert into haul values (?)", [(r["tons"],) for r in farm.rows()])
        total = db.execute("select sum(cast(tons as real)) from haul").fetchone()[0]
    page = json.loads(subprocess.run([PROGRAM, "record", *farm.files, "--list", "--format", "json"],
                                     capture_output=True, text=True).stdout)
    check("SQLite adds the tons up to the program's", abs(total - page["out_of_houses"]["tons"]) < 1e-9,
          (total, page["out_of_houses"]))
    listed = subprocess.run([PROGRAM, "record", *farm.files, "--list", "--format", "csv"],
                            capture_output=True, text=True, encoding="utf-8").stdout
    rows = list(csv.DictReader(listed.splitlines(keepends=True)))
    check("the list as CSV has all entries", len(rows) == len(notes), len(rows))
    farm.end()


for part in (crowd, crowd_with_issues, issue_and_fail, kills, kills_between, every_call, failing_disk, no_room, folder_for_reading_only, read_by_others):
    part()
sys.exit(min(failed, 100))
