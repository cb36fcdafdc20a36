"""The shape of a price chart: one season's materials and kinds of work, at one price for everyone."""

from scopegen.chart.chart import Barrow, Chart, Delivery, JobPrice, Stream, Tax
from scopegen.chart.material import Material, VolumePrice
from scopegen.chart.work import DumpFee, HaulPrice, Spoil, Truck, UnitPrice, Work

__all__ = [
    "Barrow",
    "Chart", "Delivery", "DumpFee", "HaulPrice", "JobPrice", "Material", "Spoil", "Stream", "Tax", "Truck",
    "UnitPrice", "VolumePrice", "Work",
]  # fmt: skip
