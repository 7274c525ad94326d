# SPDX-License-Identifier: MIT
"""The room of a wall and its tanks, month by month, as tankcost-model(7), ROOM AND TANKS, has it.

    room.py PROGRAM PROFILES [--walls N]

Walls of the demonstration in random rooms whose loss is known: the program says
which tanks stand there and with which parts; the room's temperature in its
coolest and warmest month, what the tanks give to it and what heaters use are
found here by steps of ten minutes and by halving.
"""

import argparse
import math
import random
import sys
import types

import compare
import economy
import heat
import model
import profiles as read

STEP = 600.0  # s


def as_it_is(room, vapour, swing):
    """A place whose every month is one month of a room."""
    return types.SimpleNamespace(room=[room] * 12, swing=swing, humidity=[min(1.0, vapour / heat.pressure(room))] * 12)


class Room:
    """A room with its loss, W/K, and tanks: (heat.Tank, how many), and W that parts give beside the water."""

    def __init__(self, place, loss, tanks, beside):
        self.place, self.loss, self.tanks, self.beside = place, loss, tanks, beside

    def gets(self, m, temperature):
        """W that the room gets from its tanks in a month were it so warm, and kWh a day of their heaters."""
        vapour = self.place.humidity[m] * heat.pressure(self.place.room[m])
        watts, kwh = self.beside, 0.0
        for tank, count in self.tanks:
            place = as_it_is(temperature, vapour, self.place.swing)
            *_, water = tank.month(place, m, 20, tank.set_point, STEP)
            used, _, _, dry, _ = tank.month(place, m, 1, water, STEP)
            watts += count * dry * 3.6e6 / 86400
            kwh += count * sum(used)
        return watts, kwh

    def month(self, m):
        """Its temperature, and kWh a day of the heaters."""
        base = self.place.room[m]
        low, high = base - 5, base + 40
        for _ in range(14):
            middle = (low + high) / 2
            watts, kwh = self.gets(m, middle)
            low, high = (middle, high) if base + watts / self.loss > middle else (low, middle)
        return (low + high) / 2, kwh

    def year(self):
        """Its temperature by month, and kWh of the heaters."""
        months = [self.month(m) for m in range(12)]
        return [t for t, _ in months], sum(k * d for (_, k), d in zip(months, model.DAYS))


def tanks_of(check, options):
    """Which tanks stand on the wall, with the parts that the shopping list has for them; and what all share."""
    groups, shared = {}, []
    for row in check.ask("list", *options).data["rows"]:
        if row["kind"] == "group":
            into = shared if row["label"].startswith("For all") else groups.setdefault(row["label"], [])
        elif row["kind"] == "line" and row["cells"][0].get("value") is not None:
            kind, name = row["label"].replace(",", " ").replace("air pump", "air-pump").split()[:2]
            into.append((kind, name, row["cells"][0]["value"]))
    return groups.values(), shared


def kelvin(cell):
    return (cell["value"] + 459.67) * 5 / 9 if "F" in cell["unit"] else cell["value"] + 273.15


def one(program, folder, seed):
    """One wall: what differs, and how many figures were compared."""
    r = random.Random(seed)
    mean, season = r.uniform(15, 22), r.uniform(0, 4)
    by_month = " ".join(f"{mean - season * math.cos(math.pi * m / 6):.2f}" for m in range(12))
    changes = {"wall/length": f"{r.randint(8, 16)} ft", "wall/room-loss": f"{r.uniform(15, 150):.1f} W/K",
               "region/room": f"{by_month} C", "region/room-swing": f"{r.uniform(0, 2):.2f} K",
               "region/humidity": f"{r.randint(30, 60)} %", "setup/temperature": f"{r.uniform(23, 27):.2f} C",
               "setup/heat-loss": "100 %", "setup/lid": r.choice(("covered", "open")), "wall/budget": "none",
               "wall/circuit-current": "none", "setup/warm-limit": "35 C"}
    options = [word for key, value in changes.items() for word in ("--set", f"{key}={value}")]
    check = compare.Checker(program, seed, folder, "2026-01-10", "new-wall")
    typed = {"setup": dict(check.setup.keys), "region": {}}
    for key, value in changes.items():
        typed.setdefault(key.split("/")[0], {})[key.split("/")[1]] = value
    setup = read.Section("setup", check.setup.name, typed["setup"])
    place = economy.Place(check.stock, check.plan.text("region"), typed["region"])
    groups, shared = tanks_of(check, options)
    beside = sum(check.stock[kind, name].number("power", "power") * count for kind, name, count in shared
                 if kind == "air-pump")
    tanks = []
    for parts in groups:
        count = sum(n for kind, _, n in parts if kind == "tank")
        shape = model.Shape(check.stock["tank", parts[0][1]], setup, 1600.0, 0.4)
        lid = next((check.stock["lid", n].number("covered", "share", 0.9) for k, n, _ in parts if k == "lid"), 0.0)
        power = sum(check.stock["heater", n].number("power", "power") * c for k, n, c in parts if k == "heater") / count
        tanks.append((heat.Tank(shape, setup, lid, 0.0, 0.0, power, filter_kind=setup.text("filter")), count))
    warmth, kwh = Room(place, read.quantity(changes["wall/room-loss"], "heat loss").value(), tanks, beside).year()
    wall = check.ask("wall", *options)
    for label, ours in (("the room in its coolest month", min(warmth)), ("and in its warmest", max(warmth))):
        check.near(f"room: {label}", kelvin({**wall.line("The room and its heat", label)[0], **{
            "unit": next(row for row in wall.data["rows"] if row["label"].strip() == label)["unit"]}}), ours, 0.05 / 290)
    # Told is all electricity, that which leaves with the vapor too; what the room is warmed by shows in its temperature.
    check.near("room: heat, mean of the year", wall.line("What the room gets", "heat, mean of the year")[0]["value"],
               beside + kwh / 8.76, 5e-3)
    check.near("room: electricity for heating", wall.line("The room and its heat", "electricity for heating, a year")[0]["value"],
               kwh, 5e-3 + 0.5 / max(1.0, kwh))
    return check.faults, check.checked


def main():
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("program")
    parser.add_argument("profiles")
    parser.add_argument("--walls", type=int, default=4, help="how many")
    args = parser.parse_args()
    faults, checked = [], 0
    for seed in range(1, args.walls + 1):
        found, n = one(args.program, args.profiles, seed)
        faults += found
        checked += n
    print("\n".join(faults), end="\n" if faults else "")
    print(f"rooms: {args.walls} walls, {checked} figures compared, {len(faults)} differ")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
