# SPDX-License-Identifier: MIT
"""Worlds at random: tanks, parts, a setup, places with tariffs of every kind, sales, a plan.

The currencies are none of the demonstration's, so that profiles installed on
the machine have no price in them and nothing else is on offer.
"""

import random

CURRENCIES = {"CHF": 1.0, "GBP": 0.8, "KRW": 1400.0, "KWD": 0.3}
DECIMALS = {"CHF": 2, "GBP": 2, "KRW": 0, "KWD": 3}


class World:
    """The text of the profile files of one seed, and what is needed to ask for it."""

    def __init__(self, seed):
        self.r = random.Random(seed)
        self.late = random.Random(seed + 1_000_003)  # for what came in later: the rest of a seed's world stays as it was
        self.seed = seed
        r = self.r
        self.currencies = r.sample(sorted(CURRENCIES), 2)
        self.today = f"2026-{r.randint(1, 12):02d}-{r.randint(1, 28):02d}"
        self.files = {}
        self.tanks = self._tanks()
        self.opaque = set()  # lids that let no light through
        self.parts = self._parts()
        self._setup()
        self.sales = []
        for name, code in zip(("east", "west"), self.currencies):
            self._region(name, code)
        self.last = random.Random(seed + 2_000_003)  # likewise for what came in later still
        self._plan()
        self._extras()
        self._second_shop()

    # -- small things

    def money(self, base, code, spread=0.3):
        """An amount of about `base` in the first currency's worth, as a text."""
        value = base * CURRENCIES[code] * self.r.uniform(1 - spread, 1 + spread)
        decimals = DECIMALS[code]
        if self.r.random() < 0.3:  # shops like round prices
            decimals = max(0, decimals - 1)
        return f"{max(value, 10 ** -decimals):.{decimals}f}"

    def prices(self, base, anywhere=False):
        """A price in both currencies, seldom in one alone unless `anywhere`, at times a range."""
        out = []
        for code in self.currencies:
            if not anywhere and self.r.random() < 0.04:
                continue
            if self.r.random() < 0.12:
                low, high = sorted((float(self.money(base, code)), float(self.money(base, code))))
                d = DECIMALS[code]
                out.append(f"{low:.{d}f} to {high + 10 ** -d:.{d}f} {code}")
            else:
                out.append(f"{self.money(base, code)} {code}")
        return ", ".join(out)

    def length(self, metres):
        if self.r.random() < 0.5:
            return f"{round(metres / 0.0254 * 8) / 8} in"
        return f"{round(metres * 1000)} mm"

    def put(self, path, text):
        self.files[path] = self.files.get(path, "") + text + "\n"

    def section(self, path, head, keys):
        self.put(path, f"[{head}]\n" + "".join(f"{k} = {v}\n" for k, v in keys.items() if v not in (None, "")))

    # -- what is there

    def _tanks(self):
        r, out = self.r, []
        for i in range(r.randint(3, 5)):
            length, width, height = r.uniform(0.4, 1.3), r.uniform(0.22, 0.55), r.uniform(0.26, 0.6)
            glass = r.choice((4, 5, 6, 8))
            keys = dict(nominal=f"{length * width * height * 1000 * r.uniform(0.85, 1.05):.1f} L",
                        length=self.length(length), width=self.length(width), height=self.length(height),
                        glass=f"{glass} mm", price=self.prices(300 * length * width * height * 4 + 20))
            if r.random() < 0.5:
                keys["bottom-glass"] = f"{glass + r.choice((0, 1, 2))} mm"
            if r.random() < 0.4:
                keys["freeboard"] = f"{r.randint(10, 50)} mm"
            if r.random() < 0.4:
                keys["frame"] = f"{r.uniform(0.2, 3):.2f} kg"
            if r.random() < 0.2:
                keys["special-order"] = "yes"
            if r.random() < 0.4:
                keys["life"] = f"{r.randint(4, 25)} years"
            if r.random() < 0.4:
                keys["resale"] = f"{r.randint(0, 90)} %"
            if r.random() < 0.2:
                keys["upkeep"] = self.prices(3, True)
            name = f"t{i}"
            self.section("tanks/tanks.ini", f"tank {name}", keys)
            out.append((name, length, width, height))
        return out

    def _common(self, keys, base):
        r = self.r
        keys["price"] = self.prices(base)
        if r.random() < 0.5:
            keys["life"] = r.choice((f"{r.randint(1, 15)} years", f"{r.randint(6, 100)} months",
                                     f"{r.randint(2, 4)} to {r.randint(5, 9)} years"))
        if r.random() < 0.5:
            keys["resale"] = f"{r.randint(0, 70)} %"
        if r.random() < 0.3:
            keys["upkeep"] = self.prices(base / 6, True)
        return keys

    def _parts(self):
        r, out = self.r, []

        def part(slot, base, **keys):
            name = f"{slot}-{sum(1 for k, _ in out if k == slot)}"
            keys = {k.replace("_", "-"): v for k, v in keys.items()}
            self.section(f"parts/{slot}.ini", f"{slot} {name}", self._common(keys, base))
            out.append((slot, name))
        for _, length, width, height in self.tanks:
            for _ in range(r.randint(1, 2)):
                part("stand", 60 + 100 * length, length=self.length(length + r.uniform(-0.005, 0.12)),
                     width=self.length(width + r.uniform(-0.005, 0.12)),
                     load=f"{length * width * height * 1000 * r.uniform(0.9, 2.5):.0f} kg",
                     **({"top": "solid"} if r.random() < 0.4 else {}))
            pieces = r.choice((1, 1, 2, 3))
            clear = r.choice((0, 75, 85, 92))
            part("lid", 15 + 30 * length * width, length=self.length(length / pieces), width=self.length(width),
                 covered=f"{r.randint(60, 99)} %", transmittance=f"{clear} %")
            if clear == 0:
                self.opaque.add(out[-1][1])
            at = length / r.choice((1, 1, 2))
            keys = dict(shortest=self.length(at * r.uniform(0.7, 0.98)), longest=self.length(at * r.uniform(1.02, 1.3)))
            watts = r.randint(8, 60)
            keys["power"] = f"{watts} W"
            keys.update(r.choice(({"ppf": f"{watts * 1.9:.1f} umol/s"}, {"efficacy": f"{r.uniform(1, 2.6):.2f} umol/J"},
                                  {"lumens": f"{watts * 110} lm"})))
            if r.random() < 0.5:
                keys["reach"] = f"{r.randint(30, 60)} cm"
            part("light", 20 + watts, **keys)
        for kind in ("sponge", "hang-on", "canister"):
            for size in (1, 2, 3):
                keys = dict(kind=kind, flow=f"{r.randint(120, 300) * size} L/h", reach=f"{r.randint(40, 110)} cm")
                if kind == "sponge":
                    keys["air"] = f"{r.randint(30, 60) * size} L/h"
                else:
                    keys["power"] = f"{r.randint(3, 7) * size} W"
                if r.random() < 0.5:
                    keys["heat"] = f"{r.randint(30, 95)} %"
                part("filter", {"sponge": 6, "hang-on": 25, "canister": 70}[kind] * size, **keys)
        for flow in (100, 250, 600):
            part("air-pump", 8 + flow / 20, flow=f"{flow} L/h", power=f"{2 + flow / 80:.1f} W",
                 **({"depth": f"{r.randint(35, 90)} cm"} if r.random() < 0.7 else {}))
        for watts in (25, 50, 100, 150, 300):
            part("heater", 12 + watts / 12, power=f"{watts} W")
        for litres in (5, 10, 20):
            part("substrate", litres * 1.3, volume=f"{litres} L", density=f"{r.randint(900, 1700)} kg/m3",
                 voids=f"{r.randint(25, 50)} %")
        return out

    def _setup(self):
        r = self.r
        kind = r.choice(("sponge", "sponge", "hang-on", "canister", "none"))
        keys = dict(
            stand=r.choice(("yes", "yes", "no")), lid=r.choice(("covered", "covered", "open")),
            heater=r.choice(("yes", "yes", "yes", "no")), filter=kind, turnover=f"{r.uniform(2, 6):.1f} /h",
            ppfd=r.choice(("none", "low", "medium", f"{r.randint(10, 70)} umol/m2/s")),
            temperature=f"{r.randint(20, 28)} C", substrate_depth=r.choice(("none", f"{r.randint(1, 7)} cm")),
            water_change=f"{r.randint(0, 60)} %", change_interval=r.choice(("1 week", "10 days", "2 weeks")))
        keys = {k.replace("_", "-"): v for k, v in keys.items()}
        if r.random() < 0.5:
            keys["light-hours"] = f"{r.randint(4, 14)} h"
        if r.random() < 0.4:
            keys["light-start"] = r.choice((f"{r.randint(0, 23)}:{r.randint(0, 59):02d}", "centered"))
        if r.random() < 0.4:
            keys["attenuation"] = f"{r.uniform(0.2, 1):.2f} /m"
        if r.random() < 0.4:
            keys["activity"] = f"{r.uniform(0.5, 1.3):.2f}"
        if r.random() < 0.3:
            keys["sheltered-sides"] = f"{r.randint(0, 60)} %"
        if r.random() < 0.3:
            keys["heaters"] = str(r.randint(1, 2))
        if r.random() < 0.4:
            keys["heater-margin"] = f"{r.randint(0, 60)} %"
        if r.random() < 0.3:
            keys["shared-air"] = "yes"
        if r.random() < 0.3:
            keys["sheltered-sides"] = f"{r.randint(5, 60)} %"
        self.section("setups/setups.ini", "setup some", keys)

    # -- places

    def _tariff(self, name, code, unit):
        """One of every kind: flat, blocks, all at one rate, hours, seasons, minimum with or without units."""
        r = self.r
        one = {"kWh": 0.16, "m3": 2.5, "kgal": 9.0, "ccf": 6.5}[unit] * CURRENCIES[code]
        month = {"kWh": 350, "m3": 12, "kgal": 4, "ccf": 5}[unit]
        keys = {} if unit == "kWh" else {"unit": unit}

        def price():
            return f"{one * r.uniform(0.5, 1.8):.{r.choice((3, 4, 5))}f}"

        def blocks():
            limits = sorted(r.sample(range(1, 20), r.randint(1, 3)))
            return ", ".join(f"{price()} up to {month * x / 8:.1f}" for x in limits) + f", {price()} above"

        def hours():
            starts = sorted(r.sample(range(24), r.randint(2, 5)))
            return ", ".join(f"{price()} from {h}" for h in starts)
        kind = r.choice(("rate", "blocks", "whole", "blocks", "hours", "days") if unit == "kWh" else
                        ("rate", "blocks", "whole", "blocks"))
        seasons = r.choice((0, 0, 2, 3))
        ends = [""]
        if seasons:
            ends = [f"-{n + 1}" for n in range(seasons)]
            cuts = sorted(r.sample(range(12), seasons))
            for n in range(seasons):
                begin, end = cuts[n], (cuts[(n + 1) % seasons] - 1) % 12
                months = []
                while True:
                    months.append(str(begin + 1))
                    if begin == end:
                        break
                    begin = (begin + 1) % 12
                keys[f"season-{n + 1}"] = " ".join(months)
        for end in ends:
            if kind in ("blocks", "whole"):
                keys["blocks" + end] = blocks()
                if kind == "whole":
                    keys["whole-bill" + end] = "yes"
            elif kind == "hours":
                keys["hours" + end] = hours()
            elif kind == "days":
                keys["workday" + end] = hours()
                keys["weekend" + end] = r.choice((price(), hours()))
            if r.random() < 0.3:
                keys["minimum" + end] = self.money(one * month / CURRENCIES[code], code)
                if kind not in ("hours", "days") and r.random() < 0.5:
                    keys["covers" + end] = f"{month * r.uniform(0.2, 1.2):.0f}"
        if kind == "rate" or r.random() < 0.2:
            keys["rate"] = price()
        if r.random() < 0.5:
            keys["tax"] = f"{r.randint(1, 25)} %"
        if r.random() < 0.3:
            keys["workdays"] = f"{r.uniform(3, 6):.1f}"
        self.section("regions/regions.ini", f"tariff {name}", keys)

    def _region(self, name, code):
        r = self.r
        keys = {"currency": code}
        if r.random() < 0.9:
            keys["sales-tax"] = f"{r.choice((5, 7, 8.1, 10, 20, 21))} %"
        keys["tax"] = r.choice(("added", "included"))
        shop = {"region": name}
        if r.random() < 0.8:
            shop["delivery"] = self.money(30, code)
        if r.random() < 0.6:
            shop["delivery-free-from"] = self.money(320, code)
        if r.random() < 0.6:
            shop["order-fee"] = self.money(20, code)
        self.section("shops/shops.ini", f"shop {name}", shop)
        if r.random() < 0.75:
            keys["electricity-tariff"] = f"{name}-power"
            self._tariff(f"{name}-power", code, "kWh")
        else:
            keys["electricity"] = f"{0.2 * CURRENCIES[code] * r.uniform(0.5, 2):.4f} / kWh"
        if r.random() < 0.6:
            keys["water-tariff"] = f"{name}-water"
            self._tariff(f"{name}-water", code, r.choice(("m3", "kgal", "ccf")))
        else:
            keys["water"] = f"{3 * CURRENCIES[code] * r.uniform(0.5, 2):.4f} / m3"
        if r.random() < 0.8:
            keys["household-energy"] = f"{r.randint(50, 700)} kWh"
        if r.random() < 0.8:
            keys["household-water"] = f"{r.randint(2, 25)} m3"
        for one in ("electricity", "water"):
            if r.random() < 0.6:
                keys[f"{one}-escalation"] = r.choice((f"{r.uniform(-2, 5):.1f} %", "0 % to 3 % likely 1 %", "-1 to 2 %"))
        if r.random() < 0.7:
            keys["conditioner"] = f"{3 * CURRENCIES[code] * r.uniform(0.2, 2):.4f} / m3"
        keys["cold-water"] = f"{r.randint(4, 24)} C"
        if r.random() < 0.4:
            keys["fresh-water"] = r.choice(("cold", "mixed"))
        if r.random() < 0.3:
            keys["fresh-water"] = "cold"
        if r.random() < 0.4:
            keys["warm-water-price"] = f"{0.1 * CURRENCIES[code] * r.uniform(0.5, 2):.4f} / kWh"
        if r.random() < 0.7:
            mean, swing = r.uniform(15, 23), r.uniform(0, 5)
            # warmest in July or, in the south, in January
            turn = r.choice((6, 0))
            keys["room"] = " ".join(f"{mean + swing * (1 - abs((m - turn) % 12 - 6) / 3) * -1:.1f}"
                                    for m in range(12)) + " C"
        else:
            keys["room"] = f"{r.randint(15, 23)} C"
        if r.random() < 0.5:
            keys["room-swing"] = f"{r.uniform(0, 3):.1f} K"
        if r.random() < 0.6:
            keys["humidity"] = f"{r.randint(30, 75)} %"
        if self.late.random() < 0.6:
            keys.update(self._room_heat(code))
        if name == "west":
            keys["exchange"] = f"{CURRENCIES[self.currencies[0]] / CURRENCIES[code] * r.uniform(0.9, 1.1):.6g} " \
                               f"{self.currencies[0]}"
            keys["exchange-date"] = "2026-01-15"
        self.section("regions/regions.ini", f"region {name}", keys)
        for kind in ("tank", "light", "filter"):
            local = {n: self.money(50, code) for k, n in self.parts + [("tank", t[0]) for t in self.tanks]
                     if k == kind and r.random() < 0.15}
            if local:
                self.section("regions/regions.ini", f"prices {name} {kind}", local)
        self._sales(name, code)

    def _room_heat(self, code):
        """When the room is heated and cooled, and what that costs."""
        late = self.late
        keys = {"heated-months": late.choice(("oct to apr", "11 12 1 2", "apr to sep"))}
        if late.random() < 0.8:
            keys["room-heat-price"] = f"{0.08 * CURRENCIES[code] * late.uniform(0.5, 2):.4f} / kWh"
        if late.random() < 0.5:
            keys["cooled-months"] = "dec to feb" if keys["heated-months"] == "apr to sep" else "may to aug"
            keys["room-cool-price"] = f"{0.05 * CURRENCIES[code] * late.uniform(0.5, 2):.4f} / kWh"
        return keys

    def _sales(self, region, code):
        r = self.r
        for i in range(r.randint(0, 4)):
            name = f"{region}-s{i}"
            keys = {"shop": region}
            kind = r.choice(("percent-off", "percent-off", "per-volume", "price", "bundle"))
            if kind == "percent-off":
                keys[kind] = f"{r.choice((10, 15, 25, 30, 33.3, 50))} %"
            elif kind == "per-volume":
                keys[kind] = f"{0.8 * CURRENCIES[code] * r.uniform(0.3, 1.3):.{DECIMALS[code]}f} / {r.choice(('gal', 'L'))}"
            else:
                keys[kind] = self.money(90 if kind == "price" else 140, code)
            if kind == "bundle":
                chosen = r.sample([p for p in self.parts if p[0] in ("lid", "light", "heater", "filter")
                                   and p[1] not in self.opaque], 2)
                if chosen[0][0] == chosen[1][0]:
                    chosen = chosen[:1]
                keys["includes"] = ", ".join(f"{k} {n}" for k, n in chosen)
            if r.random() < 0.4:
                keys["tanks"] = " ".join(t[0] for t in r.sample(self.tanks, r.randint(1, 3)))
            elif r.random() < 0.5:
                keys["volume-from"] = f"{r.randint(20, 90)} L"
            if r.random() < 0.3:
                keys["limit"] = str(r.randint(1, 3))
            if r.random() < 0.85:
                y, m, d = 2025 + r.randint(0, 2), r.randint(1, 12), r.randint(1, 31)
                d = min(d, 28) if r.random() < 0.7 else min(d, (31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31)[m - 1])
                keys["from"] = f"{y}-{m:02d}-{d:02d}"
                length = r.randint(0, 24)
                end_m, end_d = (m, d + length) if d + length <= 28 else (m % 12 + 1, max(1, (d + length) % 28))
                end_y = y + (1 if end_m < m else 0)
                keys["to"] = f"{end_y}-{end_m:02d}-{end_d:02d}"
                if r.random() < 0.6:
                    keys["every"] = r.choice(("9 weeks", "3 months", "1 year", "6 months", "100 days"))
                    if r.random() < 0.3:
                        keys["until"] = f"{y + 1}-{m:02d}-{min(d, 28):02d}"
            self.section("regions/regions.ini", f"sale {name}", keys)
            self.sales.append((region, name))

    def _plan(self):
        r = self.r
        code = self.currencies[0]
        mine = [s for reg, s in self.sales if reg == "east"]
        plan = {"setup": "some", "region": "east", "sale": r.choice(["list", "best", "best", "order"] + mine),
                "years": f"{r.randint(1, 25)} years", "units": r.choice(("us", "metric"))}
        if r.random() < 0.7:
            plan["discount"] = r.choice((f"{r.uniform(0, 8):.1f} %", "2 to 4 %", "0 %"))
        if r.random() < 0.5:
            plan["waiting-cost"] = self.money(3, code)
        if r.random() < 0.4:
            plan["hour-worth"] = self.money(4, code)
        if self.late.random() < 0.5:
            plan["count-room-heat"] = "yes"
        self.section("plans/plan.ini", "plan some", plan)
        self.chosen = [t[0] for t in r.sample(self.tanks, r.randint(2, min(4, len(self.tanks))))]
        for i, name in enumerate(self.chosen, 1):
            keys = {"tank": name}
            if r.random() < 0.4:
                keys["quantity"] = str(r.randint(2, 5))
            if r.random() < 0.2:
                keys["price"] = self.money(50, code)
            if r.random() < 0.2:
                keys["life"] = f"{r.randint(2, 8)} years"
            if r.random() < 0.2:
                keys["resale"] = f"{r.randint(0, 90)} %"
            if r.random() < 0.15:
                keys["sale"] = r.choice(["list", "best", "order"] + mine)
            for kind in ("stand", "lid", "light", "filter", "heater", "substrate"):
                if r.random() < 0.12:
                    keys[f"{kind}-price"] = self.money(20, code)
                    if r.random() < 0.6:
                        keys[f"{kind}-life"] = f"{r.randint(4, 60)} months"
                    if r.random() < 0.4:
                        keys[f"{kind}-resale"] = f"{r.randint(0, 60)} %"
                if r.random() < 0.05:
                    keys[f"{kind}-next-price"] = self.money(25, code)
                if r.random() < 0.03 and kind in ("light", "filter", "heater"):
                    keys[f"{kind}-count"] = str(r.randint(1, 3))
                if r.random() < 0.06:
                    keys[kind] = r.choice(["none"] + [n for k, n in self.parts if k == kind])
            if self.late.random() < 0.25:  # nothing but the tag in the shop is known of one of its parts
                kind = self.late.choice(("stand", "lid", "substrate"))
                keys[kind] = "unnamed"
                keys.setdefault(f"{kind}-price", f"{20 * CURRENCIES[code] * self.late.uniform(0.5, 2):.{DECIMALS[code]}f}")
                keys.pop(f"{kind}-count", None)
            if self.last.random() < 0.25:  # the same of one that uses power
                kind = self.last.choice(("light", "filter", "heater", "air-pump"))
                keys[kind] = "unnamed"
                keys.setdefault(f"{kind}-price", f"{25 * CURRENCIES[code] * self.last.uniform(0.5, 2):.{DECIMALS[code]}f}")
                keys.pop(f"{kind}-count", None)
                if self.last.random() < 0.5:
                    keys[f"{kind}-power"] = f"{self.last.randint(2, 90)} W"
                if self.last.random() < 0.3 and kind != "air-pump":
                    keys[f"{kind}-count"] = str(self.last.randint(1, 3))
            self.section("plans/plan.ini", f"candidate {i}", keys)

    def _extras(self):
        """Lines of the user's own; they come last so that a seed's world is the same with and without them."""
        r = self.r
        for i in range(r.choice((0, 0, 1, 2))):
            keys = {"amount": self.prices(20), "paid": r.choice(("yearly", "yearly", "once")),
                    "for": r.choice(("tank", "candidate"))}
            if r.random() < 0.5:
                keys["escalation"] = r.choice((f"{r.uniform(-3, 5):.1f} %", "0 to 3 %"))
            self.section("setups/setups.ini", f"extra e{i}", keys)

    def _second_shop(self):
        """Another one where the first place is, with a list of its own; plans that buy at several may use it."""
        last, code = self.last, self.currencies[0]

        def money(base):
            return f"{base * CURRENCIES[code] * last.uniform(0.3, 1.2):.{DECIMALS[code]}f}"
        keys = {"region": "east", "delivery": money(12)}
        if last.random() < 0.5:
            keys["delivery-free-from"] = money(120)
        if last.random() < 0.5:
            keys["order-fee"] = money(20)
        if last.random() < 0.3:
            keys["seller"] = "private"
        self.section("shops/shops.ini", "shop mart", keys)
        bases = {"tank": 90, "stand": 80, "lid": 20, "light": 45, "filter": 30, "heater": 20, "substrate": 12,
                 "air-pump": 15}
        for kind, base in bases.items():
            listed = {n: money(base) for k, n in self.parts + [("tank", t[0]) for t in self.tanks]
                      if k == kind and last.random() < 0.5}
            if listed:
                self.section("shops/shops.ini", f"prices mart {kind}", listed)

    def write(self, folder):
        for path, text in self.files.items():
            target = folder / path
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_text(text, encoding="utf-8")
