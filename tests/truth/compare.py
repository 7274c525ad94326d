# SPDX-License-Identifier: MIT
"""Compares the program with the second implementation beside this file.

    compare.py PROGRAM [--worlds N] [--first SEED] [--all-heat]

For each seed a world is written (worlds.py), the program is asked for its
sheets as JSON, and every amount of bill, years, sale, list and places must be
the one that economy.py finds, to the minor unit. Taken from the program are
the heater's energy and the evaporated water by month, which heat.py checks
apart, and which of the parts that fit was chosen. A disagreement prints the
seed, the line, and what each says; the exit status is then 1.
"""

import argparse
import concurrent.futures
import json
import math
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile
import traceback

import economy
import heat
import model
import profiles as read
import several
import worlds
from model import minor

# The labels by which lines are found: what the program calls them stands here alone.
LABEL = {
    "group:purchase": "To buy", "group:year": "Each year", "group:paid": "Over the period, as paid",
    "group:value": "Over the period, in today's money", "group:each": "In today's money, for each",
    "start": "bought at the start", "energy": "energy", "water": "water", "supplies": "supplies", "time": "your time",
    "extras": "extras",
    "replacements": "replacements", "resale": "less resale", "as paid": "as paid", "present": "present value",
}


class Sheet:
    """A sheet of the program: lines by group and label."""

    def __init__(self, text):
        self.data = json.loads(text)
        self.groups, self.order = {}, []
        group = ""
        for row in self.data["rows"]:
            if row["kind"] == "group":
                group = row["label"]
                self.groups.setdefault(group, {})
            elif "cells" in row:
                self.groups.setdefault(group, {}).setdefault(row["label"].strip(), []).append(row["cells"])
            else:
                self.groups.setdefault(group, {}).setdefault(row["label"].strip(), []).append(row.get("text", ""))

    def line(self, group, label):
        found = self.groups.get(group, {}).get(label)
        return found[0] if found else None

    def values(self, group, label, scale=None):
        """The values of a line, amounts in minor units; None where there is no such line."""
        cells = self.line(group, label)
        if cells is None:
            return None
        return [round(c["value"] * 10 ** read.DECIMALS[c["currency"]]) if c["kind"] == "money" else c.get("value")
                for c in cells]


