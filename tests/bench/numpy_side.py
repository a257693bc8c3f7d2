"""The same draws in numpy: numpy_side.py FOLDER leaves|graph DRAWS, where FOLDER holds the exported graph.py.

Prints the seconds and, for the whole graph, each line's points with their standard errors."""
import sys
import time

import numpy as np

# The logarithm of nothing in a weighted mean and the far ends of a t are meant, and kept within bounds.
np.seterr(divide="ignore", over="ignore")

BLOCK = 10000
RANKS = [BLOCK // 10 - 1, BLOCK // 2 - 1, BLOCK // 10 * 9 - 1]


def truncated(g, mean, sd, low, high, n):
    """Normal draws within low..high: those outside are drawn again."""
    x = g.normal(mean, sd, n)
    while True:
        outside = np.flatnonzero((x < low) | (x > high))
        if not outside.size:
            return x
        x[outside] = g.normal(mean, sd, outside.size)


def summary(columns):
    """What littershed also makes of a block: points, mean and standard deviation of each line."""
    return [(np.partition(x, RANKS)[RANKS], x.mean(), x.std(ddof=1)) for x in columns.values()]


def tell_points(blocks, columns):
    """Standard errors from the scatter over the blocks. Whole numbers seldom differ from block to block: of
    those one block in all may have come out at the next number without being seen."""
    for i, (key, column) in enumerate(columns.items()):
        points = np.array([block[i][0] for block in blocks])
        error = points.std(axis=0, ddof=1) / np.sqrt(len(blocks))
        if np.all(column == np.floor(column)):
            error = np.maximum(error, 1 / len(blocks))
        print("points", key, *(repr(float(v)) for v in (*points.mean(axis=0), *error)))


def main(folder, what, draws):
    sys.path.insert(0, folder)
    import graph
    g = np.random.default_rng(1)
    blocks, columns = [], {}
    begun = time.perf_counter()
    for _ in range(draws // BLOCK):
        if what == "leaves":
            graph.leaves(g, BLOCK)
        else:
            columns = graph.block(g, BLOCK)
            blocks.append(summary(columns))
    print("seconds", time.perf_counter() - begun)
    tell_points(blocks, columns)


if __name__ == "__main__":
    main(sys.argv[1], sys.argv[2], int(sys.argv[3]))
