"""What the first page of a process plan says: the decision at a glance."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from advisor.documents.citations import Citations, Reason, reason
from advisor.measures import in_sentence, in_styles, phrase, sentence
from advisor.plan import Plan, RouteRecord

VERDICTS = {
    "route": "A route stands",
    "route-with-conditions": "A route stands, under conditions",
    "no-route": "No route stands",
    "ask-first": "Questions first",
}


STANDING = (
    "Planning aid only. Local law, the permit holder, the product safety data sheet and "
    "the equipment maker's instructions override this plan. If an item cannot be "
    "confirmed, stop."
)


@dataclass(frozen=True)
class Choice:
    """One of the four pieces of a route."""

    what: str
    name: str
    detail: str


def job_line(job: Mapping[str, object]) -> str:
    """Return size, shape, cure and run of a job in one line."""
    part, cure, run = (dict(job[key]) for key in ("part", "cure", "run"))  # type: ignore[call-overload]
    size = [part[key] for key in ("length", "width", "depth") if part[key]]
    words = []
    if size:
        words.append(" × ".join(in_styles(s["value"], s["unit"]) for s in size))
    if part["shape"]:
        words.append(part["shape"].replace("-", " "))
    if cure["temperature"]:
        heat = cure["temperature"]
        how = "a bladder" if cure["pressure"] == "bladder" else cure["pressure"]
        words.append(f"cure {in_styles(heat['value'], heat['unit'])} under {how}")
    if run["parts"]:
        words.append(phrase("{n:parts}", n=run["parts"]))
    return ", ".join(words)


def choices(plan: Plan) -> tuple[Choice, ...]:
    """Return tool, seal, release and bag of a plan that has a route."""
    route = plan.route
    assert route is not None
    names = {(o.stage, o.id): o.name for o in plan.options}
    tool = names["tool", route.tool]
    built = route.name.removeprefix(f"{tool}, ")
    build = {"split": "split, so that it opens"}.get(built, built)
    return (
        Choice("Tool", tool, build),
        Choice("Seal", names["sealing", route.sealing], ""),
        Choice("Release", names["release", route.release], ""),
        Choice("Bag", names["bagging", route.bagging], ""),
    )


def in_money(amount: float, route: RouteRecord) -> str:
    """Return an amount in the currency of a route."""
    return sentence("{x:money} {currency}", x=amount, currency=route.currency)


def budget(plan: Plan) -> str:
    """Return how the cost stands to the budget; nothing where none was given."""
    total = plan.job["budget"]["total"]
    if total is None or plan.route is None:
        return ""
    spare = "" if plan.route.cost_high <= total else "; the high end is above it"
    return f"of a budget of {in_money(total, plan.route)}{spare}"


def run_time(job: Mapping[str, Any]) -> str:
    """Return how long the run takes at the rate of the job; nothing without one."""
    rate, parts = job["run"]["per_week"], job["run"]["parts"]
    if not rate or not parts:
        return ""
    return sentence(
        "{weeks:number} weeks of parts at {rate:number} a week",
        weeks=parts / rate,
        rate=rate,
    )


def span(route: RouteRecord) -> str:
    """Return what a route may cost as prices and hours vary."""
    return f"{in_money(route.cost_low, route)} to {in_money(route.cost_high, route)}"


def price_note(route: RouteRecord) -> str:
    """Return where the prices of a route come from."""
    return {
        "from-memory": "Planning prices, good to an order of magnitude; no quotation.",
        "shop": "The shop's own prices where given, planning prices elsewhere.",
        "invented": "Demonstration: these prices are invented.",
    }[route.price_basis]


def left_out(plan: Plan) -> str:
    """Return what the cost leaves out, in hours and money; nothing where it is whole."""
    watched = next((one for one in plan.findings if one.id == "watch-hours"), None)
    if watched is None or plan.route is None:
        return ""
    rate = plan.shop["rates"]["labour"]
    money = f", {in_money(watched.value * rate, plan.route)}" if rate else ""
    return phrase(
        "Not in it: {h:about_hours} of watch over the oven{money}.",
        h=watched.value,
        money=money,
    )


def stood(plan: Plan) -> str:
    """Return how often the route stood as inputs were drawn; nothing where none were."""
    sure = plan.sureness
    if sure is None or sure.firm or plan.route is None:
        return ""
    return phrase(
        "Stands in {m:number} of {n:number} draws over its ranges.",
        n=sure.draws,
        m=sure.stood,
    )


def days(hours: float) -> str:
    """Return hours as whole days."""
    return phrase("about {days:days}", days=max(1, round(hours / 24)))


def tools_needed(route: RouteRecord) -> str:
    """Return how many tools a route takes, and what each is good for."""
    return phrase(
        "{tools:tools}, good for {about}{parts:parts}{each}",
        tools=route.tools,
        about="" if route.parts_per_tool == 1 else "about ",
        parts=route.parts_per_tool,
        each=" each" if route.tools > 1 else "",
    )


def deciding(plan: Plan, refs: Citations) -> tuple[Reason, ...]:
    """Return the few reasons that decided: the ranking, the best support, the next best."""
    route = plan.route
    if route is None:
        return ()
    chosen = [c for c in route.reasons if c.kind == "chosen"]
    support = [c for c in route.reasons if c.kind == "good"]
    support.sort(key=lambda c: (_first_to_say(c.rule), c.id))
    reasons = [reason(c, refs) for c in (*chosen, *support[: 3 - len(chosen)])]
    family = {o.id: o.family for o in plan.options if o.stage == "tool"}
    others = [a for a in plan.alternatives if family[a.tool] != family[route.tool]]
    if others:
        nearest = others[0]
        lost = nearest.lost_because[:1].lower() + nearest.lost_because[1:]
        text = f"Next best of another kind, {in_sentence(nearest.name)}: {lost}"
        reasons.append(Reason("next-best", text, (), ""))
    reasons += [reason(one.conclusion, refs) for one in plan.safer]
    return tuple(reasons)


def _first_to_say(rule: str) -> int:
    """Order reasons for the first page: what the shop owns, the run, the seal, the heat."""
    order = ("TOOL-36", "TOOL-45", "SEAL", "MONEY", "REL", "TOOL")
    return next((n for n, start in enumerate(order) if rule.startswith(start)), len(order))
