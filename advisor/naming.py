"""Checks that options, resins and prices named by the user stand in the tables."""

from collections.abc import Iterable

from advisor.job import Job
from advisor.knowledge.rows import Resin
from advisor.knowledge.tables import Knowledge
from advisor.reading import did_you_mean
from advisor.shop import Shop

# Ids that an error message has room for; of more, it names the command that lists them.
_FEW = 8


def unknown_names(
    job: Job,
    shop: Shop,
    knowledge: Knowledge,
    job_name: str = "job.toml",
    shop_name: str = "shop.toml",
) -> list[str]:
    """Return one fault for each name the tables do not hold."""
    tools = knowledge.tool_materials
    families = {row.family for row in tools.values()}
    resins = _likeliest_first(knowledge, job)
    asked: list[tuple[str, str, str | None, str, Iterable[str]]] = [
        (job_name, "cure.resin", job.cure.resin, "resins", resins)
    ]
    if job.proposal:
        own = job.proposal
        asked += [
            (job_name, "proposal.tool", own.tool, "tools", sorted({*tools, *families})),
            (job_name, "proposal.sealing", own.sealing, "seals", knowledge.sealers),
            (job_name, "proposal.release", own.release, "releases", knowledge.releases),
            (job_name, "proposal.bagging", own.bagging, "bags", knowledge.bagging),
        ]
    asked += [
        (shop_name, f"prices.{row}", row, "prices", knowledge.prices) for row in shop.prices
    ]
    asked += [
        (shop_name, f"stock.{n}.material", item.material, "tools", tools)
        for n, item in enumerate(shop.stock)
    ]
    return [
        _fault(file, field, name, kind, list(known))
        for file, field, name, kind, known in asked
        if name is not None and name not in known
    ]


def _likeliest_first(knowledge: Knowledge, job: Job) -> list[str]:
    """Return the resins by how well they suit a job of prepreg at its temperature."""
    cure = job.cure.temperature
    return sorted(
        knowledge.resins,
        key=lambda id: _unlike(knowledge.resins[id], cure.value if cure else None),
    )


def _unlike(resin: Resin, cure_c: float | None) -> tuple[bool, float]:
    """Return whether a resin is no prepreg, and how far from its cures the job's lies."""
    low, high = resin.cure_low.low_si, resin.cure_high.high_si
    off = 0.0 if cure_c is None else max(low - cure_c, cure_c - high, 0.0)
    return resin.form != "prepreg", off


def _fault(file: str, field: str, name: str, kind: str, known: list[str]) -> str:
    where = f"`advisor options {kind}`"
    accepted = f"an id that {where} lists"
    if len(known) <= _FEW:
        accepted = f"{', '.join(known)} ({where} tells them apart)"
    return (
        f"{file}: {field}: given {name!r}; accepted {accepted}.{did_you_mean(name, known)}"
    )
