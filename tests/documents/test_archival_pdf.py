"""The PDF as a file: tagged, archival, carrying its data; judged by an independent checker.

The checker is the package page-validation, which tests the clauses of ISO 14289-1
(PDF/UA-1) and ISO 19005-3 (PDF/A-3) one by one; what is attached is read with pypdf.
"""

from datetime import date
from importlib.resources import files
from io import BytesIO
from pathlib import Path

import page
import pypdf
import pytest
from typer.testing import CliRunner

from advisor.advise import advise
from advisor.cli import app
from advisor.documents.carried import JOB, PLAN, SHOP, carried, sources
from advisor.documents.pdf import Attached, pdf_of
from advisor.documents.render import render
from advisor.job import Job
from advisor.plan import Plan
from advisor.reading import InputError

DAY = date(2026, 3, 14)
DEMO = Path(str(files("advisor.demo")))
TITLE, TYPO = b"title = 'x'\n", b"title = 'x'\npart.lenght = 3\n"
ASKING = advise(Job(title="x")).to_json().encode()
PROFILES = (page.ValidationProfile.PDF_UA_1, page.ValidationProfile.PDF_A_3A)


@pytest.fixture(scope="module", params=["cowl", "panel", "duct"])
def printed(request, make_plan, demo_pdf):
    return request.param, make_plan(request.param), demo_pdf(request.param)


@pytest.mark.parametrize("profile", PROFILES)
def test_it_conforms(printed, profile):
    report = page.validate_pdf_bytes(printed[2], profile=profile)
    assert [f"{one.rule_id}: {one.message}" for one in report.failures] == []
    assert report.is_compliant


@pytest.mark.parametrize("profile", PROFILES)
def test_the_checker_finds_what_is_wrong(profile):
    """Without tags, or with a filtered metadata stream, a file does not pass."""
    import weasyprint

    plain = weasyprint.HTML(string="<h1>x</h1>").write_pdf()
    assert not page.validate_pdf_bytes(plain, profile=profile).is_compliant


def test_a_plan_that_asks_or_is_blocked_conforms_too(make_plan):
    for job in ({"cure.temperature": None}, {"budget.total": 10}):
        pdf = render(make_plan("cowl", job), ("pdf",), DAY)["plan.pdf"]()
        for profile in PROFILES:
            report = page.validate_pdf_bytes(pdf, profile=profile)
            assert [one.rule_id for one in report.failures] == []


def test_it_carries_its_job_its_shop_and_itself(printed):
    name, plan, pdf = printed
    attached = pypdf.PdfReader(BytesIO(pdf)).attachments
    assert set(attached) == {JOB, SHOP, PLAN}
    assert attached[JOB] == [(DEMO / f"{name}.toml").read_bytes()]
    assert attached[SHOP] == [(DEMO / "shop.toml").read_bytes()]
    assert Plan.model_validate_json(attached[PLAN][0]) == plan


def test_title_author_language_and_day_stand_in_it(printed):
    _, plan, pdf = printed
    reader = pypdf.PdfReader(BytesIO(pdf))
    assert reader.root_object["/Lang"] == "en"
    metadata = reader.xmp_metadata
    assert plan.job["title"] in metadata.dc_title["x-default"]
    assert metadata.dc_creator == [plan.shop["name"]]
    assert metadata.xmp_create_date.date() == DAY
    assert reader.outline  # bookmarks


def test_the_same_plan_and_day_give_the_same_bytes():
    html = "<html lang='en'><title>x</title><body><h1>x</h1>"
    data = [Attached("a.json", b"{}", "data")]
    first = pdf_of(html, DAY, data)
    assert pdf_of(html, DAY, data) == first
    assert pdf_of(html, date(2026, 3, 15), data) != first


def opened(path, *words):
    return CliRunner().invoke(app, ["open", str(path), *words])


def test_a_printed_plan_is_read_back_and_decided_the_same(printed, tmp_path):
    name, _, pdf = printed
    path = tmp_path / "old.pdf"
    path.write_bytes(pdf)
    result = opened(path, "--out", str(tmp_path / "back"))
    assert result.exit_code == 0, result.output
    assert "Today it would be decided the same." in result.stdout
    assert (tmp_path / "back" / JOB).read_bytes() == (DEMO / f"{name}.toml").read_bytes()
    assert (tmp_path / "back" / SHOP).read_bytes() == (DEMO / "shop.toml").read_bytes()


def test_what_would_be_decided_otherwise_is_told(make_plan, tmp_path):
    """A plan printed for another cure stands for one that older rules had made."""
    plan = make_plan("panel", {"run.parts": 5})
    given = sources((DEMO / "panel.toml").read_bytes(), (DEMO / "shop.toml").read_bytes())
    path = tmp_path / "old.pdf"
    path.write_bytes(render(plan, ("pdf",), DAY, "a4", given)["plan.pdf"]())
    result = opened(path)
    assert result.exit_code == 6
    assert "as printed" in result.stdout
    assert "today" in result.stdout
    assert "* " in result.stdout


@pytest.mark.parametrize(
    ("content", "said"),
    [
        (None, "there is no such file"),
        (b"title = 'x'", "this is no PDF"),
        (b"%PDF-1.7\nbroken", "cannot be read as a PDF"),
        ([], "carries no job and no plan"),
        ([*sources(TITLE, None), Attached(PLAN, b"{}", "")], "is no plan of this version"),
        ([*sources(TYPO, None), Attached(PLAN, ASKING, "")], "part.lenght: unknown key"),
    ],
)
def test_a_file_that_is_none_of_ours_is_refused_in_one_line(tmp_path, content, said):
    path = tmp_path / "x.pdf"
    if isinstance(content, list):
        html = "<html lang='en'><title>x</title><body><h1>x</h1>"
        content = pdf_of(html, DAY, content)
    if content is not None:
        path.write_bytes(content)
    result = opened(path)
    assert result.exit_code == 2
    assert said in result.stderr
    assert len(result.stderr.splitlines()) == 1
    assert "Traceback" not in result.output


def test_a_folder_is_no_pdf(tmp_path):
    with pytest.raises(InputError, match="cannot be read"):
        carried(tmp_path)
