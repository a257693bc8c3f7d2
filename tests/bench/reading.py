"""The whole estimate of the demo farm, and what of it is not sampling against a bare parse of its files."""
from tools import DEMO, Row, in_turn

PARSES = 30


def measure(tools):
    whole, parted, parse = in_turn(
        15,
        lambda: tools.process("estimate", *DEMO),
        lambda: tools.say(tools.tool, "run", tools.tool, "estimate", *DEMO),
        lambda: tools.say(tools.tool, "parse", *DEMO))
    rest = parted["seconds"] - parted["drawing"]
    return [
        Row("estimate, usual draws", "whole process, median of 15", 1000 * whole["seconds"], "ms", most=50),
        Row("all of it but sampling", f"{1000 * rest:.1f} ms and {1000 * parted['drawing']:.1f} ms sampling; "
            f"a bare parse of the files {1000 * parse['seconds']:.2f} ms",
            rest / parse["seconds"], "bare parses", most=PARSES),
    ]