class Checker:
    """One world: asks the program, computes, and notes what differs."""

    def __init__(self, program, world, folder, today, plan="some"):
        self.program, self.world, self.folder, self.today, self.plan_name = program, world, folder, today, plan
        self.faults, self.checked, self.tanks = [], 0, 0
        self.stock = read.read(folder)
        self.plan = self.stock["plan", plan]
        self.candidates = []
        while (plan, "candidate", str(len(self.candidates) + 1)) in self.stock:
            self.candidates.append(self.stock[plan, "candidate", str(len(self.candidates) + 1)])
        assumed = self.stock.get((plan, "assume", "setup"))
        keys = dict(self.stock["setup", self.plan.text("setup")].keys)
        keys.update(assumed.keys if assumed else {})
        self.setup = read.Section("setup", self.plan.text("setup"), keys)
        assumed = self.stock.get((plan, "assume", "region"))
        self.home = economy.Place(self.stock, self.plan.text("region"), assumed.keys if assumed else None)

    def ask(self, sheet, *options):
        command = [self.program, sheet, self.plan_name, "--profiles", str(self.folder), "--format", "json",
                   "--today", self.today, *options]
        done = subprocess.run(command, capture_output=True, text=True, check=False)
        if not done.stdout:
            raise RuntimeError(f"{' '.join(command)}: {done.stderr}")
        return Sheet(done.stdout)

    def same(self, where, program, ours, within=0):
        """Notes where the program's minor units and ours differ."""
        self.checked += 1
        if program is None or ours is None or isinstance(program, str) or abs(program - ours) > within:
            if program != ours:
                self.faults.append(f"seed {self.world}: {where}: the program says {program}, the model {ours}")

    def near(self, where, program, ours, slack=1e-9):
        """The same for what is no money."""
        self.checked += 1
        if program is None or abs(program - ours) > slack * max(1.0, abs(ours)):
            self.faults.append(f"seed {self.world}: {where}: the program says {program}, the model {ours}")

    def column_of(self, sheet):
        """The candidate of each column, by its head: those without a price here are left out."""
        heads = [c["head"] for c in sheet.data["columns"]]
        return self.match(heads)

    def match(self, heads):
        out, at = [], 0
        for head in heads:
            while self.head(self.candidates[at]) != head:
                at += 1
            out.append(at)
            at += 1
        return out

    @staticmethod
    def head(c):
        n = int(c.text("quantity", "1"))
        return c.text("tank") if n == 1 else f"{n} × {c.text('tank')}"

    def part(self, kind, name):
        """A profile; of an unnamed part that uses no power nothing is known but the price that is typed."""
        return self.stock.get((kind, name)) or read.Section(kind, name, {})

    def with_unnamed(self, place, c, chosen, shape, quantity, energy, column):
        """The parts chosen, where unnamed ones that use power have a name of their own and the watts they need."""
        chosen = [list(one) for one in chosen]
        lid = next((self.part("lid", n) for k, n, *_ in chosen if k == "lid"), None)
        for kind in ("light", "filter", "air-pump", "heater"):  # each by what those before it give
            for one in chosen:
                if one[0] != kind or one[1] != "unnamed":
                    continue
                one[1] = f"unnamed-{c.name}"
                pieces = one[2] / (1 if kind == "air-pump" and self.setup.yes("shared-air", False) else quantity)
                self.stock[kind, one[1]] = read.Section(kind, one[1], {
                    key: text.format(value / pieces) for key, (text, value) in
                    self.needed(place, kind, chosen, shape, quantity, lid).items()})
                if kind == "filter":
                    self.stock[kind, one[1]].keys["kind"] = self.setup.text("filter")
                if f"{kind}-power" in c.keys:
                    self.stock[kind, one[1]].keys["power"] = c.keys[f"{kind}-power"]
                elif kind != "heater":
                    # Assumed before the last look at the whole bill: that may change what a light or filter needs a little,
                    # and take a filter that asks a pump for less air.
                    label = {"light": "light", "filter": "filters", "air-pump": "air pump"}[kind]
                    hours = 365 * (sum(heat.lit_hours(self.setup)) if kind == "light" else 24)
                    told = energy.line("Electricity a year", label)
                    watts = told[column]["value"] * 1000 / hours / one[2] if told and hours else 0.0
                    needed = self.stock[kind, one[1]].number("power", "power")
                    self.near(f"{self.head(c)}: W of an unnamed {kind}",
                              min(watts, needed) if kind == "air-pump" else watts, needed, 0.02)
                    self.stock[kind, one[1]].keys["power"] = f"{watts:.12f} W"
        return [tuple(one) for one in chosen]

    def needed(self, place, kind, chosen, shape, quantity, lid):
        """What the parts of a slot have together where only their price is known, by key: how it is written, and its value."""
        if kind == "light":
            ppf = model.ppf_needed(shape, self.setup, lid and lid.number("transmittance", "share", 0.9) or 1.0)
            return {"power": ("{:.12f} W", ppf / 1.8)}
        if kind == "filter":
            flow = shape.water * self.setup.number("turnover", "turnover", 4 / 3600) * 3600  # m3/h
            if self.setup.text("filter") == "sponge":
                return {"power": ("{:.12f} W", 0.0), "air": ("{:.15f} m3/h", flow)}
            return {"power": ("{:.12f} W", 12 * flow)}
        if kind == "air-pump":
            together = quantity if self.setup.yes("shared-air", False) else 1
            air = sum(self.stock[k, n].number("air", "flow", 0.0) * count for k, n, count, *_ in chosen
                      if k == "filter") / quantity * together
            return {"power": ("{:.12f} W", 30 * air * 3600)}
        tank = self.tank_of(place, [one for one in chosen if one[0] != "heater"], shape, quantity)
        return {"power": ("{:.12f} W", tank.heater_needed(place) * (1 + self.setup.number("heater-margin", "share", 0.25)))}

    # -- one way to buy

    def bought(self, sheet):
        """From `list`: for each candidate listed (kind, name, count, each, words)."""
        out, heads = [], []
        for row in sheet.data["rows"]:
            if row["kind"] == "group":
                heads.append(row["label"])
                out.append([])
            elif row["kind"] == "line" and row["cells"][0].get("value") is not None:
                kind, name = row["label"].replace(",", " ").replace("air pump", "air-pump").split()[:2]
                each = row["cells"][1]
                out[-1].append((kind, name, row["cells"][0]["value"],
                                round(each["value"] * 10 ** read.DECIMALS[each["currency"]])
                                if each["kind"] == "money" else None, row["label"]))
        return list(zip(self.match(heads), out))

    def hour_worth(self, place):
        """What an hour is worth in the place's money, major units, to its minor unit."""
        worth = minor(self.home.of(self.plan.text("hour-worth", "0")))
        if place.region.name == self.home.region.name:
            return worth / self.home.scale
        told = place.region.text("exchange")  # of one unit there, in money of home
        return minor(worth / float(told.split()[0]) * place.scale / self.home.scale) / place.scale if told else 0

    def bills(self, place, *options, without=None):
        """The bill of every candidate that is on offer, for the program's choice of parts and its heat.

        Keys of the candidates that match `without` do not hold."""
        listed, energy = self.ask("list", *options), self.ask("energy", *options)
        incomplete = ["incomplete" in row["cells"][2].get("marks", []) for row in listed.data["rows"]
                      if row["kind"] == "subtotal"]
        return [self.bill(place, self.candidates[i], column, chosen, energy, without, options, incomplete[column])
                for column, (i, chosen) in enumerate(self.bought(listed))]

    @staticmethod
    def left_out(c, key, without):
        """Whether a key of a candidate does not hold: elsewhere no typed price does, nor the life of what was
        bought used at it, nor a sale by its name."""
        if without != "elsewhere":
            return without is not None and re.fullmatch(without, key)
        if key.endswith("life"):
            return key.removesuffix("life") + "price" in c.keys
        return key.endswith("price")

    def bill(self, place, c, column, chosen, energy, without, options, incomplete):
        stock = self.stock
        quantity = int(c.text("quantity", "1"))
        use = read.Section("candidate", c.name, {k: v for k, v in c.keys.items() if not self.left_out(c, k, without)})
        bed = next((self.part("substrate", n) for k, n, *_ in chosen if k == "substrate"), None)
        shape = model.Shape(stock["tank", c.text("tank")], self.setup,
                            bed.number("density", "density", 1600.0) if bed else 1600.0,
                            bed.number("voids", "share", 0.4) if bed else 0.4, c.text("substrate") == "none")
        chosen = self.with_unnamed(place, c, chosen, shape, quantity, energy, column)
        items, orders = [], 0
        for kind, name, count, each, words, *at in chosen:
            section = self.part(kind, name)
            seller = place.sellers.get(at[0]) if at else None  # what has no price is bought nowhere
            price = self.price(seller or place, use, section, words)
            self.same(f"{words}: price of one", each, price)
            if kind == "tank":
                orders += self.ordered(section, use, words, options, count, quantity)
            items.append(economy.item(place, use, section, count, price))
            items[-1].seller = seller
            if at and not seller and kind != "tank":
                items[-1].upkeep = 0  # a part without a price is not bought
        by_month = [energy.line("Heater by month", m) for m in MONTHS]
        heater = [cells[column]["value"] if cells else 0.0 for cells in by_month]
        loads, boiler, water = self.year(place, chosen, shape, quantity, heater)
        if not place.mixed:
            # The heater's share for fresh water is the rest of all electricity; heat.py checks the sum of both.
            for m, name in enumerate(MONTHS):
                rest = energy.line("All electricity by month", name)[column]["value"] - sum(sum(one[m]) for one in loads)
                loads[4][m] = [max(0.0, rest) / 24] * 24
        # By the hour the program's heater is not told: our own day by the minute gives its shape.
        hourly = place.power.hourly and sum(heater) + (0 if place.mixed else sum(map(sum, loads[4]))) > 0
        if hourly:
            self.spread_heater(place, chosen, shape, quantity, heater, loads)
        evaporated = self.evaporated(energy, column, water)
        filters = [(stock["filter", n].text("kind"), count) for k, n, count, *_ in chosen if k == "filter"]
        hours = model.upkeep_hours(shape, self.setup, filters, quantity)
        bill = economy.Bill(place, self.plan, items, orders, loads, boiler, [water, evaporated],
                            hours * self.hour_worth(place) * place.scale, self.room_heat(place, energy, column))
        for k, name in enumerate(economy.CONSUMERS):
            told = energy.values("What it costs a year", name)
            told = told[column] if told else 0
            within = 14 + round((abs(bill.power[0]) + (0 if place.mixed else abs(bill.power[4]))) * 0.03) if hourly else 0
            if hourly and any(s["minimum"] for s in place.power.seasons):
                within = math.inf  # a little more in an hour may be what lifts a month above its minimum
            self.same(f"energy: {self.head(c)}: what {name} costs", told, bill.power[k], within or bill.ties)
            if hourly or abs(told - bill.power[k]) <= bill.ties:
                bill.power[k] = told
        bill.sum_up()
        bill.shape, bill.quantity, bill.chosen, bill.head = shape, quantity, chosen, self.head(c)
        bill.candidate = c
        bill.tank, bill.incomplete = stock["tank", c.text("tank")], incomplete
        return bill

    def room_heat(self, place, energy, column):
        """Minor units that the room's cooling costs a year less what its heating saves, where the plan counts them."""
        if not self.plan.yes("count-room-heat", False):
            return 0.0
        given = [(energy.line("Heat that the room gets", m) or [{"value": 0}] * (column + 1))[column]["value"] for m in MONTHS]
        return place.scale * sum(given[m] * (place.room_cool * (m in place.cooled) - place.room_heat * (m in place.heated))
                                 for m in range(12))

    def price(self, place, c, section, words):
        end = "price" if section.kind == "tank" else f"{section.kind}-price"
        if "with the tank" in words:
            return 0  # part of a bundle
        if end in c.keys:
            return place.of(c.text(end))
        if section.kind == "tank":
            sale = re.search(r"sale (\S+)", words)
            if sale:
                sale = self.stock["sale", sale.group(1)]
                beyond = int(c.text("quantity", "1")) > int(sale.text("limit", "1000"))
                return None if beyond and place.price(section) is None else place.sale_price(sale, section)
        return place.price(section)

    def ordered(self, tank, c, words, options, count, quantity):
        """Of the tanks of one line of the list, how many are on special order.

        By the way to buy, or as the tank is not on the shelf. A sale takes the fee
        away, up to its limit; a typed price takes the tanks out of the sale."""
        way = dict(zip(options, options[1:])).get("--sale") or c.text("sale", "plan")
        if way == "plan":
            way = self.plan.text("sale", "best")
        if "--region" in options and way not in ("list", "order"):
            way = "best"  # a sale by its name does not run elsewhere
        if " sale " in words:
            return 0
        sale = self.stock.get(("sale", way))
        if "price" in c.keys:
            return count if way == "order" or tank.yes("special-order", False) else 0
        if sale and model.covers(sale, tank):
            return max(0, quantity - int(sale.text("limit", "1000"))) if tank.yes("special-order", False) else 0
        return count if way == "order" or tank.yes("special-order", False) else 0

    def gains(self, chosen, kind, quantity):
        """W of one tank's lamps or filters that end in its water."""
        default = {"light": 0.30, "filter": 0.80}[kind]
        return sum(self.stock[k, n].number("power", "power", 0.0) * self.stock[k, n].number("heat", "share", default)
                   * count for k, n, count, *_ in chosen if k == kind) / quantity

    def beside(self, b):
        """W, mean of the day, that lamps, filters and air pumps of a bill give to the room and not to the water."""
        watts, default = 0.0, {"light": 0.30, "filter": 0.80, "air-pump": 0.0}
        for kind, name, count, *_ in b.chosen:
            if kind in default:
                part = self.stock[kind, name]
                lit = sum(heat.lit_hours(self.setup)) / 24 if kind == "light" else 1.0
                share = 0.0 if kind == "air-pump" else part.number("heat", "share", default[kind])
                watts += part.number("power", "power", 0.0) * count * (1 - share) * lit
        return watts

    def tank_of(self, place, chosen, shape, quantity):
        lid = next((self.part("lid", n).number("covered", "share", 0.9) for k, n, *_ in chosen if k == "lid"), 0.0)
        heater = sum(self.stock[k, n].number("power", "power") * count for k, n, count, *_ in chosen
                     if k == "heater") / quantity
        kind = next((self.stock["filter", n].text("kind") for k, n, *_ in chosen if k == "filter"), "none")
        return heat.Tank(shape, self.setup, lid, self.gains(chosen, "light", quantity),
                         self.gains(chosen, "filter", quantity), heater, filter_kind=kind,
                         tap=None if place.mixed else place.cold)

    def counts(self, b, kind):
        """How many of each part of a kind that is on offer the tank takes, None where it does not fit."""
        out, setup, shape = {}, self.setup, b.shape
        have = {k: [self.part(k, n) for k2, n, *_ in b.chosen if k2 == k] for k in read.PARTS}
        lid = have["lid"][0] if have["lid"] else None
        for (what, name), part in [(k, v) for k, v in self.stock.items() if len(k) == 2 and k[0] == kind]:
            if b.place.price(part) is None and name not in [n for k, n, *_ in b.chosen if k == kind]:
                continue  # one without a price can be bought where the plan types it
            if kind == "stand":
                count = 1 if model.fits_stand(part, shape) else None
            elif kind == "lid":
                count = model.count_lid(part, shape, model.light_wanted(setup) > 0)
            elif kind == "light":
                count = model.count_light(part, shape, setup, lid and lid.number("transmittance", "share", 0.9) or 1.0)
            elif kind == "filter":
                if part.text("kind") != setup.text("filter"):
                    continue
                count = model.count_filter(part, shape, setup)
            elif kind == "air-pump":
                together = b.quantity if setup.yes("shared-air", False) else 1
                air = sum(self.stock[k, n].number("air", "flow", 0.0) * count for k, n, count, *_ in b.chosen
                          if k == "filter") / b.quantity * together
                count = model.count_air_pump(part, air, shape.depth)
            elif kind == "heater":
                needed = self.tank_of(b.place, b.chosen, shape, b.quantity).heater_needed(b.place)
                needed *= 1 + setup.number("heater-margin", "share", 0.25)
                least = int(setup.text("heaters", "1"))
                count = model.count_heater(part, needed, least, shape)
                if count != model.count_heater(part, needed * 1.005 + 0.4, least, shape) or \
                        count != model.count_heater(part, needed * 0.999, least, shape):
                    return {}  # on the edge: see check_heat
            else:
                count = model.count_bags(part, shape, b.quantity)
            out[name] = count
        return out

    def spread_heater(self, place, chosen, shape, quantity, heater, loads):
        """Puts what the heater uses into its hours: first what it would use without cold fresh water, then the rest."""
        tank = self.tank_of(place, chosen, shape, quantity)
        used, *_ = tank.year(place)
        anyway = used
        if tank.fresh > 0:
            tank.fresh = 0.0
            anyway, *_ = tank.year(place)
            for m in range(12):
                loads[4][m] = self.shaped([u - a for u, a in zip(used[m], anyway[m])], sum(loads[4][m]))
        for m in range(12):
            loads[0][m] = self.shaped(anyway[m], heater[m])

    @staticmethod
    def shaped(hours, total):
        ours = sum(hours)
        return [h * total / ours for h in hours] if ours > 0 else [total / 24] * 24

    def year(self, place, chosen, shape, quantity, heater):
        """kWh by consumer, month and hour; kWh of a boiler; m3 changed by month."""
        setup, stock = self.setup, self.stock
        power = {kind: sum(stock[k, n].number("power", "power", 0.0) * count for k, n, count, *_ in chosen
                           if k == kind) / 1000 for kind in ("light", "filter", "air-pump")}
        on = heat.lit_hours(setup)
        change = setup.number("water-change", "share", 0.25) * shape.water * quantity
        interval = setup.number("change-interval", "interval", 7.0)
        heated = any(k == "heater" for k, *_ in chosen)
        loads = [[], [], [], [], []]
        water, boiler = [], 0.0
        for m, days in enumerate(model.DAYS):
            changed = change * days / interval
            water.append(changed)
            warm = heated * model.CP_WATER * changed * max(
                0.0, setup.number("temperature", "temperature", 298.15) - place.cold) / 3.6e6
            if not place.mixed:
                warm = 0.0
            elif place.warm_water is not None:
                boiler += warm
                warm = 0.0
            loads[0].append([heater[m] / 24] * 24)
            loads[1].append([power["light"] * days * on[h] for h in range(24)])
            loads[2].append([power["filter"] * days] * 24)
            loads[3].append([power["air-pump"] * days] * 24)
            loads[4].append([warm / 24] * 24)
        return loads, boiler, water

    @staticmethod
    def evaporated(energy, column, changed):
        """m3 lost to the air by month: all the water of the month less what is changed."""
        unit = {"gal": 3.785411784e-3, "L": 1e-3}
        rows, group = {}, ""
        for row in energy.data["rows"]:
            group = row["label"] if row["kind"] == "group" else group
            if group == "All water by month" and row["kind"] == "line":
                rows[row["label"].strip()] = row["cells"][column]["value"] * unit[row["unit"]]
        return [max(0.0, rows[m] - c) for m, c in zip(MONTHS, changed)]


