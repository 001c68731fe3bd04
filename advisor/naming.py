"""Checks that options, resins and prices named by the user stand in the tables."""

from collections.abc import Iterable
from difflib import get_close_matches

from advisor.job import Job
from advisor.knowledge.tables import Knowledge
from advisor.shop import Shop


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
    asked: list[tuple[str, str, str | None, Iterable[str]]] = [
        (job_name, "cure.resin", job.cure.resin, knowledge.resins)
    ]
    if job.proposal:
        asked += [
            (job_name, "proposal.tool", job.proposal.tool, {*tools, *families}),
            (job_name, "proposal.sealing", job.proposal.sealing, knowledge.sealers),
            (job_name, "proposal.release", job.proposal.release, knowledge.releases),
            (job_name, "proposal.bagging", job.proposal.bagging, knowledge.bagging),
        ]
    asked += [(shop_name, f"prices.{row}", row, knowledge.prices) for row in shop.prices]
    asked += [
        (shop_name, f"stock.{n}.material", item.material, tools)
        for n, item in enumerate(shop.stock)
    ]
    return [
        _fault(file, field, name, sorted(known))
        for file, field, name, known in asked
        if name is not None and name not in known
    ]


def _fault(file: str, field: str, name: str, known: list[str]) -> str:
    near = get_close_matches(name, known, n=1)
    hint = f" Did you mean {near[0]!r}?" if near else ""
    return f"{file}: {field}: given {name!r}; accepted {', '.join(known)}.{hint}"
