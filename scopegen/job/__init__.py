"""The shape of a job description."""

from scopegen.job.bed import Bed, EveryBed, FoundPart, NamedShape
from scopegen.job.decisions import BED_DECISIONS, DECISIONS, SITE_DECISIONS, WAYS, MaterialPart, Part
from scopegen.job.job import Customer, Job, Payment, Site

__all__ = [
    "BED_DECISIONS", "DECISIONS", "SITE_DECISIONS", "WAYS",
    "Bed",
    "Customer", "EveryBed", "FoundPart", "Job", "MaterialPart", "NamedShape", "Part", "Payment", "Site",
]  # fmt: skip