MONTHS = "Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec".split()


def check_bill(check, bills, sheet):
    """Every line of `bill`."""
    for column, b in enumerate(bills):
        def line(group, label, ours):
            found = sheet.values(LABEL[group], label)
            told = found[column] if found else 0
            if isinstance(told, str) and ours == 0:
                return  # words, as "none fits", where there is no figure
            if found is not None or ours:
                check.same(f"bill: {b.head}: {LABEL[group]}: {label}", told, ours)
        line("group:purchase", "special order fee", b.fee)
        line("group:purchase", "delivery", b.delivery)
        line("group:purchase", "sales tax", b.tax)
        line("group:purchase", "to buy", b.to_buy)
        for k, name in enumerate(economy.CONSUMERS):
            line("group:year", f"electricity: {name}", b.power[k])
        line("group:year", "water: changes", b.water[0])
        line("group:year", "water: lost to the air", b.water[1])
        line("group:year", "water conditioner", b.conditioner)
        line("group:year", "heating and cooling of the room", b.room_heat)
        line("group:year", "supplies", b.supplies)
        line("group:year", "your time", b.time)
        line("group:year", "each year", b.each_year)
        for extra in b.extras:
            line("group:purchase" if extra.once else "group:year", extra.title, extra.due)
        for group, lines, total in (("group:paid", b.paid, "as paid"), ("group:value", b.value, "present")):
            for key in lines:
                line(group, LABEL[key], lines[key])
            line(group, LABEL[total], sum(lines.values()))
        line("group:each", "year", minor(economy.annual(b)))
        line("group:each", "day", minor(economy.annual(b) / 365))
        for name, unit, of in (("gallon of actual water", 3.785411784e-3, b.shape.water),
                               ("liter of actual water", 1e-3, b.shape.water),
                               ("liter of actual water", 1e-3, b.shape.water),
                               ("square foot of bottom", 0.3048 ** 2, b.shape.bottom),
                               ("square meter of bottom", 1.0, b.shape.bottom),
                               ("square meter of bottom", 1.0, b.shape.bottom)):
            if sheet.values(LABEL["group:each"], name):
                line("group:each", name, minor(b.present / (of * b.quantity) * unit))


