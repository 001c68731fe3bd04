"""Every worked line of a plan, worked again from what is printed, by pint and math."""

import math
import re

import pint
import pytest

UNITS = pint.UnitRegistry()
JOBS = ("cowl", "panel", "duct")
ALWAYS = {"laminate-thickness", "void-margin", "growth", "scale-factor", "part-mass"}
FIGURE = re.compile(
    r"(\d+(?:\u202f\d{3})*(?:\.\d+)?)"
    r"(?:\u202f([A-Za-zµ°](?:[A-Za-z²³/·µ°\u2060]|\([\w·²³]*\))*))?"
)
PYTHON = {"·": "*", "−": "-", "²": "**2", "√": "sqrt"}


def spelt(unit):
    """Return a printed unit as pint spells it; degrees stand in differences alone."""
    unit = unit.replace("\u2060", "").replace("·", "*").replace("°C", "K")
    return unit.replace("²", "**2").replace("³", "**3")


def worked(line):
    """Return what a printed line comes to."""
    taken = []

    def take(match):
        number = float(match[1].replace("\u202f", ""))
        unit = match[2] or "1"
        taken.append(UNITS.Quantity(number, "" if unit == "1" else spelt(unit)))
        return f"taken[{len(taken) - 1}]"

    told = FIGURE.sub(take, line)
    for printed, sign in PYTHON.items():
        told = told.replace(printed, sign)
    assert re.fullmatch(r"(?:taken\[\d+\]|ln|exp|sqrt|π|[-+*/() 2])+", told), told
    names = {
        "taken": taken,
        "ln": lambda one: math.log(one.m_as("1")),
        "exp": lambda one: math.exp(one.m_as("1")),
        "sqrt": lambda one: one**0.5,
        "π": math.pi,
    }
    return eval(told, {"__builtins__": {}}, names)


def expected(finding):
    unit = {"factor": "", "count": "", "1": ""}.get(finding.unit, finding.unit)
    return UNITS.Quantity(finding.value, unit)


@pytest.mark.parametrize("name", JOBS)
def test_a_worked_line_comes_to_its_number(make_plan, name):
    assert {one.id for one in lines_of(make_plan(name))} >= ALWAYS


def test_a_worked_line_of_an_invented_job_comes_to_its_number(few_plans):
    assert sum(len(lines_of(plan)) for plan in few_plans.values()) > 20


def lines_of(plan):
    """Return the numbers with a worked line, which comes to each of them."""
    lines = [one for one in plan.findings if one.worked]
    for one in lines:
        found = worked(one.worked).to(expected(one).units).magnitude
        if one.unit == "factor":  # to six figures in the plan, to half of the last
            assert found - 1 == pytest.approx(one.value - 1, rel=5e-3, abs=5e-6), one.worked
        else:
            assert found == pytest.approx(one.value, rel=5e-3), one.worked
    return lines


@pytest.mark.parametrize(
    ("line", "value"),
    [
        ("3 · 2\u202fmm / 1.5\u202fm", 0.004),
        ("1\u202f000\u202fmm − 1\u202fm", 0.0),
        ("2 · ln(1 / 0.5)", 2 * math.log(2)),
        ("1 / 2 · (1 − exp(−2 · 0.5))", (1 - math.exp(-1)) / 2),
        ("(3\u202fm)² / 1\u202fm²", 9.0),
        ("√(4\u202fkPa / (2\u202fkPa + 2\u202fkPa))", 1.0),
        ("(1 + 8\u202fµm/\u2060(m·K) · 70\u202fK)", 1.00056),
    ],
)
def test_the_reader_of_lines_reads_them(line, value):
    assert UNITS.Quantity(worked(line)).to_base_units().magnitude == pytest.approx(value)


def test_a_spoilt_line_does_not_come_to_its_number(make_plan):
    finding = next(one for one in make_plan("cowl").findings if one.id == "part-mass")
    spoilt = finding.worked.replace("4 ·", "5 ·", 1)
    assert spoilt != finding.worked
    assert worked(spoilt).m_as("kg") != pytest.approx(finding.value, rel=5e-3)
