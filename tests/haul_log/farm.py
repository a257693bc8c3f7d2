"""The demo farm in a folder of its own, and tickets for it."""
import csv
import os
import shutil
import subprocess
import sys
import tempfile

sys.path.insert(0, os.path.dirname(os.path.dirname(os.path.abspath(__file__))))
from bookkeeping import farms  # noqa: E402

PROGRAM = os.path.abspath("build/littershed")
DEMO = [os.path.abspath(f"fixtures/demo-{part}.yaml") for part in ("house", "fields")]
FIELD = "Larkspur Hay/Upper Meadow"


def ticket(number, lot="NORTH-LEFT"):
    return farms.ticket(lot, number)


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

    def issue(self, *more, **how):
        return subprocess.run([PROGRAM, "tickets", *self.files, "--issue", *more],
                              capture_output=True, text=True, **how)

    def tickets(self):
        """The tickets as they are printed without being handed out."""
        return subprocess.run([PROGRAM, "tickets", *self.files], capture_output=True, text=True)

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

    def quiet(self):
        """The list is shown and nothing is told beside it."""
        run = self.list()
        return run.returncode == 0 and run.stderr == ""

    def copied(self):
        with open(self.log + ".copy", "rb") as f:
            return f.read() == self.bytes()

    def end(self):
        shutil.rmtree(self.folder)