def check_list(check, bills, sheet):
    """The sums of `list`; the price of one was checked as it was read."""
    at, added = -1, 0
    for row in sheet.data["rows"]:
        if row["kind"] == "group":
            at, added = at + 1, 0
            continue
        if row["kind"] not in ("line", "subtotal") or row["cells"][2]["kind"] != "money":
            continue
        b = bills[at]
        cells = row["cells"]
        amount = round(cells[2]["value"] * 10 ** read.DECIMALS[cells[2]["currency"]])
        label = row["label"].strip()
        if row["kind"] == "subtotal":
            check.same(f"list: {b.head}: sum of the lines", amount, added)
            check.same(f"list: {b.head}: {label}", amount, b.to_buy)
        elif cells[1]["kind"] == "money":
            each = round(cells[1]["value"] * 10 ** read.DECIMALS[cells[1]["currency"]])
            check.same(f"list: {b.head}: {label}: count times each", amount, cells[0]["value"] * each)
        added += amount


def check_years(check, bills, sheet):
    """The sums of each year, and the measures against the cheapest to buy."""
    for group, present in (("Paid by the end of year", False), ("The same in today's money", True)):
        for column, b in enumerate(bills):
            ends = b.year_ends(present)
            total, left = (b.present, b.value["resale"]) if present else (b.as_paid, b.paid["resale"])
            for k, ours in enumerate(ends, 1):
                found = sheet.values(group, str(k))
                # each line of the bill was rounded once, and these are spread over the years
                check.same(f"years: {b.head}: {group} {k}", found[column], ours, 4)
            last = sheet.values(group, str(b.years))[column]
            check.same(f"years: {b.head}: {group}: the last year less resale", last + left, total)
            check.same(f"years: {b.head}: {group}: the end", sheet.values(group, "present value" if present else
                                                                          "as paid")[column], total)
    against = next((g for g in sheet.groups if g.startswith("Against ")), None)
    if not against:
        return
    base = next(i for i, v in enumerate(sheet.values(against, "net saving")) if v == "–")
    whole = [b for b in bills if not b.incomplete]
    check.same("years: the cheapest to buy", bills[base].to_buy, min(b.to_buy for b in whole))
    for column, b in enumerate(bills):
        value = sheet.values(against, "net saving")[column]
        if column == base or b.incomplete or isinstance(value, str) or value is None:
            continue
        a = bills[base]
        extra = sum(b.value[k] - a.value[k] for k in ("start", "replacements", "resale"))
        saved = sum(a.value[k] - b.value[k] for k in ("energy", "water", "supplies", "time", "extras"))
        check.same(f"years: {b.head}: extra investment", sheet.values(against, "extra investment, present value")[column],
                   extra, 3)
        check.same(f"years: {b.head}: saved", sheet.values(against, "saved in running it, present value")[column], saved, 3)
        check.same(f"years: {b.head}: net saving", value, a.present - b.present)
        ratio = sheet.values(against, "saving-to-investment ratio")[column]
        if not isinstance(ratio, str):
            slack = 3 / abs(extra) + 3 / abs(saved)  # both from rounded lines
            check.near(f"years: {b.head}: saving-to-investment ratio", ratio, saved / extra, slack)
            check.near(f"years: {b.head}: adjusted internal rate of return",
                       sheet.values(against, "adjusted internal rate of return")[column],
                       100 * ((1 + b.d) * (saved / extra) ** (1 / b.years) - 1), slack * 200)


