# SPDX-License-Identifier: MIT
"""The program against what others have measured, agreement stated as it is.

    measured.py PROGRAM

1. Heaters at work in four home tanks: a keeper noted on about a hundred walks
   through two weeks whether each heater was on ("Tank electrical costs, especially
   heaters", cichlid-forum.com, thread 170199, seen). Stated: nominal volume, rated
   power, share of time on, water at 77 to 78 F, rooms at 70 to 71 F. Not stated:
   outer sizes (the trade's are taken: common practice, no source), lids, filters,
   lights. A hundred looks know a share of 0.3 to within 0.05.
2. A tank of 100 l kept at 26 C in a room of 21 C with a pump of 15 W and a lamp of
   30 W for 8 hours: 8 W of heating in the mean (Bund der Energieverbraucher, tip 78,
   energieverbraucher.de, seen). How it was found is not said, and the agreement is
   poor: the program has about twice the heat.
3. Still water: a heated pool without swimmers or wind lost 0.72 of what the ASHRAE
   equation says, in 21 periods of 1 to 16 hours (Smith, Loef and Jones, Solar Energy
   53(1), 1994, 3; abstract seen). A later study of the same authors has 0.74, which
   the program takes.
4. Still water by the correlation that agreed best, 18 % in the mean, with the data
   of eleven sources (M. M. Shah, HVAC&R Research 8(1), 2002, 125, abstract seen; the
   equation from memory): driven by how much lighter the air at the water is, so less
   where the room is nearly as warm. The program has more, most in warm rooms.
"""

import json
import pathlib
import subprocess
import sys
import tempfile

import heat
import model

REGION = """
[region there]
currency = CHF
electricity = 0.2 / kWh
water = 2 / m3
cold-water = 12 C
room = {room}
room-swing = 0 K
humidity = 50 %
"""


class Lab:
    """One tank in a steady room, run through the program."""

    def __init__(self, program, folder):
        self.program, self.folder = program, pathlib.Path(folder)

    def energy(self, tank, setup, room, parts=""):
        """The energy sheet: rows by label."""
        text = REGION.format(room=room) + f"\n[tank one]\n{tank}\nprice = 1 CHF\n\n[setup one]\nstand = no\n{setup}\n" \
            + parts + "\n[plan one]\nsetup = one\nregion = there\nunits = metric\n\n[candidate 1]\ntank = one\n"
        path = self.folder / "one.ini"
        path.write_text(text, encoding="utf-8")
        done = subprocess.run([self.program, "energy", str(path), "--format", "json", "--today", "2026-01-10"],
                              capture_output=True, text=True, check=False)
        if done.returncode:
            raise RuntimeError(done.stderr)
        rows = {}
        for row in json.loads(done.stdout)["rows"]:
            if "cells" in row:
                rows.setdefault(row["label"].strip(), row["cells"][0]["value"])
        return rows


# 1. gallons, heater W, share of time on; outer sizes of the trade in inches, panes in mm.
DUTY = ((180, 250, 0.314, (72, 24, 25), 12), (90, 250, 0.356, (48, 18, 25), 10),
        (45, 200, 0.203, (36, 12, 24), 6), (33, 150, 0.364, (48, 12, 13), 6))


def heaters_at_work(lab):
    faults = 0
    print("heaters at work:  measured   covered    open   W")
    for gallons, power, share, size, pane in DUTY:
        tank = f"nominal = {gallons} gal\n" + "".join(f"{k} = {v} in\n" for k, v in zip(("length", "width", "height"), size)) \
            + f"glass = {pane} mm"
        heater = f"[heater h]\npower = {power} W\nprice = 1 CHF\n"
        lid = f"[lid l]\nlength = {size[0]} in\nwidth = {size[1]} in\ncovered = 95 %\nprice = 1 CHF\n"
        setup = "filter = none\nwater-change = 0 %\ntemperature = 77.5 F\nheater-margin = 0 %\n"
        watts = [lab.energy(tank, setup + cover, "70.5 F", heater + parts)["heater"] / 8.76
                 for cover, parts in (("lid = covered", lid), ("lid = open\nactivity = 1", ""))]
        measured = power * share
        print(f"  {gallons:4d} gal         {measured:7.1f}   {watts[0]:7.1f} {watts[1]:7.1f}")
        # Pumps and lamps, which are not stated, spare the heater up to 45 W in tanks of such sizes (common
        # practice, no source); rooms and looks are known to a tenth.
        if not watts[0] - 45 <= measured <= watts[1] * 1.1:
            faults += 1
            print(f"    measured {measured:.1f} W is not between a covered tank with 45 W of pumps and lamps and an open one")
    return faults


