"""Pictures drawn from the plan: all within their frame, numbered as the plan numbers."""

import re
from datetime import date
from itertools import combinations, pairwise
from xml.etree import ElementTree

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.documents.citations import Citations
from advisor.documents.pictures.blank import blank
from advisor.documents.pictures.cost_chart import cost_chart
from advisor.documents.pictures.cure_chart import cure_chart
from advisor.documents.pictures.section import section
from advisor.documents.pictures.side_view import side_view
from advisor.documents.pictures.strips import film_strips, order_of_laying
from advisor.documents.pictures.svg import body_under
from advisor.documents.render import html_of
from advisor.documents.shown import pictures_of
from advisor.knowledge.tables import load_knowledge
from advisor.plan import BlankRecord, StripsRecord
from advisor.stack import layer_of

DAY = date(2026, 3, 14)
JOBS = ("cowl", "panel", "duct")
SHAPES = ("flat", "single-curvature", "double-curvature", "closed")
WAYS = ("one-piece", "loose-piece", "split", "break-out", "wash-out")
LETTER = 0.56  # width of a letter over its size, of a plain face, at most on average


def texts(svg):
    """Return the words of a drawing with where they begin and end, and their foot."""
    for one in ElementTree.fromstring(svg).iter():
        if one.tag.endswith("}text") and "x" in one.attrib:
            wide = LETTER * float(one.get("font-size")) * len(one.text)
            x = float(one.get("x"))
            start = {"start": x, "middle": x - wide / 2, "end": x - wide}[
                one.get("text-anchor")
            ]
            yield one.text, start, start + wide, float(one.get("y"))


def assert_framed(drawn):
    frame = re.search(r'viewBox="0 (\S+) (\S+) (\S+)"', drawn.svg).groups()
    top, wide, high = (float(one) for one in frame)
    assert high <= 240, "higher than there is room for on a page"
    points = re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", drawn.svg)
    points += re.findall(r'cx="(-?[\d.]+)" cy="(-?[\d.]+)"', drawn.svg)
    assert len(points) > 8
    for x, y in points:
        assert 0 <= float(x) <= wide, drawn.words
        assert top <= float(y) <= top + high, drawn.words
    boxes = list(texts(drawn.svg))
    for (_, *one), (_, *other) in combinations(boxes, 2):
        beside = one[1] <= other[0] or other[1] <= one[0]
        assert beside or abs(one[2] - other[2]) >= 8.0, boxes
    for words, start, end, foot in boxes:
        assert start >= 0, words
        assert end <= wide, words
        assert top + 6 <= foot <= top + high, words
    assert f"<title>{drawn.words[:20]}" in drawn.svg


def of_part(plan, construction, **part):
    route = plan.route.model_copy(update={"construction": construction})
    job = {**plan.job, "part": {**plan.job["part"], **part}}
    return plan.model_copy(update={"route": route, "job": job})


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("side", ["male", "female"])
@pytest.mark.parametrize("bag", sorted(load_knowledge().bagging))
@pytest.mark.parametrize("shell", [False, True])
def test_every_stack_is_drawn_within_its_frame(make_plan, shape, side, bag, shell):
    plan = make_plan("cowl")
    part = {**plan.job["part"], "shape": shape, "tool_side": side}
    row = load_knowledge().bagging[bag]
    lines = [layer_of(line, load_knowledge()) for line in (*row.below, *row.layers)]
    kinds = ({"id": id, "shell": shell and id == "tool"} for id in lines)
    stack = tuple(plan.stack[0].model_copy(update=kind) for kind in kinds)
    other = {"job": {**plan.job, "part": part}, "stack": stack}
    drawn = section(plan.model_copy(update=other))
    assert_framed(drawn)
    seen = {int(n) for n in re.findall(r">(\d+)</text>", drawn.svg)}
    unseen = drawn.caption.partition("Not seen in this section: ")[2]
    assert seen | {int(n) for n in re.findall(r"\d+", unseen)} == {
        *range(1, len(stack) + 1)
    }