def walk_away(b, best):
    """The highest price of one at which b is no dearer than best: an amount, None for none, or inf."""
    def present(price):
        return b.at_price(price).present
    top = 10 ** 9
    if present(top) <= best:
        return math.inf
    step = b.free_delivery_price()  # from here on delivery is free, and all is cheaper by it
    spans = [(0, top)] if step is None else [(step, top), (0, step - 1)]
    for low, high in spans:
        if low > high or present(low) > best:
            continue
        while low < high:
            middle = (low + high + 1) // 2
            low, high = (middle, high) if present(middle) <= best else (low, middle - 1)
        return low
    return None


def check_sale(check, planned, sheet):
    """Each way to buy, with its walk-away price, and whether waiting pays."""
    typed = [a for i, c in enumerate(check.candidates, 1) for key in ("price", "sale") if key in c.keys
             for a in ("--set", f"candidate {i}/{key}=")]
    own_sale = [a for i, c in enumerate(check.candidates, 1) if "sale" in c.keys
                for a in ("--set", f"candidate {i}/sale=")]
    def can_be_had(b):
        """Whether it can be bought so today: not in a sale that does not run."""
        sale = re.search(r" sale (\S+)", b.chosen[0][4])
        return sale is None or model.runs(check.stock["sale", sale.group(1)], model.date(check.today))
    fit = check.ask("bill")
    suits = [cell["value"] == "yes" for cell in fit.line(next(g for g in fit.groups if g.startswith("For ")),
                                                         "suits the animals")]
    bills, today = {}, [b if can_be_had(b) else None for b in planned]
    for group in sheet.groups:
        sale = re.match(r"Sale (\S+):", group)
        if group == "As planned":
            these = planned
        elif group == "At list price":
            these = check.bills(check.home, "--sale", "list", *typed, without="price|sale")
        elif group == "On special order":
            these = check.bills(check.home, "--sale", "order", *typed, without="price|sale")
        elif sale:
            these = bills[sale.group(1)] = check.bills(check.home, "--sale", sale.group(1), *own_sale, without="sale")
        else:
            continue
        if len(these) != len(sheet.data["columns"]):
            continue  # one that is on offer in this way alone
        if group == "At list price" or sale and model.runs(check.stock["sale", sale.group(1)], model.date(check.today)):
            today = [b if a is None else min(a, b, key=lambda x: x.present) for a, b in zip(today, these)]
        for column, b in enumerate(these):
            where = f"sale: {group.split(':')[0]}: {b.head}"
            if sheet.values(group, "to buy, with parts")[column] is None or any(i.each is None for i in b.items):
                continue
            check.same(f"{where}: to buy", sheet.values(group, "to buy, with parts")[column], b.to_buy)
            check.same(f"{where}: to own", sheet.values(group, "to own, present value")[column], b.present)
            told = sheet.values(group, "walk away above")
            others = [o.present for k, o in enumerate(these) if o is not b and not o.incomplete and suits[k]]
            if told is None or told[column] is None or b.incomplete or not others:
                continue
            ours = walk_away(b, min(others))
            if isinstance(told[column], str):
                check.same(f"{where}: walk away ({told[column]})", None if "even free" in told[column] else math.inf, ours)
            else:
                check.same(f"{where}: walk away above", told[column], ours)
    check_wait(check, today, bills, sheet)


