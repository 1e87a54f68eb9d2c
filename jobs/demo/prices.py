"""What the invented workshop asks for, what its parts cost, and the tax of an invented country."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

from jobs.demo.catalogue import Parts
from jobs.models import Job, PartList, PriceLine, TaxClass, TaxRate, User, Workshop

# Name of a part: what it is sold for, what it costs, both without tax.
PRICES = {
    "sub": ("289", "198"), "slim": ("172", "118"), "woofer": ("74", "49"),
    "midrange": ("46", "29.50"), "tweeter": ("38", "24"), "six": ("412", "288"),
    "mono": ("338", "236"), "processor": ("395", "276"), "converter": ("64", "41"),
    "battery": ("189", "132"), "charger": ("265", "184"), "block": ("34", "21.40"),
    "strip holder": ("12.50", "7.20"), "short holder": ("9.80", "5.60"),
    "lead holder": ("3.40", "1.20"),
    "damping": ("14.90", "8.60"),
    "35 mm²": ("11.80", "6.90"), "16 mm²": ("6.40", "3.70"), "10 mm²": ("4.30", "2.50"),
    "4 AWG": ("8.60", "5.10"), "4 mm²": ("2.10", "1.10"), "2.5 mm²": ("1.45", "0.78"),
    "2.5 mm² pair": ("2.60", "1.42"), "1.5 mm² pair": ("1.85", "0.98"),
    "0.5 mm²": ("0.48", "0.22"), "0.5 mm² screened": ("1.95", "1.05"),
    "ring 35 mm²": ("1.90", "0.85"), "ring 16 mm²": ("1.20", "0.52"),
    "ring 10 mm²": ("0.90", "0.38"), "ring 2.5 mm²": ("0.35", "0.12"),
    "ring 0.5 mm², M8": ("0.30", "0.10"), "ring 2.5 mm², M8": ("0.40", "0.15"),
    "splice 2.5 mm²": ("0.22", "0.07"), "end 35 mm²": ("0.70", "0.26"),
    "end 16 mm²": ("0.45", "0.17"), "end 10 mm²": ("0.35", "0.12"),
    "end 2.5 mm²": ("0.28", "0.09"), "end 1.5 mm²": ("0.22", "0.07"),
    "end 0.5 mm²": ("0.18", "0.06"), "F150": ("6.80", "3.40"), "F125": ("6.80", "3.40"),
    "F100": ("6.80", "3.40"), "F80": ("4.90", "2.30"), "F60": ("4.90", "2.30"),
    "F50": ("4.90", "2.30"), "F40": ("4.90", "2.30"), "F5": ("1.10", "0.40"),
    "0.5 mm² twisted": ("0.92", "0.48"), "splice": ("0.16", "0.05"),
    "phono plug": ("3.40", "1.60"), "adapter plug": ("14.50", "8.10"),
    "interface": ("164", "112"),
    "birch": ("86", "58"), "fibreboard": ("34", "21"), "carpet": ("24", "13.50"),
    "wood glue": ("9.80", "5.90"), "cover glue": ("34", "21"), "tape": ("7.50", "3.80"),
    "wood screw": ("12.40", "7.10"), "T-nut": ("8.90", "4.60"), "insert": ("14.20", "8.30"),
}  # fmt: skip


# Who sells what a maker makes; everything else comes from one house.
SUPPLIERS = {"Ferrow": "Ferrow Cable, Quayside", "Velmorrick": "Velmorrick Timber"}


def load_prices(parts: Parts) -> None:
    """Price the catalogue but for one fuse nobody sells any more, and say how long work takes."""
    for name, (price, cost) in PRICES.items():
        part = parts[name]
        part.price, part.cost = Decimal(price), Decimal(cost)
        part.supplier = SUPPLIERS.get(part.maker, "Oxmere Audio Supply")
        part.save()
    shop = Workshop.current()
    shop.rate_wood = shop.rate_wiring = shop.rate_car = Decimal(58)
    shop.rate_covering, shop.rate_set_up, shop.rate_desk = Decimal(62), Decimal(72), Decimal(72)
    shop.hour_cost, shop.covering_price, shop.covering_cost = Decimal(34), Decimal(48), Decimal(26)
    shop.minutes_cut, shop.minutes_glue, shop.minutes_run = 6, 8, 20
    shop.minutes_channel, shop.minutes_panel = 12, 25
    shop.usual_deposit = Decimal(30)
    shop.save()
    for tax_class, percent in ((TaxClass.STANDARD, "20"), (TaxClass.EXEMPT, "0")):
        TaxRate.objects.create(
            tax_class=tax_class, percent=Decimal(percent), valid_from=date(2020, 1, 1)
        )
    # From here on one more in the hundred: an offer for the summer after already counts it.
    TaxRate.objects.create(
        tax_class=TaxClass.STANDARD, percent=Decimal(21), valid_from=date(2027, 7, 1)
    )


def load_part_list(manager: User) -> None:
    """A supplier's list that waits to be read: dearer cable, a new part, a slip of the pen."""
    PartList.objects.create(
        name="ferrow-cable-spring.csv",
        sent_by=manager,
        supplier=SUPPLIERS["Ferrow"],
        encoding="UTF-8",
        head=["kind", "maker", "name", "size", "price EUR", "outer diameter [mm]"],
        rows=[
            ["conductor", "Ferrow", "35 mm² RD", "35 mm²", "12,40", ""],
            ["conductor", "Ferrow", "50 mm² RD", "50 mm²", "17,80", "13,5"],
            ["conductor", "Ferrow", "4 mm² black", "4 mm²", "-2,20", ""],
        ],
        count=3,
    )


def load_price_lines(job: Job) -> None:
    """What the design of the estate car does not bring along."""
    PriceLine.objects.create(
        job=job, kind="desk", text="Listening together and planning", minutes=90
    )
    PriceLine.objects.create(
        job=job, kind="thing", text="Fetching and bringing the car back", each=Decimal(45),
        cost=Decimal(28),
    )  # fmt: skip
    job.discount = Decimal(3)
    job.save()
