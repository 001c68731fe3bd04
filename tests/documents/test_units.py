"""One system of units on the page: what is kept is right, nothing of the other is left."""

import re
from datetime import date

import pint
import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.documents.render import DOCUMENTS, html_of
from advisor.documents.units import in_units

DAY = date(2026, 3, 14)
PAIR = re.compile(
    r"(-?[\d.,\u202f]+)[\u202f ](mm|m|°C|kPa|mbar|kg|m²) "
    r"\((-?[\d.,\u202f]+)[\u202f ](in|ft|°F|psi|inHg|lb|ft²)\)"
)
PINT = {
    "°C": "degC",
    "°F": "degF",
    "in": "inch",
    "m²": "m**2",
    "ft²": "ft**2",
    "inHg": "inHg",
}
US_ONLY = re.compile(r"\d[\u202f ](°F|psi|lb|ft|ft²|in|mil|µin|gal)\b(?! \(| all\b)")


def body(html):
    text = re.sub(r"<(style|title|svg)\b.*?</\1>", " ", html.split("<body>")[1], flags=re.S)
    return re.sub(r"<[^>]+>", " ", text)


@pytest.mark.parametrize("document", DOCUMENTS)
@pytest.mark.parametrize("name", ["cowl", "duct"])
def test_in_metric_nothing_customary_is_left(make_plan, name, document):
    text = body(html_of(document, make_plan(name), DAY, units="metric"))
    text = re.split(r"\sSources\b", text)[0]  # a source is cited as it was published
    left = [text[max(0, m.start() - 30) : m.end() + 5] for m in US_ONLY.finditer(text)]
    assert left == []
    assert len(text) > 2_000


@pytest.mark.parametrize("name", ["cowl", "duct"])
def test_in_customary_units_the_work_names_no_metric_temperature(make_plan, name):
    plan = make_plan(name)
    for document in ("briefing", "record"):
        text = body(html_of(document, plan, DAY, units="us")).partition("Sources")[0]
        assert "°F" in text
        assert re.findall(r".{20}\d[\u202f ]°C", text) == []


def test_both_numbers_of_a_pair_are_the_same_quantity(make_plan):
    """Held against pint, to the digits that are printed: what is kept may be trusted."""
    units = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
    text = body(html_of("plan", make_plan("cowl"), DAY))
    found = set(PAIR.findall(text))
    assert len(found) > 60
    for left, metric, right, customary in found:
        one = float(left.replace("\u202f", "").replace(",", ""))
        other = float(right.replace("\u202f", "").replace(",", ""))
        there = units.Quantity(one, PINT.get(metric, metric))
        here = {there.to(PINT.get(customary, customary)).magnitude}
        if metric == "°C":
            here.add(one * 1.8)  # a difference
        assert any(other == pytest.approx(x, rel=0.06, abs=1.0) for x in here), (
            left,
            right,
        )


@pytest.mark.parametrize(
    ("text", "metric", "us"),
    [
        ("at 90 °C (194 °F),", "at 90 °C,", "at 194 °F,"),
        ("4\u202f500 mm (177 in)", "4\u202f500 mm", "177 in"),
        (
            "400\u202fkg/\u2060m³ (25\u202flb/\u2060ft³)",
            "400\u202fkg/\u2060m³",
            "25\u202flb/\u2060ft³",
        ),
        ("65 to 70 °C (149 to 158 °F)", "65 to 70 °C", "149 to 158 °F"),
        ("−5 °C (23 °F)", "−5 °C", "23 °F"),
        ("20 K (36 °F) over", "20 K over", "36 °F over"),
        ("two (2) parts, 3 mm (of resin)", "two (2) parts, 3 mm (of resin)", None),
    ],
)
def test_a_text_keeps_one_of_two(text, metric, us):
    assert in_units(text, "metric") == metric
    assert in_units(text, "us") == (text if us is None else us)
    assert in_units(text, "both") == text


def test_the_command_prints_one_system(tmp_path):
    from importlib.resources import files

    job = str(files("advisor.demo").joinpath("panel.toml"))
    words = ["plan", job, "--quick", "--formats", "html", "--documents", "briefing"]
    result = CliRunner().invoke(app, [*words, "--units", "us", "--out", str(tmp_path)])
    assert result.exit_code == 0, result.output
    html = (tmp_path / "panel.briefing.html").read_text("utf-8")
    assert "°C" not in body(html)
    bad = CliRunner().invoke(app, [*words, "--units", "si"])
    assert bad.exit_code == 2