def check_wait(check, planned, bills, sheet):
    today = model.date(check.today)
    per_month = check.home.of(check.plan.text("waiting-cost", "0"))
    group = next(g for g in sheet.groups if g.startswith("Wait for"))
    if any(len(these) != len(planned) for these in bills.values()):
        return
    for column, b in enumerate(planned):
        if b is None or b.incomplete or "price" in b.candidate.keys:
            continue  # what somebody has agreed on is in no sale
        best = None
        for name, these in bills.items():
            sale = check.stock["sale", name]
            if not model.covers(sale, b.tank) or model.runs(sale, today) or these[column].incomplete:
                continue
            horizon = today.replace(year=today.year + 2)
            begins = [a for a, _ in model.occurrences(sale, horizon) if today < a <= horizon]
            if not begins:
                continue
            saves = b.present - these[column].present
            net = saves - minor(per_month * (begins[0] - today).days / 30.436875)
            days = (begins[0] - today).days
            worth = net > 0 and net >= 0.1 * b.items[0].each and days / 30.436875 <= 4
            # the first that is worth it, else the one that saves most
            rank = (1, -days, net) if worth else (0, 0, net)
            if best is None or rank > best[4]:
                best = net, saves, begins[0].isoformat(), name, rank
        told = sheet.values(group, "sale")[column]
        where = f"sale: wait: {b.head}"
        if best is None or told not in bills:
            check.same(f"{where}: a sale", None if told == "none in sight" else told, best)
            continue
        check.same(f"{where}: saves, less what waiting costs",
                   sheet.values(group, "saves, less what waiting costs")[column], best[0])
        if told == best[3]:
            check.same(f"{where}: saves", sheet.values(group, "saves")[column], best[1])
            check.same(f"{where}: from", sheet.values(group, "from")[column], best[2])


