"""The ids that a job or a shop may name, listed; an unknown one leads to the list."""

from typing import get_args

import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.measures import STYLES
from advisor.naming import unknown_names
from advisor.rule_base.options import KINDS, listed
from advisor.shop import Jurisdiction, Shop

KNOWN = load_knowledge()


def run(*words):
    return CliRunner().invoke(app, ["options", *words])


def ids(text):
    """Return the ids of a listing: they stand two spaces in, their words six."""
    return [
        line.strip()
        for line in text.splitlines()
        if line.startswith("  ") and not line.startswith("   ")
    ]


@pytest.mark.parametrize(
    ("kind", "table"),
    [
        ("resins", KNOWN.resins),
        ("tools", KNOWN.tool_materials),
        ("seals", KNOWN.sealers),
        ("releases", KNOWN.releases),
        ("bags", KNOWN.bagging),
        ("prices", KNOWN.prices),
        ("places", get_args(Jurisdiction)),
    ],
)
def test_every_id_of_a_kind_is_listed_once(kind, table):
    result = run(kind)
    assert result.exit_code == 0
    assert ids(result.stdout) == list(table)
    assert all(len(line) <= 92 for line in result.stdout.splitlines())


def test_all_kinds_are_listed_where_none_is_named():
    assert run().stdout.strip() == "\n\n".join(listed(KNOWN, (kind,)) for kind in KINDS)


def test_an_unknown_kind_is_told_with_the_known_ones():
    result = run("seal")
    assert result.exit_code == 2
    assert "accepted resins, tools" in result.stderr
    assert "Did you mean 'seals'?" in result.stderr


@pytest.mark.parametrize(
    ("kind", "field"),
    [("tools", "service_limit"), ("releases", "limit"), ("seals", "limit_as_painted")],
)
def test_the_limit_of_an_option_stands_beside_it(kind, field):
    printed = listed(KNOWN, (kind,)).replace("\n      ", " ")
    for id, row in KINDS[kind].rows(KNOWN).items():
        of_it = printed.partition(f"\n  {id} ")[2].partition("\n  ")[0]
        if row.name != "No seal":
            assert f"stands {STYLES['temperature'](getattr(row, field).si)}" in of_it, id


def test_an_unknown_id_leads_to_the_command_that_lists_it():
    job = Job.model_validate({"title": "x", "proposal": {"tool": "wood"}})
    assert (
        "an id that `advisor options tools` lists" in unknown_names(job, Shop(), KNOWN)[0]
    )


@pytest.mark.parametrize(
    ("cure", "first"),
    [(80, "epoxy-low-temperature"), (120, "epoxy-120"), (180, "epoxy-180")],
)
def test_a_bare_epoxy_is_taken_for_the_prepreg_of_the_jobs_cure(cure, first):
    """A job is one of prepreg; a resin for wet lay-up is the last that can be meant."""
    given = {"title": "x", "cure": {"resin": "epoxy", "temperature": cure}}
    fault = unknown_names(Job.model_validate(given), Shop(), KNOWN)[0]
    hint = fault.partition("Did you mean ")[2].rstrip("?").split(" or ")
    assert hint[0] == repr(first)
    assert hint[-1] == "'epoxy-wet'"
