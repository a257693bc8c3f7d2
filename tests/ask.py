"""ask.py LITTERSHED: `new --ask` on a terminal of its own: right, wrong, odd and empty answers, one step back, "do not know", an end
in the middle and a killed program, a file changed by hand meanwhile. The file holds each answer as soon as it is given, nothing that was not, and at the end
the page is that of `estimate`."""
import os
import pty
import re
import select
import signal
import subprocess
import sys
import tempfile
from pathlib import Path

PROMPT = re.compile(r"like .*: $")
MOST = 12  # questions to a first estimate


class Dialog:
    """The program on a terminal; said: all it wrote so far."""

    def __init__(self, program, folder, *options):
        self.child, self.terminal = pty.fork()
        if self.child == 0:
            os.chdir(folder)
            os.environ["TERM"] = "dumb"
            os.execv(program, [program, "new", "--ask", "-o", "farm.yaml", *options])
        self.said, self.open = "", True

    def read(self):
        """Until it asks or ends; what it wrote."""
        said = ""
        while self.open and not PROMPT.search(said):
            if not select.select([self.terminal], [], [], 20)[0]:
                raise AssertionError("it neither asks nor ends: " + said)
            try:
                part = os.read(self.terminal, 4096).decode()
            except OSError:
                part = ""
            self.open = part != ""
            said += part.replace("\r\n", "\n")
        self.said += said
        return said

    def answer(self, text):
        os.write(self.terminal, text.encode() + b"\n")
        return self.read()

    def end(self):
        """Its exit code, or minus the signal that ended it."""
        _, status = os.waitpid(self.child, 0)
        os.close(self.terminal)
        return os.waitstatus_to_exitcode(status)


def holds(text, *parts):
    for part in parts:
        assert part in " ".join(text.split()), (part, text)


def lines(folder):
    return [x.split(" # ")[0].strip() for x in (Path(folder) / "farm.yaml").read_text().split("\n")]


def broilers(program, folder):
    s = Dialog(program, folder, "--birds", "broiler")
    holds(s.read(), "name of the farm")
    holds(s.answer(""), "Write an answer")
    holds(s.answer('Fern "Gap": 2 # farm'), "name of the house")
    assert 'name: "Fern \\"Gap\\": 2 # farm"' in (Path(folder) / "farm.yaml").read_text()
    holds(s.answer("House 1"), "inside length")
    holds(s.answer("forty paces"), "error:", "farm.yaml:")
    holds(s.answer("500 lb"), "error:")
    holds(s.answer("{a: b"), "error:")
    assert "length:" in lines(folder)
    holds(s.answer("500 ft"), "inside width")
    os.write(s.terminal, b"\x04")  # Ctrl-D
    holds(s.read(), "Still to fill in: 7", "new --ask -o farm.yaml")
    assert s.end() == 0
    assert "length: 500 ft" in lines(folder) and "width:" in lines(folder)

    s = Dialog(program, folder)
    holds(s.read(), "inside width")
    s.answer("43 ft")
    os.kill(s.child, signal.SIGKILL)
    assert s.end() == -signal.SIGKILL
    assert "width: 43 ft" in lines(folder)

    s = Dialog(program, folder)
    holds(s.read(), "what was spread")
    holds(s.answer("do not know"), "Left out", "birds placed")
    assert not any(x.startswith("bedding:") for x in lines(folder))
    s.answer("24,500")  # asked again, with a hint, or taken as meant
    if "count: 24,500" not in lines(folder):
        s.answer("24500")
    holds(s.answer("?"), "day the birds came in", "the last of them")
    holds(s.answer("2025-11-03"), "day the birds left")
    holds(s.answer("2025-10-01"), "error:", "removed before")
    holds(s.answer("2026-10-27"), "358 days", "25 to 75", "removed, like")  # 28 + 31 + 299 days
    holds(s.answer("back"), "day the birds came in")
    holds(s.answer("2025-08-04"), "day the birds left")
    holds(s.answer("2025-09-20"), "further houses like it")
    holds(s.answer("House 1"), 'a second house "House 1"')
    holds(s.answer("back"), "day the birds left")
    holds(s.answer("2025-12-20"), "138 days")  # said twice, it is taken
    holds(s.answer("2025-12-20"), "further houses like it")
    holds(s.answer("back"), "day the birds left")
    holds(s.answer("2025-09-20"), "further houses like it")
    for counted in ("2", "two more", "all 3", "House 2, 3"):
        holds(s.answer(counted), "is no name", "House 2, House 3")
    assert not any(x.startswith("like:") for x in lines(folder))
    page = s.answer("House 2 and House 3")
    assert s.end() == 0
    plain = subprocess.run([program, "estimate", "farm.yaml"], cwd=folder, capture_output=True, text=True)
    assert plain.returncode == 0 and plain.stdout.strip() in page, page
    assert "FILL IN" not in re.sub(r"#.*FILL IN.*", "", "\n".join(x for x in lines(folder) if not x.startswith("#")))
    assert "flocks: 5" not in lines(folder)
    for _ in range(2):  # a second run asks for no more
        assert lines(folder).count("like: House 1") == 2 and "- name: House 3" in lines(folder)
        s = Dialog(program, folder)
        holds(s.read(), "tons likely")
        assert s.end() == 0