def check_places(check, planned, sheet):
    """The other region by its own rules, and all in one money."""
    heads = [c["head"] for c in sheet.data["columns"]]
    one_money = next((g for g in sheet.groups if "all in" in g), None)
    for name in ("east", "west"):
        if name not in heads:
            continue
        place = check.home if name == check.home.name else economy.Place(check.stock, name)
        bills = planned if place is check.home else check.bills(
            place, "--region", name, "--set", f"plan/hour-worth={check.hour_worth(place):.4f}", without="elsewhere")
        column = heads.index(name)
        for b in bills:
            own = next(g for g in sheet.groups if g.startswith("To own over"))
            for group, ours in (("To buy", b.to_buy), ("Each year", b.each_year), (own, b.present)):
                if b.incomplete:
                    continue
                check.same(f"places: {name}: {b.head}: {group}", sheet.values(group, b.head)[column], ours)
            rate = 1.0
            if one_money and place is not check.home:
                quote, code = place.region.text("exchange").split()
                rate = float(quote)
                check.near(f"places: {name}: rate", sheet.line(one_money, next(
                    k for k in sheet.groups[one_money] if "unit of its money" in k or "exchange rate" in k))[column]["value"],
                    rate)
            if one_money and not b.incomplete:
                shift = 10 ** (check.home.decimals - place.decimals)
                check.same(f"places: {name}: {b.head}: {one_money}", sheet.values(one_money, b.head)[column],
                           minor(b.present * rate * shift))


def check_heat(check, bills, sheet, all_of_them):
    """The heater's year and the water lost, against steps of a minute."""
    unit = {"gal": 3.785411784e-3, "L": 1e-3}
    for column, b in enumerate(bills if all_of_them else bills[:1]):
        tank = check.tank_of(b.place, b.chosen, b.shape, b.quantity)
        used, lost, hottest, dry = tank.year(b.place)
        told = sheet.line("Electricity a year", "heater")
        kwh = told[column]["value"] / b.quantity if told else 0.0
        fresh = sheet.line("Electricity a year", "warming new water")
        if fresh and not b.place.mixed:
            kwh += fresh[column]["value"] / b.quantity
        ours = sum(sum(m) for m in used)
        check.checked += 3
        check.tanks += 1
        if abs(kwh - ours) > max(0.005 * ours, 0.1):
            check.faults.append(f"seed {check.world}: heat: {b.head}: the program says {kwh:.3f} kWh, a minute at a time "
                                f"it is {ours:.3f}")
        asked = sheet.values("The heater", "needed in the coldest hour, with margin")
        if asked and used:
            margin = 1 + check.setup.number("heater-margin", "share", 0.25)
            needed = tank.heater_needed(b.place) * margin
            # the program takes the parabola of its year where that is more
            check.near(f"heat: {b.head}: W in the coldest hour", min(asked[column], 1.001 * needed), needed, 1e-3)
            check.near(f"heat: {b.head}: W in the coldest hour, at most", max(asked[column], needed), needed,
                       5e-3 + 0.4 / max(1.0, needed))
        row = next(r for r in sheet.data["rows"] if r["label"].strip() == "lost to the air" and r["kind"] == "line")
        litres = row["cells"][column]["value"] * unit[row["unit"]] / b.quantity * 1000
        by_minute = sum(lost) / model.density(tank.set_point) * 1000
        if abs(litres - by_minute) > max(0.02 * by_minute, 0.5):
            check.faults.append(f"seed {check.world}: heat: {b.head}: the program says {litres:.2f} L are lost to the air, "
                                f"a minute at a time it is {by_minute:.2f}")
        beside = check.beside(b) / b.quantity * sum(model.DAYS) * 86400 / 3.6e6
        told = sheet.values("Heat that the room gets", "the year")
        if told and abs(told[column] / b.quantity - dry - beside) > max(0.005 * abs(dry + beside), 0.2):
            check.faults.append(f"seed {check.world}: heat: {b.head}: the program says the room gets "
                                f"{told[column] / b.quantity:.2f} kWh, a minute at a time it is {dry + beside:.2f}")
        row = next(r for r in sheet.data["rows"] if r["label"].strip() == "hottest water")
        value = row["cells"][column]["value"]
        kelvin = (value + 459.67) * 5 / 9 if "F" in row["unit"] else value + 273.15
        if abs(kelvin - hottest) > 0.2:
            check.faults.append(f"seed {check.world}: heat: {b.head}: the program says its hottest water has "
                                f"{kelvin - 273.15:.2f} C, a minute at a time it is {hottest - 273.15:.2f} C")


