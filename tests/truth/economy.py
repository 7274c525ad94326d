# SPDX-License-Identifier: MIT
"""Purchase, year and life cycle of one candidate, as tankcost-model(7) has them."""

import copy
import math

import model
import profiles as read
from model import minor

CONSUMERS = ("heater", "light", "filters", "air pump", "warming new water")


class Place:
    """A region with the prices and rules of its one shop, which has its name, and its tariffs."""

    def __init__(self, stock, name, assumed=None):
        self.stock, self.name = stock, name
        region = stock["region", name]
        keys = dict(region.keys)
        for key, value in (assumed or {}).items():
            for what in ("electricity", "water"):  # a price takes the place of a tariff, and the other way round
                if key == what:
                    keys.pop(f"{what}-tariff", None)
                elif key == f"{what}-tariff":
                    keys.pop(what, None)
            keys[key] = value
        self.region = region = read.Section("region", name, keys)
        self.currency = region.text("currency").upper()
        self.decimals = read.DECIMALS[self.currency]
        self.scale = 10 ** self.decimals
        self.tax = region.number("sales-tax", "share", 0.0)
        self.added = region.text("tax", "added") == "added"
        self.shop = stock.get(("shop", name))
        self.delivery = self.money("delivery", 0)
        self.free_from = self.money("delivery-free-from", None)
        self.order_fee = self.money("order-fee", 0)
        self.power = model.utility(stock, region, "electricity")
        self.water = model.utility(stock, region, "water")
        self.household_energy = region.number("household-energy", "energy", 300.0)
        self.household_water = region.number("household-water", "volume", 10.0)
        self.power_rise = region.number("electricity-escalation", "share", 0.0)
        self.water_rise = region.number("water-escalation", "share", 0.0)
        text = region.text("conditioner")
        self.conditioner = read.rate(text, self.currency, "volume").value() if text else 0.0
        self.mixed = region.text("fresh-water", "mixed") == "mixed"
        text = region.text("warm-water-price", "electricity")
        self.warm_water = None if text == "electricity" or not self.mixed else read.rate(text, self.currency, "energy").value()
        rates = [read.rate(region.text(key), self.currency, "energy").value() if region.text(key) else 0.0
                 for key in ("room-heat-price", "room-cool-price")]
        self.room_heat, self.room_cool = rates
        self.heated, self.cooled = (model.months_of(region.text(f"{what}-months", "")) for what in ("heated", "cooled"))
        self.cold = region.number("cold-water", "temperature", 285.15)
        self.room = read.months(region.text("room"), "temperature")
        self.swing = region.number("room-swing", "temperature", 1.5, difference=True)
        self.humidity = read.months(region.text("humidity", "50 %"), "share")

    def money(self, key, default):
        text = self.shop.text(key) if self.shop else None
        if text is None or text == "never":
            return default
        return minor(read.amount(text, self.currency).value() * self.scale)

    def of(self, text):
        """Minor units of an amount as a plan writes it."""
        return minor(read.amount(text, self.currency).value() * self.scale)

    def price(self, item, key="price"):
        """What one costs here, or None: the shop's own price, or its profile's."""
        if key == "price" and item.kind != "tank" and item.text("upkeep") and self.exact(item, "upkeep") is None:
            return None  # what it needs each year has no price here
        local = self.stock.get(("prices", f"{self.name} {item.kind}"))
        if key == "price" and local and item.name in local.keys:
            return self.of(local.keys[item.name])
        exact = self.exact(item, key)
        return minor(exact) if exact is not None else None

    def exact(self, item, key):
        """The profile's own amount in minor units, not yet rounded, or None."""
        found = read.amounts(item.text(key)) if item.text(key) else {}
        return found[self.currency].value() * self.scale if self.currency in found else None

    def with_tax(self, amount):
        return minor(amount * (1 + self.tax) if self.added else amount)

    def sale_price(self, sale, tank):
        """The price of one tank in a sale that covers it, None where that needs a list price."""
        if "percent-off" in sale.keys:
            return None if self.price(tank) is None else minor(self.price(tank) * (1 - sale.number("percent-off", "share")))
        if "per-volume" in sale.keys:
            return minor(read.rate(sale.text("per-volume"), self.currency, "volume").value()
                         * tank.number("nominal", "volume") * self.scale)
        return self.of(sale.text("price") or sale.text("bundle"))


class Seller(Place):
    """One of several shops of a place, with its own list and terms."""

    def __init__(self, place, shop):
        self.__dict__.update(place.__dict__)
        self.name, self.shop, self.private = shop.name, shop, shop.text("seller", "shop") == "private"
        self.delivery, self.free_from = self.money("delivery", 0), self.money("delivery-free-from", None)
        self.order_fee = self.money("order-fee", 0)
        self.added = place.added and not self.private

    def lists(self, item):
        """Whether it is on the shop's own list."""
        local = self.stock.get(("prices", f"{self.name} {item.kind}"))
        return local is not None and item.name in local.keys

    def price(self, item, key="price"):
        """As at the one shop; a private seller has what is on the list alone."""
        return None if self.private and not self.lists(item) else super().price(item, key)


