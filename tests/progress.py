"""progress.py LITTERSHED: what plans many fields says on a terminal what it is at, erases it, and says nothing in a pipe.
The fields are the demo's, copied under other names."""
import os
import pty
import re
import subprocess
import sys
import tempfile
from pathlib import Path

FIXTURES = Path(__file__).parent.parent / "fixtures"
COPIES = 12


def fields(folder):
    head, buyers = re.split(r"(?<=^buyers:\n)", (FIXTURES / "demo-fields.yaml").read_text(), flags=re.M)
    path = Path(folder) / "fields.yaml"
    path.write_text(head + "".join(re.sub(r"^( *- name: .*)$", rf"\1 {k}", buyers, flags=re.M) for k in range(COPIES)))
    return path


def on_terminal(command):
    """What the command writes to its standard error, a terminal."""
    child, terminal = pty.fork()
    if child == 0:
        os.dup2(os.open(os.devnull, os.O_WRONLY), 1)
        os.execv(command[0], command)
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
    return status, written.decode()


def faults_of(command):
    status, written = on_terminal(command)
    piped = subprocess.run(command, capture_output=True, text=True)
    if status != 0 or piped.returncode != 0:
        yield "failed"
    if piped.stderr != "":
        yield f"in a pipe: {piped.stderr!r}"
    if not re.search(r"\rplacing loads: [a-z, ]+, goal [1-4] of 4", written):
        yield f"on a terminal: {written[:200]!r}"
    if not re.search(r"\r +\r$", written):
        yield f"not erased: {written[-80:]!r}"


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        farm = [str(FIXTURES / "demo-house.yaml"), str(fields(folder))]
        faults = [f"{name}: {x}" for name in ("plan", "dossier") for x in faults_of([program, name, *farm])]
    for fault in faults:
        print(fault)
    return len(faults) > 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