def check_fit(check, bills, fit):
    """Which parts fit, and in which count, for every slot that the plan leaves open."""
    why, who = {}, None
    for row in fit.data["rows"]:
        if row["kind"] == "group":
            who = row["label"].removeprefix("Why: ") if row["label"].startswith("Why: ") else None
        elif who and row["label"].strip() == "refused":
            why[who][slot][1] = row["text"]
        elif who and row["label"].strip() != "nearly":
            slot = row["label"].strip()
            why.setdefault(who, {})[slot] = [row["text"], ""]
    for b in bills:
        for slot, (chosen, refused) in why.get(b.head, {}).items():
            kind = slot.replace(" ", "-")
            if kind not in read.PARTS or {kind, f"{kind}-count"} & set(b.candidate.keys) or "with the tank" in chosen or "bundle" in chosen:
                continue
            counts = check.counts(b, kind)
            if not counts:
                continue
            told = set(re.findall(r"([\w.-]+) \(", refused)) & set(counts)
            ours = {n for n, count in counts.items() if count is None}
            check.checked += 1
            if told != ours:
                check.faults.append(f"seed {check.world}: fit: {b.head}: {slot}: the program refuses {sorted(told - ours)} "
                                    f"which the model lets fit, and lets {sorted(ours - told)} fit which it refuses")
            bought = {}
            for k, n, count, *_ in b.chosen:
                if k == kind:
                    bought[n] = bought.get(n, 0) + count
            for n, count in bought.items():
                # bags, and air pumps where the setup has one for all, are for the tanks together
                tanks = 1 if kind == "substrate" or kind == "air-pump" and check.setup.yes("shared-air", False) else b.quantity
                check.same(f"fit: {b.head}: count of {kind} {n}", count, (counts[n] or 0) * tanks)


def one(program, seed, all_heat=False, keep=None):
    """One world: what differs, and how many figures were compared."""
    world = worlds.World(seed)
    folder = pathlib.Path(keep or tempfile.mkdtemp(prefix="tankcost-world-"))
    try:
        world.write(folder)
        check = Checker(program, seed, folder, world.today)
        bills = check.bills(check.home)
        check_bill(check, bills, check.ask("bill"))
        check_list(check, bills, check.ask("list"))
        check_years(check, bills, check.ask("years"))
        check_sale(check, bills, check.ask("sale"))
        check_places(check, bills, check.ask("places"))
        check_fit(check, bills, check.ask("fit", "--why"))
        if all_heat or seed % 2:
            several.check_several(check, check_bill)
        if all_heat or seed % 3 == 0:
            check_heat(check, bills, check.ask("energy"), all_heat)
        return check.faults, check.checked, check.tanks
    except Exception as what:  # the other worlds go on, and the seed is told
        traceback.print_exc()
        return [f"seed {seed}: the comparison itself failed: {what!r}"], 0, 0
    finally:
        if not keep:
            shutil.rmtree(folder)


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("--worlds", type=int, default=40, help="how many")
    parser.add_argument("--first", type=int, default=1, help="the first seed")
    parser.add_argument("--all-heat", action="store_true", help="follow every tank by the minute, not one of each world")
    args = parser.parse_args()
    faults, checked, tanks = 0, 0, 0
    seeds = range(args.first, args.first + args.worlds)
    with concurrent.futures.ProcessPoolExecutor(os.cpu_count()) as pool:
        for found, n, heated in pool.map(one, [args.program] * len(seeds), seeds, [args.all_heat] * len(seeds)):
            checked += n
            tanks += heated
            faults += len(found)
            print("\n".join(found), end="\n" if found else "", flush=True)
    print(f"truth: {args.worlds} worlds, {checked} figures compared, {faults} differ")
    print(f"heat: {tanks} tanks followed by the minute")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