@pytest.mark.parametrize("shape", SHAPES)
@pytest.mark.parametrize("side", ["male", "female"])
@pytest.mark.parametrize("construction", WAYS)
def test_tool_and_part_are_drawn_within_their_frame(make_plan, shape, side, construction):
    plan = make_plan("cowl")
    depth = dict(plan.job["part"]["depth"])
    for deep in (1.0, depth["value"], 40 * depth["value"]):
        depth["value"] = deep
        part = {"shape": shape, "tool_side": side, "depth": dict(depth)}
        assert_framed(side_view(of_part(plan, construction, **part)))


@pytest.mark.parametrize("lean", [0.0, 3.0, 40.0])
@pytest.mark.parametrize("rise", [-60.0, 40.0])
def test_the_wall_of_a_shell_is_as_thick_at_its_sides_as_below(rise, lean):
    face = [(0, 90), (60, 90), (60 + lean, 90 + rise), (240 - lean, 90 + rise), (240, 90)]
    face.append((300, 90))
    drawn = body_under(face, 200, shell=True)
    outside = [(0, 200), *face, (300, 200)]
    assert drawn[: len(outside)] == outside
    inside = np.array(drawn[: len(outside) - 1 : -1])
    for n, (start, end) in enumerate(pairwise(np.array(outside))):
        right = np.array([[0, -1], [1, 0]]) @ (end - start) / np.hypot(*(end - start))
        assert (inside[n : n + 2] - start) @ right == pytest.approx(8.0)


def test_a_part_without_sizes_is_drawn_without_them(make_plan):
    part = {"length": None, "depth": None, "draft": None}
    drawn = side_view(of_part(make_plan("cowl"), "one-piece", **part))
    assert "not to scale" in drawn.words
    assert "mm" not in drawn.svg


@pytest.mark.parametrize("name", JOBS)
def test_thermocouples_are_drawn_by_the_numbers_of_their_step(make_plan, name):
    plan = make_plan(name)
    places = plan.thermocouples.places
    assert places[0].first == 1
    assert [one.first for one in places[1:]] == [one.last + 1 for one in places[:-1]]
    (step,) = [one for one in plan.steps if one.conclusion.rule == "STEP-525"]
    for one in places:
        assert any(one.words in line for line in (step.text, *step.listed)), one
        assert f">T{one.first}" in side_view(plan).svg


def test_a_blank_is_drawn_from_its_parts(make_plan):
    plan = make_plan("cowl")
    drawn = blank(plan)
    assert_framed(drawn)
    for parts, size in (
        (plan.blank.along, plan.blank.length),
        (plan.blank.across, plan.blank.width),
        (plan.blank.up, plan.blank.height),
    ):
        assert sum(parts) == pytest.approx(size, rel=0.02)


def rows(most, shortest):
    """Return rows of parts as they are cut: whole ones, and the rest of one."""
    whole = st.floats(shortest, 600.0)
    return st.builds(
        lambda size, count, share: [size] * count + ([size * share] if share else []),
        whole,
        st.integers(1, most),
        st.just(0.0) | st.floats(0.1, 0.9),
    )


@given(along=rows(5, 200.0), across=rows(3, 200.0), up=rows(6, 40.0))
def test_any_blank_is_drawn_within_its_frame(make_plan, along, across, up):
    plan = make_plan("cowl")
    made = BlankRecord(
        piece="block",
        length=sum(along),
        width=sum(across),
        height=sum(up),
        along=tuple(along),
        across=tuple(across),
        up=tuple(up),
        conclusion=plan.blank.conclusion,
    )
    drawn = blank(plan.model_copy(update={"blank": made}))
    assert_framed(drawn)
    parts = len(along) * len(across) * len(up)
    assert f"of {parts} block" in drawn.words.replace("\u202f", "")
    joints = drawn.svg.count('stroke-width="1"')
    assert joints == len(along) + len(across) + len(up) - 3


