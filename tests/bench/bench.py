"""bench.py LITTERSHED TOOL: speed and size of littershed against the plain alternative on the same work.

A figure that misses its aim says so; only a wrong result fails. Each subject is a module of this folder with
measure(tools), which returns rows of the table; another one (the split beside a solver, say) is one more module
named below."""
import os
import sys
import tempfile
from pathlib import Path

import growth
import reading
import sampling
import splitting
from tools import Row, Tools, Wrong

SUBJECTS = (
    ("Sampling", sampling),
    ("The whole estimate", reading),
    ("Larger farms", growth),
    ("The split", splitting),
)


def verdict(row: Row):
    if row.figure is None:
        return ""
    aim, met = "", True
    if row.most is not None:
        aim, met = f"at most {row.most:g}", row.figure <= row.most
    elif row.least is not None:
        aim, met = f"at least {row.least:g}", row.figure >= row.least
    return f"{row.figure:8.2f} {row.unit:<13} {aim:<12} {'' if met else 'MISSED'}"


def main(program, tool):
    print(f"littershed bench: {os.cpu_count()} cores, load {os.getloadavg()[0]:.1f} before it began")
    with tempfile.TemporaryDirectory() as folder:
        tools = Tools(program, tool, Path(folder))
        for name, subject in SUBJECTS:
            print(f"\n{name}")
            for row in subject.measure(tools):
                print(f"  {row.what:<26} {verdict(row)}".rstrip() + f"\n      {row.measured}", flush=True)


if __name__ == "__main__":
    try:
        main(*sys.argv[1:])
    except Wrong as wrong:
        sys.exit(f"bench: wrong result: {wrong}")
