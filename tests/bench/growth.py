"""How time grows with the farm: the demo's houses and fields, copied under other names."""
import json
import re

from tools import DEMO_FIELDS, DEMO_HOUSE, Row, Wrong, in_turn

HOUSES, FIELDS = (2, 20, 200), (10, 100, 1000, 2000)
DEMO_HOUSES, DEMO_FIELDS_N, SIDES = 2, 5, 2


def copies(text, n):
    """The list n times, the k-th with " k" after each name."""
    return "".join(re.sub(r"^( *- name: .*)$", rf"\1 {k}", text, flags=re.M) for k in range(1, n + 1))


def houses_file(tools, n):
    head, houses, tail = re.split(r"(?<=^houses:\n)|(?=^trucks:)", DEMO_HOUSE.read_text(), flags=re.M)
    path = tools.folder / f"houses-{n}.yaml"
    path.write_text(head + copies(houses, n // DEMO_HOUSES) + tail)
    return path


def fields_file(tools, n):
    head, buyers = re.split(r"(?<=^buyers:\n)", DEMO_FIELDS.read_text(), flags=re.M)
    path = tools.folder / f"fields-{n}.yaml"
    path.write_text(head + copies(buyers, n // DEMO_FIELDS_N))
    return path


def timed(tools, command, *files):
    """A run that writes JSON to a file; the file is then read."""
    path = tools.folder / "growth.json"
    seconds = tools.process(command, "--format", "json", "-o", path, *files)
    return seconds, json.loads(path.read_text())


def estimate(tools, n):
    seconds, told = timed(tools, "estimate", houses_file(tools, n))
    lots = told["lots"]
    if len(lots) != SIDES * n or not all(lot["tons"]["low"] > 0 for lot in lots):
        raise Wrong(f"estimate of {n} houses: {len(lots)} lots")
    return seconds


def rates(tools, n):
    """Each copy of a field is told the rates of the demo's field."""
    seconds, told = timed(tools, "rates", DEMO_HOUSE, fields_file(tools, n))
    per_acre = [[lot["ton_per_ac"] for lot in field["lots"]] for field in told["fields"]]
    if len(per_acre) != n or per_acre != per_acre[:DEMO_FIELDS_N] * (n // DEMO_FIELDS_N):
        raise Wrong(f"rates of {n} fields: not those of the demo's fields")
    return seconds


def table(tools, what, unit, run, sizes, rounds):
    took = in_turn(rounds, *(lambda n=n: run(tools, n) for n in sizes))
    each = [1000 * t["seconds"] / n for t, n in zip(took, sizes)]
    words = ", ".join(f"{n:,}: {ms:.2f}" for n, ms in zip(sizes, each))
    return Row(what, f"ms per {unit}: {words}", each[-1] / each[-2], f"x {sizes[-2]:,}'s", most=1.1)


def measure(tools):
    return [table(tools, "estimate by houses", "house", estimate, HOUSES, 3),
            table(tools, "rates by fields", "field", rates, FIELDS, 3)]