class Market(Place):
    """All shops of a place: what anything costs at the cheapest, a private seller's price only where no shop has one."""

    def __init__(self, place):
        self.__dict__.update(place.__dict__)
        self.sellers = {s.name: Seller(place, s) for key, s in place.stock.items()
                        if len(key) == 2 and key[0] == "shop" and s.text("region") == place.region.name}

    def price(self, item, key="price"):
        asked = [(s.private, s.price(item, key)) for s in self.sellers.values() if s.price(item, key) is not None]
        return min(asked)[1] if asked else None


class Item:
    """Something bought: how many, at which price, what a next one and a new one cost, and how it ages.

    listed says whether `new` is a list price, and not what was paid."""

    def __init__(self, kind, count, each, later, new, listed, life, first, resale, upkeep):
        self.kind, self.count, self.each, self.later, self.new, self.listed = kind, count, each, later, new, listed
        self.life, self.first, self.resale, self.upkeep = life, first, resale, upkeep
        self.seller = None  # where it is bought, if not at the place's one shop


def item(place, candidate, section, count, each):
    """An item with what the candidate says of it over what its profile says."""
    kind = section.kind
    end = "" if kind == "tank" else f"{kind}-"
    life = section.number("life", "life", read.LIVES[kind])
    first = candidate.number(f"{end}life", "life", None)
    if section.name.startswith("unnamed") and first is not None:
        life, first = first, None  # of such a part that is its whole life
    first = min(first, life) if first is not None else None
    resale = candidate.number(f"{end}resale", "share", section.number("resale", "share", read.RESALES[kind]))
    new = place.price(section)
    typed = place.of(candidate.text(f"{end}price")) if f"{end}price" in candidate.keys else None
    paid = typed if typed is not None else each or 0
    later = new if new is not None else paid
    if kind != "tank" and typed is not None and first is None:
        later = typed
    if kind != "tank" and f"{kind}-next-price" in candidate.keys:
        later = place.of(candidate.text(f"{kind}-next-price"))
    listed = new is not None
    if not listed:
        new = later if f"{kind}-next-price" in candidate.keys else paid * (1 if first is None else life / first)
    return Item(kind, count, each, later, new, listed, life, first, resale, place.exact(section, "upkeep") or 0)


class Extra:
    """A line of the user's own: what is due, in minor units, once or each year."""

    def __init__(self, place, section, tanks):
        exact = place.exact(section, "amount")
        self.title = section.text("title", section.name)
        self.known = exact is not None
        self.once = section.text("paid", "yearly") == "once"
        self.rise = section.number("escalation", "share", 0.0)
        self.due = minor((exact or 0) * (tanks if section.text("for", "candidate") == "tank" else 1))


def extras_of(stock, plan):
    """The extras that count."""
    named = plan.text("extras", "all")
    if named == "all":
        return [s for key, s in stock.items() if len(key) == 2 and key[0] == "extra"]
    return [] if named == "none" else [stock["extra", name] for name in plan.words("extras")]