def hundred_litres(lab):
    tank = "nominal = 100 L\nlength = 80 cm\nwidth = 35 cm\nheight = 40 cm\nglass = 6 mm"
    setup = "lid = covered\nfilter = canister\nturnover = 3 /h\nppfd = 1 umol/m2/s\nlight-hours = 8 h\n" \
            "water-change = 0 %\ntemperature = 26 C"
    parts = "[heater h]\npower = 100 W\nprice = 1 CHF\n[lid l]\nlength = 80 cm\nwidth = 35 cm\nprice = 1 CHF\n" \
            "[filter f]\nkind = canister\nflow = 600 L/h\nreach = 1 m\npower = 15 W\nprice = 1 CHF\n" \
            "[light t]\nshortest = 60 cm\nlongest = 90 cm\npower = 30 W\nlumens = 2000 lm\nprice = 1 CHF\n"
    watts = lab.energy(tank, setup, "21 C", parts)["heater"] / 8.76
    pump_and_lamp = 15 * 0.80 + 30 * 0.30 * 8 / 24  # as heat, by the program's defaults
    ratio = (watts + pump_and_lamp) / (8 + pump_and_lamp)
    print(f"100 l in a room 5 K cooler: stated 8 W of heating, the program {watts:.1f} W; of all its heat {ratio:.2f} times")
    return 0 if 1.0 <= ratio <= 2.5 else 1  # poor: twice as much; it is held so that a change is noticed


def still_water(lab):
    tank = "nominal = 200 L\nlength = 100 cm\nwidth = 50 cm\nheight = 50 cm\nglass = 8 mm"
    setup = "lid = open\nfilter = none\nwater-change = 0 %\ntemperature = 28 C"
    lost = lab.energy(tank, setup, "24 C", "[heater h]\npower = 300 W\nprice = 1 CHF\n")["lost to the air"]  # l
    surface = (1.0 - 0.016) * (0.5 - 0.016)
    water, air = 301.15, 297.15
    equation = 0.089 * surface * (heat.pressure(water) - 0.5 * heat.pressure(air)) / (2501e3 - 2361 * 28) * 365 * 86400
    share = lost / 1000 * model.density(water) / equation
    print(f"still water: measured 0.72 of the ASHRAE equation, the program {share:.3f}")
    return 0 if abs(share - 0.72) <= 0.05 * 0.72 else 1


def air_of(kelvin, vapour):
    """Density of moist air, kg/m3, and its humidity ratio, at 101325 Pa."""
    dry = (101325 - vapour) / (287.05 * kelvin)
    return dry + vapour / (461.5 * kelvin), vapour / (461.5 * kelvin) / dry


def by_density(water, room, humidity):
    """kg/(m2 h) that still water loses by Shah's correlation."""
    at_water, wet = air_of(water, heat.pressure(water))
    in_room, damp = air_of(room, humidity * heat.pressure(room))
    lighter = max(0.0, in_room - at_water)
    return (35 if lighter > 0.02 else 40) * at_water * lighter ** (1 / 3) * (wet - damp)


def other_correlation(lab):
    tank = "nominal = 100 L\nlength = 80 cm\nwidth = 35 cm\nheight = 40 cm\nglass = 6 mm"
    setup = "lid = open\nfilter = none\nwater-change = 0 %\ntemperature = 25 C\nheater-margin = 50 %\n"
    surface, faults = (0.8 - 0.012) * (0.35 - 0.012), 0
    for room, least in ((18, 0.88), (21, 0.76), (24, 0.67)):
        rows = lab.energy(tank, setup, f"{room} C", "[heater h]\npower = 200 W\nprice = 1 CHF\n")
        ours = rows["lost to the air"] * model.density(298.15) / 1000 / surface / 8760
        ratio = by_density(298.15, room + 273.15, 0.5) / ours
        share = 8760 * surface * ours * (2501 - 2361e-3 * 25) / 3600 / rows["heater"]
        print(f"25 C in a room of {room} C: by the air's density {ratio:.2f} of what the program has evaporate, "
              f"which is {share:.2f} of all its heat")
        # All the heat is within the doubt of the losses, 80 %, but a little less in a room nearly as warm.
        faults += not (least <= ratio <= 1 and 1 - (1 - ratio) * share >= (0.8 if room < 24 else 0.75))
    return faults


def main(program):
    with tempfile.TemporaryDirectory() as folder:
        lab = Lab(program, folder)
        return 1 if heaters_at_work(lab) + hundred_litres(lab) + still_water(lab) + other_correlation(lab) else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