@given(st.integers(1, 60))
def test_strips_are_laid_from_the_middle_outward(count):
    order = order_of_laying(count)
    assert sorted(order) == list(range(1, count + 1))
    assert order[(count - 1) // 2] == 1
    for n in range(2, count + 1):
        beside = order.index(n)
        near = order[max(0, beside - 1) : beside + 2]
        assert min(near) < n, "a strip that laps on nothing yet"


@given(st.integers(1, 60), st.floats(80.0, 4000.0), st.floats(5.0, 30.0))
def test_strips_are_drawn_within_their_frame(make_plan, count, girth, lap):
    plan = make_plan("cowl")
    strips = StripsRecord(
        count=count,
        apart=girth / count,
        girth=girth,
        length=1900.0,
        lap=lap,
        conclusion=plan.blank.conclusion,
    )
    drawn = film_strips(plan.model_copy(update={"strips": strips}))
    assert_framed(drawn)
    assert drawn.svg.count('stroke-width="2.4"') == count
    assert f"in {count} strip" in drawn.words.replace("\u202f", "")


def test_film_on_a_shallow_crown_is_drawn_in_the_strips_of_its_step(
    make_plan, shallow_crown
):
    plan = make_plan("cowl", shallow_crown)
    (step,) = [one for one in plan.steps if one.conclusion.rule == "STEP-445"]
    count, apart, *_ = step.quantities
    assert plan.strips.count == count.value
    assert plan.strips.apart == pytest.approx(apart.value, abs=0.1)
    assert plan.strips.count * plan.strips.apart == pytest.approx(plan.strips.girth, 0.01)
    assert_framed(film_strips(plan))
    assert "strips" in {one.id for one in pictures_of(plan, Citations(plan.sources))}
    assert 'id="picture-' in html_of("plan", plan, DAY)


@pytest.mark.parametrize("name", JOBS)
def test_a_cure_is_drawn_as_it_was_worked_out(make_plan, name):
    plan = make_plan(name)
    course = plan.course
    numbers = {one.id: one.value for one in plan.findings}
    starts = {one.text: one.at_h for one in course.marks}
    assert starts["dwell starts"] == pytest.approx(numbers["dwell-start"], abs=0.01)
    held = starts["cool-down starts"] - starts["dwell starts"]
    assert held == pytest.approx(plan.job["cure"]["hold"]["value"], abs=0.02)
    assert all(after > before for before, after in pairwise(course.times_h))
    middle = next(one for one in course.lines if one.name.startswith("Middle"))
    at_start = min(
        zip(course.times_h, middle.values, strict=True),
        key=lambda one: abs(one[0] - starts["dwell starts"]),
    )
    assert at_start[1] == pytest.approx(plan.job["cure"]["temperature"]["value"], abs=12)
    drawn = cure_chart(plan)
    for mark in course.marks:
        assert mark.text in drawn.svg
        assert mark.text in drawn.words


def test_a_break_even_is_where_the_drawn_costs_cross(make_plan):
    """From the run told on, the dearer of the two costs no more than the other."""
    plan = make_plan("cowl")
    even = [one for one in plan.alternatives if one.breaks_even_at]
    assert even
    for one in even:
        dearer = one.cost_total > plan.route.cost_total
        assert one.breaks_even_at > plan.job["run"]["parts"]
        for run, cost in one.cost_at_runs.items():
            if int(run) >= one.breaks_even_at:
                costs = cost, plan.route.cost_at_runs[run]
                now, then = costs if dearer else reversed(costs)
                assert now <= then + 0.005, run
    drawn = cost_chart(plan)
    for one in even:
        if one in plan.alternatives[:4]:
            assert f"at {one.breaks_even_at} parts" in drawn.words


@pytest.mark.parametrize("name", JOBS)
def test_every_picture_of_a_plan_is_numbered_and_told(make_plan, name):
    plan = make_plan(name)
    shown = pictures_of(plan, Citations(plan.sources))
    assert [one.n for one in shown] == list(range(1, len(shown) + 1))
    assert {"stack", "side", "cure"} <= {one.id for one in shown}
    rules = {one.id: one.rule for one in shown}
    assert (rules["side"], rules["cure"]) == ("STEP-525", "HEAT-050")
    assert all(one.sources for one in shown if one.rule)
    for one in shown:
        root = ElementTree.fromstring(one.svg)
        title = next(iter(root))
        assert title.tag.endswith("title")
        assert len(title.text) > 40
        assert one.caption.endswith(".")
