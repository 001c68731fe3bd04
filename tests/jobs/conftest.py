"""Invented jobs in invented shops, made by a seeded generator, and their plans."""

import math
import random
from functools import lru_cache
from typing import get_args

import pytest

from advisor.advise import advise
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.reading import parse
from advisor.shop import Jurisdiction, Shop

KNOWN = load_knowledge()
TOOLS = tuple(KNOWN.tool_materials)
SEALS = tuple(KNOWN.sealers)
RELEASES = tuple(KNOWN.releases)
BAGS = tuple(KNOWN.bagging)
JURISDICTIONS = get_args(Jurisdiction)


class Draw(random.Random):
    """A random number generator with the few draws that a job needs."""

    def yes(self, share):
        """Return true in this share of the draws."""
        return self.random() < share

    def between(self, low, high, digits=0):
        """Return a number, every size of it as likely as another."""
        return round(math.exp(self.uniform(math.log(low), math.log(high))), digits)

    def often(self, **weights):
        """Return one of the names, by weight; `_` stands for `-`."""
        name = self.choices(list(weights), list(weights.values()))[0]
        return name.replace("_", "-")


def invented(number):
    """Return the job and the shop of a number as plain data, always the same ones.

    Each is built round one tool material in turn, so that every material and its hazards
    get a plan: mostly with a cure that the material stands and a proposal that asks for it.
    """
    draw = Draw(f"invented job {number}")
    tool = TOOLS[number % len(TOOLS)]
    row = KNOWN.tool_materials[tool]
    part = _part(draw, row)
    cure = _cure(draw, row)
    job = {
        "title": f"Invented part {number}",
        "part": part,
        "cure": cure,
        "laminate": _laminate(draw),
        "finish": _finish(draw),
        "run": {"parts": _parts(draw, row)},
    }
    if draw.yes(0.3):
        job["run"]["per_week"] = draw.between(0.2, 20, 1)
    if draw.yes(0.6):
        job["budget"] = {"priority": draw.choice(["cost", "lead-time", "certainty"])}
        if draw.yes(0.4):
            job["budget"]["total"] = draw.between(300, 300_000)
    if draw.yes(0.92):
        job["proposal"] = _proposal(draw, tool)
    return job, _shop(draw, job, tool, row)


def _part(draw, row):
    if row.form == "plate":
        shape = "flat"
    elif row.form == "core":
        shape = "closed"
    else:
        shape = draw.often(
            flat=0.15, single_curvature=0.3, double_curvature=0.35, closed=0.2
        )
    length = draw.between(80, 2_000)
    width = max(30.0, round(length * draw.uniform(0.2, 1.0)))
    part = {"length": length, "width": min(width, length), "shape": shape}
    if draw.yes(0.4):
        part["tolerance"] = draw.between(0.1, 5, 2)
    if draw.yes(0.2):
        part["service_temperature"] = draw.between(40, 120)
    if shape == "flat":
        return part
    least = 1.0 if shape != "closed" else 20.0
    part |= {
        "depth": max(least, round(part["width"] * draw.uniform(0.03, 0.7))),
        "draft": draw.choice([0, 0, 1, 3, 5, 8, 15]),
        "undercut": draw.yes(0.7 if row.form == "core" else 0.2),
        "tool_side": "male" if row.form == "core" else draw.choice(["female", "male"]),
    }
    if draw.yes(0.6):
        part["smallest_radius"] = draw.between(3, min(800.0, length))
    if draw.yes(0.25):
        part["corner"] = draw.choice([45, 90, 120])
    return part


def _cure(draw, row):
    most = row.service_limit.value
    fits = [id for id, one in KNOWN.resins.items() if one.cure_low.value <= most]
    resin = draw.choice(fits if fits and draw.yes(0.93) else list(KNOWN.resins))
    low, high = KNOWN.resins[resin].cure_low.value, KNOWN.resins[resin].cure_high.value
    hottest = min(high, max(low, most)) if draw.yes(0.9) else high
    cure = {
        "resin": resin,
        "temperature": round(draw.uniform(low, hottest)),
        "hold": draw.between(1, 16, 1),
    }
    if draw.yes(0.5):
        cure["ramp"] = draw.between(0.1, 4, 1)
    if draw.yes(0.15):
        cure |= {
            "first_cure": cure["temperature"],
            "temperature": min(200, cure["temperature"] + draw.choice([0, 20, 50, 80])),
            "free_standing_post_cure": True,
        }
    if draw.yes(0.2):
        cure |= {"pressure": "autoclave", "autoclave_pressure": draw.between(1, 8, 1)}
    if draw.yes(0.1):
        cure["sheet"] = [{"temperature": cure["temperature"], "hold": cure["hold"]}]
    return cure


def _laminate(draw):
    laminate = {}
    if draw.yes(0.8):
        laminate["plies"] = int(draw.between(1, 40))
    if draw.yes(0.5):
        laminate["fibre"] = draw.often(carbon=0.5, glass=0.3, aramid=0.2)
    if draw.yes(0.5):
        laminate["weave"] = draw.choice(["unidirectional", "plain", "twill", "satin"])
    if draw.yes(0.3):
        laminate["areal_weight"] = draw.choice([100, 200, 300, 600])
    if draw.yes(0.2):
        laminate["fibre_volume"] = draw.choice([0.45, 0.55, 0.6])
    if draw.yes(0.2):
        laminate |= {"plies": 4, "layup": draw.choice(["[0/45]s", "[0/90]s", "[0/90]2"])}
    return laminate


