"""The tour of the README is true: every block that begins with `% COMMAND` is run, and what it prints holds the lines shown,
in their order; a line `[...]` stands for any lines left out."""
import os
import re
import subprocess
import sys

root = os.path.dirname(os.path.dirname(os.path.abspath(__file__)))
text = open(os.path.join(root, "README.md"), encoding="utf-8").read()
environment = dict(os.environ, PATH=os.path.join(root, "build") + ":" + os.environ["PATH"])


def blocks():
    """Indented blocks, without their indent."""
    for found in re.finditer(r"(?:^    .*\n|^\n(?=    ))+", text, re.MULTILINE):
        yield [line[4:] for line in found.group(0).strip("\n").split("\n")]


def missing(shown, printed):
    """The first shown line that does not stand where it should; None if all do."""
    at, anywhere = 0, True
    for line in shown:
        if line == "[...]":
            anywhere = True
            continue
        try:
            found = printed.index(line, at)
        except ValueError:
            return line
        if not anywhere and found != at:
            return line
        at, anywhere = found + 1, False
    return None


run = wrong = 0
for block in blocks():
    if not block[0].startswith("% "):
        continue
    done = subprocess.run(block[0][2:], shell=True, cwd=root, env=environment, capture_output=True, text=True)
    line = missing(block[1:], (done.stdout + done.stderr).split("\n"))
    run += 1
    if line is not None:
        wrong += 1
        print(f"README: {block[0]}\n  does not print: {line!r}")
print(f"{run} examples run, {wrong} wrong")
sys.exit(1 if wrong or run == 0 else 0)
