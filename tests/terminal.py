"""terminal.py LITTERSHED: pages on a terminal are as wide as it is, between 60 and 80 columns, with headings in bold and
not one escape of the farm file's; in a pipe and in a file they are plain. The farm has a hostile name."""
import fcntl
import os
import pty
import re
import struct
import subprocess
import sys
import tempfile
import termios
from pathlib import Path

FIXTURES = Path(__file__).parent.parent / "fixtures"
HOSTILE = r'"\e[31mRed\e[0m \e]0;title\a Farm With A Name As Long As Two Lines Of A Narrow Terminal Would Be, Or \u202e More"'
PAGES = [["check"], ["check", "--full"], ["estimate"], ["estimate", "--full"], ["rates"], ["rates", "--full"], ["plan"],
         ["plan", "--full"], ["dossier"], ["explain", "north.tons"], ["tickets"], ["tickets", "--promise"]]
PAPER = "tickets"  # a sheet of paper: 80 columns wherever it is shown
BOLD = re.compile("\x1b\\[1m([^\x1b\n]+)\x1b\\[0m")


def farm(folder):
    house = Path(folder) / "house.yaml"
    text = (FIXTURES / "demo-house.yaml").read_text()
    text, n = re.subn(r"^(\s+name: )Cedar Fork Flocks$", lambda m: m[1] + HOSTILE, text, flags=re.M)
    assert n == 1
    house.write_text(text)
    for beside in FIXTURES.glob("*.csv"):
        (Path(folder) / beside.name).write_bytes(beside.read_bytes())
    return [str(house), str(FIXTURES / "demo-fields.yaml")]


def on_terminal(command, columns, **variables):
    """What the command writes to a terminal of that width; 0: it does not say."""
    child, terminal = pty.fork()
    if child == 0:
        fcntl.ioctl(1, termios.TIOCSWINSZ, struct.pack("HHHH", 40, columns, 0, 0))
        os.dup2(os.open(os.devnull, os.O_WRONLY), 2)
        base = {k: v for k, v in os.environ.items() if k not in ("COLUMNS", "NO_COLOR", "TERM")}
        os.execve(command[0], command, base | {"TERM": "xterm"} | variables)
    written = b""
    while True:
        try:
            some = os.read(terminal, 4096)
        except OSError:
            some = b""
        if not some:
            break
        written += some
    _, status = os.waitpid(child, 0)
    return written.decode().replace("\r\n", "\n") if status == 0 else None


def faults_on_terminal(command, columns, width, **variables):
    page = on_terminal(command, columns, **variables)
    if page is None or len(page) < 200:
        return ["failed"]
    plain = BOLD.sub(r"\1", page)
    widest = max(len(x.lstrip("\f")) for x in plain.split("\n"))
    faults = [f"{widest} columns wide"] * (widest > width)
    faults += ["an escape"] * (re.search("[\x00-\x09\x0b\x0d-\x1f\x7f-\x9f\u202e]", plain) is not None)
    wants = PAPER not in command and not variables.get("NO_COLOR") and variables.get("TERM") != "dumb"
    faults += ["nothing bold" if wants else "bold"] * ((plain != page) != wants)
    rules = {len(x) for x in plain.split("\n") if re.fullmatch("-{20,}", x)}
    faults += [f"rules of {rules}"] * (rules - {width} != set())
    return [f"at {columns} columns {variables}: {x}" for x in faults]


def faults_of(command):
    for columns, width in ((60, 60), (80, 80), (200, 80), (40, 60)):
        yield from faults_on_terminal(command, columns, 80 if PAPER in command else width)


def faults_elsewhere(command, folder):
    yield from faults_on_terminal(command, 0, 70, COLUMNS="70")
    yield from faults_on_terminal(command, 0, 80)
    yield from faults_on_terminal(command, 72, 72, NO_COLOR="1")
    yield from faults_on_terminal(command, 72, 72, NO_COLOR="")
    yield from faults_on_terminal(command, 72, 72, TERM="dumb")
    piped = subprocess.run(command, capture_output=True, text=True).stdout
    into = Path(folder) / "page"
    on_terminal([*command, "-o", str(into)], 60)
    for where, page in (("in a pipe", piped), ("in a file", into.read_text())):
        if len(page) < 200 or "\x1b" in page or max(map(len, page.split("\n"))) != 80:
            yield f"{where}: not plain, or not 80 columns wide"


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        files = farm(folder)
        commands = [[program, page[0], *files, *page[1:]] for page in PAGES]
        faults = [f"{' '.join(c[1:])}: {x}" for c in commands for x in faults_of(c)]
        faults += [f"plan: {x}" for x in faults_elsewhere([program, "plan", *files], folder)]
    for fault in faults:
        print(fault)
    return len(faults) > 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