def _finish(draw):
    finish = {}
    if draw.yes(0.7):
        finish["target"] = draw.often(as_moulded=0.5, paint=0.3, gloss=0.2)
    if draw.yes(0.5):
        finish["after"] = draw.choice(["none", "paint", "bond"])
    if draw.yes(0.12):
        finish["both_faces"] = True
    if draw.yes(0.15):
        finish["roughness"] = draw.choice([0.2, 0.8, 1.6])
    return finish


def _parts(draw, row):
    most = 3 * row.cycles.value if draw.yes(0.85) else 400
    return int(draw.between(1, max(2, min(400, most))))


def _proposal(draw, tool):
    proposal = {"tool": tool}
    for key, options, share in (
        ("sealing", SEALS, 0.6),
        ("release", RELEASES, 0.6),
        ("bagging", BAGS, 0.4),
    ):
        if draw.yes(share):
            proposal[key] = draw.choice(options)
    return proposal


def _shop(draw, job, tool, row):
    """Return a shop that can mostly do the job, and leaves out much of what it owns."""
    vessel = job["cure"].get("pressure") == "autoclave"
    hot = job["cure"]["temperature"]
    oven = {
        "kind": "autoclave"
        if draw.yes(0.95 if vessel else 0.04)
        else draw.often(industrial=0.45, home_built=0.5, kitchen=0.05),
    }
    if draw.yes(0.7):
        oven |= {"length": 4_000, "width": 3_000, "height": 3_000}
        if draw.yes(0.2):
            oven |= {"length": draw.between(600, 4_000), "door_height": 2_000}
    if draw.yes(0.7):
        oven["limit"] = max(60, round(hot * draw.uniform(0.95, 1.8) + 15))
    if draw.yes(0.3):
        oven["shelf_load"] = draw.between(20, 5_000)
    if draw.yes(0.5):
        oven["over_temperature_trip"] = draw.yes(0.8)
    if draw.yes(0.25):
        oven["fuel_fired"] = draw.yes(0.7)
    shop = {
        "oven": oven,
        "making": {
            "machining": draw.choice(["hand", "hand-router", "cnc-router"]),
            "printer": row.form == "printed" or draw.yes(0.2),
            "metal_machining": row.dust == "metal" or draw.yes(0.3),
        },
    }
    dust = {}
    if draw.yes(0.85):
        dust["extraction"] = draw.often(none=1, household=1, class_m=3, class_h=5)
    if draw.yes(0.5):
        dust["wet_cutting"] = draw.yes(0.7)
    if draw.yes(0.5):
        dust["respirators"] = draw.yes(0.7)
    if draw.yes(0.4):
        dust |= {"air_changes": draw.between(0.2, 50, 1), "room_volume": 200}
    vacuum = {"pump": draw.yes(0.98)} if draw.yes(0.5) else {}
    if draw.yes(0.4):
        vacuum |= {"altitude": draw.choice([0, 100, 600]), "reading": 930}
    if draw.yes(0.4):
        vacuum["flow"] = draw.between(2, 100)
    shop |= {"dust": dust, "vacuum": vacuum}
    if draw.yes(0.5):
        shop["room"] = {"humidity": draw.between(0.2, 0.9, 2)}
    if draw.yes(0.7):
        shop["people"] = {"count": draw.choice([1, 1, 2, 3, 6]), "hoist": draw.yes(0.4)}
    if draw.yes(0.9):
        shop["rates"] = {"jurisdiction": draw.choice(JURISDICTIONS)}
    if row.form == "plate" or draw.yes(0.05):
        shop["stock"] = [
            {"kind": "plate", "material": "metal-plate", "length": 3000, "width": 3000}
        ]
    elif draw.yes(0.12):
        shop["stock"] = [
            {
                "kind": "tool",
                "material": tool,
                "length": job["part"]["length"],
                "width": job["part"]["width"],
                "made_for": job["title"],
            }
        ]
    if draw.yes(0.4):
        shop["prices"] = {f"tool-{tool}": 0.05}
    return shop


GROUP = 40


def pytest_generate_tests(metafunc):
    """Give the tests that ask for invented plans their numbers, in groups that fit."""
    first = metafunc.config.getoption("--safety-from")
    last = first + metafunc.config.getoption("--safety-jobs")
    groups = [range(start, min(start + GROUP, last)) for start in range(first, last, GROUP)]
    for name, asked in (
        ("plans", groups),
        ("first_plans", groups[:1]),
        ("few_plans", [group[::4] for group in groups]),
    ):
        if name in metafunc.fixturenames:
            named = [f"{one[0]}-{one[-1]}" for one in asked]
            metafunc.parametrize(name, asked, indirect=True, ids=named, scope="session")


def planned(job, shop):
    """Return the plan of a job and a shop given as plain data."""
    return advise(parse(job, Job, "job.toml"), parse(shop, Shop, "shop.toml"))


@lru_cache(maxsize=2 * GROUP)
def plan_of(number):
    """Return the plan of an invented job by its number; the last ones are kept."""
    return planned(*invented(number))


def planned_group(numbers):
    """Return the plans of invented jobs by their numbers."""
    return {number: plan_of(number) for number in numbers}


@pytest.fixture(scope="session")
def plans(request):
    """Plans of one group of invented jobs by their number, those without a route too."""
    return planned_group(request.param)


@pytest.fixture(scope="session")
def first_plans(request):
    """Plans of the first group alone."""
    return planned_group(request.param)


@pytest.fixture(scope="session")
def few_plans(request):
    """Plans of every fourth job of one group."""
    return planned_group(request.param)


@pytest.fixture(scope="session")
def plan_invented():
    """Return the call that plans a job and a shop given as plain data."""
    return planned


@pytest.fixture(scope="session")
def invent():
    """Return the call that invents job and shop of a number."""
    return invented
