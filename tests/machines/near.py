# SPDX-License-Identifier: MIT
"""near.py A B: whether two lists of sheets as CSV are the same, money to the last digit, other figures but for the
last digits of what is printed in full: sums in 80 bits are rounded elsewhere."""
import csv
import sys


def same(a, b):
    if a == b:
        return True
    try:
        x, y = float(a), float(b)
    except ValueError:
        return False
    cents = all("." in t and len(t.split(".")[1]) <= 2 for t in (a, b))  # written as money: to the last digit
    return not cents and abs(x - y) <= 1e-9 * max(abs(x), abs(y), 1)


with open(sys.argv[1], newline="") as one, open(sys.argv[2], newline="") as other:
    rows, others = list(csv.reader(one)), list(csv.reader(other))
differ = [(a, b) for a, b in zip(rows, others) if len(a) != len(b) or not all(map(same, a, b))]
for a, b in differ[:10]:
    print(a, b)
sys.exit(1 if differ or len(rows) != len(others) else 0)
