"""A wheel, installed away from the checkout, carries rules, tables, templates and demo."""

import os
import subprocess
import sys
import venv
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]


def run(*words, **options):
    """Run a command; show what it said if it fails."""
    clean = {k: v for k, v in os.environ.items() if k not in {"PYTHONPATH", "PYTHONHOME"}}
    done = subprocess.run(words, capture_output=True, text=True, env=clean, **options)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


@pytest.mark.slow
def test_the_wheel_runs_the_demo_in_a_fresh_environment(tmp_path):
    run(sys.executable, "-m", "build", "--wheel", "--outdir", str(tmp_path), str(ROOT))
    wheel = next(tmp_path.glob("*.whl"))
    home = tmp_path / "venv"
    venv.create(home, with_pip=True)
    python = home / ("Scripts" if os.name == "nt" else "bin") / "python"
    run(str(python), "-m", "pip", "install", "-q", str(wheel))
    away = tmp_path / "away"
    away.mkdir()
    said = run(str(python), "-m", "advisor", "demo", "--quick", "--out", "plans", cwd=away)
    assert "Fan cowl" in said
    written = {path.name for path in (away / "plans").iterdir()}
    assert {"cowl.plan.pdf", "duct.plan.html", "panel.plan.json", "shop.toml"} <= written
    where = run(
        str(python),
        "-c",
        "import advisor.rules.sealing as s, advisor.templates as t; "
        "print(s.__file__, t.__file__)",
        cwd=away,
    )
    assert str(ROOT) not in where
    assert where.count(str(home)) == 2
