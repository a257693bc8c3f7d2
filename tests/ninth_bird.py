"""A ninth bird is added to a copy of the tree by the recipe in DEVELOPERS.md, word for word, and must be
found by check, new, estimate, dossier and schema. Its tables are the broiler's under its name."""
import json
import os
import re
import shutil
import subprocess
import sys
import tempfile

from starter import filled

ROOT = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..")
LIKE = "broiler"


def recipe():
    """The row, and the names of the tables, as DEVELOPERS.md gives them."""
    text = open(os.path.join(ROOT, "DEVELOPERS.md")).read()
    part = re.search(r"^\*\*a bird\*\*.*?(?=^\*\*)", text, re.S | re.M).group(0)
    row = re.search(r"^ +(X\((LS_\w+), \"([^\"]+)\".*\))$", part, re.M)
    rows = re.search(r"a row in\s+the\s+tables ((?:`\w+`(?:,| and)?\s+)+)", part).group(1)
    tables = re.search(r"tables\s+((?:`\w+`(?:,| and)?\s+)+)of\s+that\s+name", part).group(1)
    queried = re.findall(r"`([a-z ]+) roaster`", part)
    return row.group(1), row.group(3), queried, re.findall(r"`(\w+)`", rows), re.findall(r"`(\w+)`", tables)


def add_row(tree, row):
    path = os.path.join(tree, "include/littershed/farm/birds.h")
    lines = open(path).read().split("\n")
    last = max(i for i, line in enumerate(lines) if line.startswith("    X("))
    lines[last] += " \\"
    lines.insert(last + 1, "    " + row)
    open(path, "w").write("\n".join(lines))


def blocks(text, kind, name):
    """Where the tables of a kind (and a name) stand: (start, end)."""
    starts = [m.start() for m in re.finditer(r"^  - {kind: ", text, re.M)] + [len(text)]
    for start, end in zip(starts, starts[1:]):
        block = text[start:end]
        named = re.match(r"  - {kind: \w+, name: ([^,]*),", block)
        if block.startswith("  - {kind: %s," % kind) and (named.group(1) if named else "") == name:
            yield start, end


def copy_in(tree, kind, name, change):
    """Change the text of the one table of that kind and name, in whichever file it stands."""
    folder = os.path.join(tree, "src/reference")
    for file in sorted(os.listdir(folder)):
        path = os.path.join(folder, file)
        text = open(path).read() if file.endswith(".yaml") else ""
        for start, end in blocks(text, kind, name):
            open(path, "w").write(text[:start] + change(text[start:end]) + text[end:])
            return
    sys.exit("no table %s %s" % (kind, name))


def with_row(block, name, before=""):
    row = re.search(r"^      %s%s:(?: .*)?\n(?:       .*\n)*" % (before, LIKE), block, re.M)
    return block[:row.end()] + row.group(0).replace(LIKE, name, 1) + block[row.end():]


def main():
    row, name, queried, rows, tables = recipe()
    tree = tempfile.mkdtemp()
    try:
        files = subprocess.run(["git", "ls-files"], cwd=ROOT, capture_output=True, text=True, check=True).stdout
        for file in files.split("\n"):
            if file.startswith(("src/", "include/", "Makefile", "man/")):
                os.makedirs(os.path.dirname(os.path.join(tree, file)) or tree, exist_ok=True)
                shutil.copy(os.path.join(ROOT, file), os.path.join(tree, file))
        add_row(tree, row)
        for kind in rows:
            copy_in(tree, kind, "", lambda block: with_row(block, name))
        for before in queried:
            copy_in(tree, "plausible", "", lambda block: with_row(block, name, before + " "))
        for kind in tables:
            copy_in(tree, kind, LIKE, lambda b: b + b.replace("name: " + LIKE, "name: " + name, 1))
        make = ["make", "-s", "-j2", "all"] + (["CC=" + os.environ["CC"]] if "CC" in os.environ else [])
        subprocess.run(make, cwd=tree, check=True, stdout=subprocess.DEVNULL)
        look(os.path.join(tree, "build/littershed"), tree, name)
    finally:
        shutil.rmtree(tree)


def look(program, tree, name):
    def run(*arguments):
        done = subprocess.run([program, *arguments], cwd=tree, capture_output=True, text=True)
        assert done.returncode == 0, (arguments, done.stdout[-500:], done.stderr)
        return done.stdout

    answers = {"placed": "2025-12-02", "removed": "2026-02-08", "flocks": "1"}
    starter = filled(run("new", "--birds", name), answers)
    assert "birds: " + name in starter
    open(os.path.join(tree, "farm.yaml"), "w").write(starter)
    page = run("check", "farm.yaml", "--full")
    assert name in page and "STILL THE STARTER'S" in page
    lot = json.loads(run("estimate", "farm.yaml", "--format", "json"))["lots"][0]
    assert lot["tons"]["mid"] > 0 and lot["lb_per_ton"]["P2O5"]["mid"] > 0, lot
    open(os.path.join(tree, "crowded.yaml"), "w").write(re.sub(r"count: \d{4,}", "count: 180000", starter))
    assert "floor for each bird" in " ".join(run("check", "crowded.yaml", "--full").split()), "no query of the floor"
    dossier = json.loads(run("dossier", "farm.yaml", "--format", "json", "--period", "2026"))
    assert any(x["birds"] == name for x in dossier["months"]), dossier["months"]
    assert dossier["sizes"] and dossier["sizes"][0]["count"] > 0, dossier["sizes"]
    assert dossier["years"][0]["birds"] == dossier["sizes"][0]["count"], dossier["years"]
    assert '"%s"' % name in run("schema")
    print("a ninth bird, %s: found" % name)


main()