class Bill:
    """What bill and years show of one candidate, in minor units."""

    def __init__(self, place, plan, items, orders, loads, boiler_kwh, water, time=0.0, room_heat=0.0):
        """items: what is bought; orders: tanks on special order; loads: kWh of each
        consumer by month and hour; water: m3 (changed, evaporated) by month;
        time: what upkeep counts a year; room_heat: what the room's heating and cooling do."""
        self.place, self.items = place, items
        self.orders = orders
        self.years = round(plan.number("years", "life", 10))
        self.extras = [Extra(place, section, sum(i.count for i in items if i.kind == "tank"))
                       for section in extras_of(place.stock, plan)]
        self.d = plan.number("discount", "share", 0.03)
        self.buy(orders)
        self.power, self.power_months, self.ties = model.added_cost(place.power, place.household_energy, loads, place.decimals)
        self.boiler = minor(boiler_kwh * place.warm_water * place.scale) if place.warm_water is not None else 0
        spread = [[[m / 24] * 24 for m in one] for one in water]
        self.water, *_ = model.added_cost(place.water, place.household_water, spread, place.decimals)
        self.conditioner = place.with_tax(sum(water[0]) * place.conditioner * place.scale)
        self.time = minor(time)
        self.room_heat = minor(room_heat)
        self.sum_up()

    def buy(self, orders):
        """What is paid at the tills: at each shop its goods, the fee of its orders, its delivery and its tax."""
        tills = {}
        for i in self.items:
            shop = i.seller or self.place
            goods, _ = tills.get(shop, (0, 0))
            tills[shop] = goods + i.count * (i.each or 0), 0
        shop = next((i.seller for i in self.items if i.kind == "tank"), None) or self.place
        tills[shop] = tills[shop][0], orders * shop.order_fee
        if isinstance(self.place, Market):
            tills.pop(self.place, None)  # what has no price is bought nowhere
        self.goods, self.fee = (sum(till[k] for till in tills.values()) for k in (0, 1))
        self.delivery = sum(shop.delivery for shop, (goods, _) in tills.items()
                            if shop.free_from is None or goods < shop.free_from)
        self.tax = sum(minor((goods + fee) * shop.tax) for shop, (goods, fee) in tills.items() if shop.added)
        self.to_buy = self.goods + self.fee + self.delivery + self.tax + sum(x.due for x in self.extras if x.once)

    def sum_up(self):
        """The sums, again where the cost of the consumers was put right."""
        items, years, d, place = self.items, self.years, self.d, self.place
        self.supplies = place.with_tax(sum(i.count * (i.upkeep if i.kind == 'tank' else minor(i.upkeep)) for i in items))
        self.energy_year = sum(self.power) + self.boiler + self.room_heat
        self.water_year = sum(self.water) + self.conditioner
        yearly = [x for x in self.extras if not x.once]
        self.each_year = self.energy_year + self.water_year + self.supplies + self.time + sum(x.due for x in yearly)

        times = [(t, i) for i in items for t in model.replacements(i.life, years, i.first)]
        self.replaced = [(t, self._replacement(i)) for t, i in times]
        left = self._left()
        e, w = place.power_rise, place.water_rise
        self.paid = dict(start=self.to_buy, energy=minor(self.energy_year * model.as_paid(e, years)),
                         water=minor(sum(self.water) * model.as_paid(w, years) + self.conditioner * years), supplies=self.supplies * years,
                         time=self.time * years,
                         extras=minor(sum(x.due * model.as_paid(x.rise, years) for x in yearly)),
                         replacements=minor(sum(c for _, c in self.replaced)), resale=-minor(left))
        self.value = dict(start=self.to_buy, energy=minor(self.energy_year * model.upv(d, e, years)),
                          water=minor(sum(self.water) * model.upv(d, w, years)
                                      + self.conditioner * model.upv(d, 0, years)),
                          supplies=minor(self.supplies * model.upv(d, 0, years)),
                          time=minor(self.time * model.upv(d, 0, years)),
                          extras=minor(sum(x.due * model.upv(d, x.rise, years) for x in yearly)),
                          replacements=minor(sum(c * model.spv(d, t) for t, c in self.replaced)),
                          resale=-minor(left * model.spv(d, years)))
        self.as_paid, self.present = sum(self.paid.values()), sum(self.value.values())

    def at_price(self, price):
        """The same purchase with all its tanks at another price."""
        items = [copy.copy(i) for i in self.items]
        for i in items:
            if i.kind == "tank":
                i.each = price
        other = copy.copy(self)
        other.items = items
        other.buy(self.orders)
        other.sum_up()
        return other

    def free_delivery_price(self):
        """The least price of one tank from which delivery is free, or None where there is no such step."""
        if self.place.free_from is None or not self.place.delivery:
            return None
        tanks = sum(i.count for i in self.items if i.kind == "tank")
        rest = sum(i.count * (i.each or 0) for i in self.items if i.kind != "tank")
        return max(0, -(-(self.place.free_from - rest) // tanks))

    def _replacement(self, i):
        return i.count * i.later * (1 + (self.place.tax if self.place.added else 0))

    def _left(self):
        total = 0.0
        for i in self.items:
            worth = i.count * i.new
            if i.kind == "tank" and not i.listed:  # a bundle's price, less what its parts cost alone
                parts = sum(p.count * p.new for p in self.items if p.kind != "tank" and p.each == 0 and p.listed)
                worth = max(0.0, i.count * i.later - parts) * (1 if i.first is None else i.life / i.first)
            total += worth * i.resale * model.remaining(i.life, self.years, i.first)
        return total

    def year_ends(self, present):
        """Sums by the end of each year, resale aside, unrounded."""
        e, w = self.place.power_rise, self.place.water_rise
        d = self.d if present else 0.0
        out, total = [], float(self.to_buy)
        for k in range(1, self.years + 1):
            steady = self.supplies + self.time + self.conditioner
            total += sum(x.due * (1 + x.rise) ** k for x in self.extras if not x.once) / (1 + d) ** k
            total += (self.energy_year * (1 + e) ** k + sum(self.water) * (1 + w) ** k + steady) / (1 + d) ** k
            total += sum(c * model.spv(d, t) for t, c in self.replaced if k - 1 < t <= k)
            out.append(total)
        return out


def annual(bill):
    """The equivalent annual cost."""
    return bill.present / model.upv(bill.d, 0, bill.years) if bill.years else math.nan
