# SPDX-License-Identifier: MIT
"""Finds files that need each other in a circle, over any number of steps.

    circles.py SOURCES [OBJECTS]

x.c and x.h below the folder SOURCES count as one file. One file needs another
whose header it includes, or, where the folder of the objects is given, whose
functions and variables its object uses. Files that all need each other are a
knot; for each one a shortest circle in it is printed, and why each step is
there. Exit 1 if there is a knot.
"""
import os
import re
import subprocess
import sys


def files_below(folder, endings):
    """Paths below a folder without it, by their names without the ending."""
    found = {}
    for path, _, names in os.walk(folder):
        for name in sorted(names):
            stem, ending = os.path.splitext(os.path.join(os.path.relpath(path, folder), name))
            if ending in endings:
                found.setdefault(os.path.normpath(stem), []).append(os.path.join(path, name))
    return found


def include_arrows(sources):
    """{file: {file it includes: why}}"""
    files = files_below(sources, (".c", ".h"))
    arrows = {name: {} for name in files}
    for name, paths in files.items():
        for path in paths:
            with open(path, encoding="utf-8") as file:
                for header in re.findall(r'^\s*#\s*include\s*"(.*)\.h"', file.read(), re.M):
                    if header in files and header != name:
                        arrows[name].setdefault(header, f"includes it in {os.path.basename(path)}")
    return arrows


def add_call_arrows(arrows, objects):
    """What the symbols of the objects say beyond the includes."""
    owners, uses = {}, []
    # Objects of sources that are gone are none of ours.
    names = {path: name for name, (path, *_) in files_below(objects, (".o",)).items() if name in arrows}
    listed = subprocess.run(["nm", "-A", "-P", *names], capture_output=True, text=True, check=True).stdout
    for line in listed.splitlines():
        path, rest = line.split(": ", 1)
        symbol, kind = rest.split()[:2]
        if kind == "U":
            uses.append((names[path], symbol))
        elif kind in "TDBRVWC":
            owners[symbol] = names[path]
    for name, symbol in uses:
        owner = owners.get(symbol, name)
        if owner != name:
            arrows[name].setdefault(owner, f"uses {symbol}")


def knots(arrows):
    """The strongly connected components of more than one file (Tarjan 1972), without recursion."""
    index, low, on_stack, stack, found = {}, {}, set(), [], []
    for root in sorted(arrows):
        if root in index:
            continue
        work = [(root, iter(sorted(arrows[root])))]
        index[root] = low[root] = len(index)
        stack.append(root)
        on_stack.add(root)
        while work:
            node, rest = work[-1]
            for following in rest:
                if following not in index:
                    index[following] = low[following] = len(index)
                    stack.append(following)
                    on_stack.add(following)
                    work.append((following, iter(sorted(arrows[following]))))
                    break
                if following in on_stack:
                    low[node] = min(low[node], index[following])
            else:
                work.pop()
                if work:
                    low[work[-1][0]] = min(low[work[-1][0]], low[node])
                if low[node] == index[node]:
                    component = set()
                    while node not in component:
                        component.add(stack.pop())
                    on_stack -= component
                    if len(component) > 1:
                        found.append(component)
    return found


def shortest_circle(arrows, knot):
    """A circle of as few files as there are, as a list that begins and ends with the same file."""
    best = None
    for start in sorted(knot):
        came, front = {start: None}, [start]
        while front:
            ahead = []
            for node in front:
                for following in sorted(set(arrows[node]) & knot):
                    if following == start:
                        circle = [start]
                        while node is not None:
                            circle.append(node)
                            node = came[node]
                        circle.reverse()
                        if best is None or len(circle) < len(best):
                            best = circle
                        ahead = []
                        break
                    if following not in came:
                        came[following] = node
                        ahead.append(following)
                else:
                    continue
                break
            front = ahead
    return best


def main(words):
    arrows = include_arrows(words[0])
    if len(words) > 1:
        add_call_arrows(arrows, words[1])
    found = knots(arrows)
    for knot in found:
        print(f"{len(knot)} files need each other: {' '.join(sorted(knot))}")
        circle = shortest_circle(arrows, knot)
        for here, there in zip(circle, circle[1:]):
            print(f"    {here} needs {there}: {arrows[here][there]}")
    return 1 if found else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
