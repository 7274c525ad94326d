# SPDX-License-Identifier: MIT
"""What must hold whatever the figures are: one plan has one cost, on whichever sheet.

    laws.py PROGRAM PROFILES [--worlds N] [--all]

For every plan of the profiles and N random ones (worlds.py): the sums of `bill`
are those of `years` at its end, of `sale` as planned, of `places` at home and of
`whatif` where the varied figure has its own value; the middle of `doubts`, which
rounds no line, differs from it by no more than the rounding of its lines.
"""

import argparse
import concurrent.futures
import os
import pathlib
import shutil
import subprocess
import sys
import tempfile

import compare
import model
import profiles as read
import worlds


class Plan:
    """One plan, and what its sheets say that differs."""

    def __init__(self, program, folder, plan, today, name, *options):
        self.command = [program, "--profiles", str(folder), "--format", "json", "--today", today, *options]
        self.plan, self.name, self.faults, self.checked = plan, name, [], 0

    def ask(self, sheet, *options):
        done = subprocess.run([*self.command, sheet, self.plan, *options], capture_output=True, text=True, check=False)
        return compare.Sheet(done.stdout) if done.stdout else None

    def same(self, what, one, other, within=0):
        self.checked += 1
        if one is None or other is None or abs(one - other) > within:
            self.faults.append(f"{self.name}: {what}: {other} where the bill has {one}")


def values(sheet, group, label):
    """Minor units by column head; None for what is no amount."""
    found = next((g for g in sheet.groups if g.startswith(group)), None)
    cells = sheet.line(found, label) if found is not None else None
    heads = [c["head"] for c in sheet.data["columns"]]
    if cells is None:
        return {}
    return {head: round(cell["value"] * 10 ** read.DECIMALS[cell["currency"]]) if cell["kind"] == "money" else None
            for head, cell in zip(heads, cells)}


def incomplete(sheet, group, label):
    cells = sheet.line(group, label)
    return {c["head"] for c, cell in zip(sheet.data["columns"], cells) if "incomplete" in cell.get("marks", [])}


def check(plan, years, region, rise, doubted=True):
    """All laws of one plan of `years`, in `region`; rise: its electricity's and water's escalation."""
    bill = plan.ask("bill")
    if bill is None:
        return
    paid, value = values(bill, compare.LABEL["group:paid"], "as paid"), \
        values(bill, compare.LABEL["group:value"], "present value")
    bought, yearly = values(bill, compare.LABEL["group:purchase"], "to buy"), \
        values(bill, compare.LABEL["group:year"], "each year")
    lacking = incomplete(bill, compare.LABEL["group:value"], "present value")

    ends = plan.ask("years")
    for head in value:
        plan.same(f"years: {head}: as paid", paid[head], values(ends, "Paid by", "as paid")[head])
        plan.same(f"years: {head}: present value", value[head], values(ends, "The same", "present value")[head])

    sale = plan.ask("sale")
    for head in value:
        plan.same(f"sale: {head}: to buy as planned", bought[head], values(sale, "As planned", "to buy, with parts")[head])
        plan.same(f"sale: {head}: to own as planned", value[head], values(sale, "As planned", "to own, present value")[head])

    varied = plan.ask("whatif", "--vary", f"plan/years={years}..{years + 1} years")
    label = "1 year" if years == 1 else f"{years} years"
    for head in value:
        plan.same(f"whatif: {head}: at {label}", value[head],
                  values(varied, "Cost to own where", label).get(head))

    places = plan.ask("places")
    if places is not None and region in [c["head"] for c in places.data["columns"]]:
        for head in set(value) - lacking:
            for group, ours in (("To buy", bought), ("Each year", yearly), ("To own over", value)):
                plan.same(f"places: {head}: {group} at home", ours[head], values(places, group, head).get(region))

    doubts = plan.ask("doubts", "--draws", "1000") if doubted else None
    if doubts is not None:
        # Of a year 26 amounts are rounded, each by at most a half and by 0.29 in the mean square: four
        # times that of their sum comes again every year. The other lines are rounded once.
        slack = 4 * 0.29 * 26 ** 0.5 * model.as_paid(rise, years) + 8
        for head, middle in values(doubts, "Present value", "at the middle figures").items():
            if middle is not None and head in value:
                plan.same(f"doubts: {head}: at the middle", value[head], middle, slack)


def of_profiles(program, folder):
    """The plans of a folder."""
    stock = read.read(folder)
    for key, section in stock.items():
        if key[0] == "plan" and len(key) == 2:
            plan = Plan(program, folder, key[1], "2026-01-10", f"plan {key[1]}")
            several = Plan(program, folder, key[1], "2026-01-10", f"plan {key[1]} at several shops",
                           "--set", "plan/shop=several")
            for one in (plan, several):
                check(one, round(section.number("years", "life", 10)), section.text("region"), 0.05)
                yield one


def of_world(program, seed, doubted):
    """A random plan."""
    world = worlds.World(seed)
    folder = pathlib.Path(tempfile.mkdtemp(prefix="tankcost-law-"))
    try:
        world.write(folder)
        stock = read.read(folder)
        plan = Plan(program, folder, "some", world.today, f"seed {seed}")
        check(plan, round(stock["plan", "some"].number("years", "life", 10)), "east", 0.05, doubted)
        return plan.faults, plan.checked
    finally:
        shutil.rmtree(folder)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("profiles")
    parser.add_argument("--worlds", type=int, default=200 // int(os.environ.get("TEST_STEP", "1")) or 1)
    parser.add_argument("--all", action="store_true", help="ask for the doubts of every world, not of each fourth")
    args = parser.parse_args()
    faults, checked = [], 0
    for plan in of_profiles(args.program, args.profiles):
        faults += plan.faults
        checked += plan.checked
    seeds = range(5001, 5001 + args.worlds)
    with concurrent.futures.ProcessPoolExecutor(os.cpu_count()) as pool:
        for found, n in pool.map(of_world, [args.program] * len(seeds), seeds, [args.all or s % 4 == 0 for s in seeds]):
            faults += found
            checked += n
    print("\n".join(faults[:40]), end="\n" if faults else "")
    print(f"laws: {checked} sums compared, {len(faults)} differ")
    return 1 if faults or not checked else 0


if __name__ == "__main__":
    sys.exit(main())