def what_it_needs(program, folder):
    """A needed answer that nobody knows stays to be filled in, and is asked for again."""
    (Path(folder) / "farm.yaml").unlink()
    s = Dialog(program, folder, "--birds", "layer", "--housing", "belt", "--units", "metric")
    s.read()
    for text in ("Home", "A", "119 m", "12.8 m"):
        s.answer(text)
    holds(s.answer("?"), "An estimate needs this")
    s.answer("2025-02-24")
    holds(s.answer("2026-02-09"), "Still to fill in: 1")
    assert s.end() == 0
    s = Dialog(program, folder)
    holds(s.read(), "birds placed")
    s.answer("7100")
    holds(s.answer("None"), "tons likely")
    assert s.end() == 0
    for none in ("no", "0", "?"):
        s = Dialog(program, folder)
        s.read()
        holds(s.answer(none), "tons likely")
        assert s.end() == 0
    assert not any(x.startswith("like:") for x in lines(folder))


def turkeys(program, folder):
    """Asked what birds there are: no more questions than twelve. Text that looks like a line to be filled in is none."""
    file = Path(folder) / "farm.yaml"
    file.unlink()
    s = Dialog(program, folder)
    number = re.search(r"(\d+)  turkey tom, grower", s.read())[1]
    for wrong in ("x", "0", "99", ""):
        holds(s.answer(wrong), "one of these numbers")
    answers = ["Hill # FILL IN, like x", "Big", "500 ft", "43 ft", "5000", "2", "2025-11-03", "2026-02-09", "133 days"]
    holds(s.answer(number), "name of the farm")
    holds(s.answer("back"), "no question before")
    for text in answers[:-1]:
        s.answer(text)
    for shown in ("day the birds left", "day the birds came in", "so many flocks"):
        holds(s.answer("back"), shown)
    for text in answers[5:8]:
        s.answer(text)
    file.write_text(file.read_text().replace("500 ft", "505 ft"))
    holds(s.answer("133 days"), "changed meanwhile", "age")
    holds(s.answer("133 days"), "further houses")
    holds(s.answer(""), "tons likely")
    assert s.end() == 0 and len(answers) + 2 <= MOST
    assert "length: 505 ft" in lines(folder) and "age: 133 days" in lines(folder)
    file.write_bytes(file.read_bytes().replace(b"\n", b"\r\n").replace(b"width: 43 ft", b"width:   # FILL IN, like 40 ft"))
    s = Dialog(program, folder)
    holds(s.read(), "inside width", "like 40 ft:")
    s.answer("44 ft")
    os.write(s.terminal, b"\x04")
    s.read()
    assert s.end() == 0 and "width: 44 ft" in lines(folder)


def main():
    program = os.path.abspath(sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        broilers(program, folder)
        what_it_needs(program, folder)
        turkeys(program, folder)
        piped = subprocess.run([program, "new", "--ask", "-o", "other.yaml"], cwd=folder, stdin=subprocess.DEVNULL, capture_output=True,
                               text=True)
        assert piped.returncode == 2 and "terminal" in piped.stderr, piped
        none = subprocess.run([program, "new", "--ask"], cwd=folder, capture_output=True, text=True)
        assert none.returncode == 2 and "-o" in none.stderr, none
    print("asked on a terminal: all answers kept")


main()
