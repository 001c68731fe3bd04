"""Spoilt files: however a job or a shop is broken, it is refused in clear single lines."""

import random
from importlib.resources import files

import pytest
from typer.testing import CliRunner

from advisor.cli import app
from advisor.job import Job
from advisor.knowledge.tables import load_knowledge
from advisor.naming import unknown_names
from advisor.reading import InputError, read_job, read_shop
from advisor.shop import Shop

SPOILT = 200
VALUES = (
    *("nan", "inf", "-inf", "-1", "0", "1e308", "1e999", "9" * 40, "true", "1979-05-27"),
    *('""', '"x"', '"80 F"', '"1 / 0"', '"1 m/0"', '"1 mm**99999"', '"NaN mm"', '"0x1 mm"'),
    *("[]", "[1, 2]", "{}", "{a = 1}", '"{0}"', '"%s"', '"a\\nb"', '"[0/45"', '"\\u0000"'),
    f'"{"long " * 500}"',
)
LINES = (
    "[x]",
    "[part]",
    "[[stock]]",
    "[[cure.sheet]]",
    "a.b.c = 1",
    "part = 3",
    "[[part]]",
)
MARKS = "[]=\"'.#\x00\t \xe9{}"


def texts():
    """Return the files of the demo by name."""
    folder = files("advisor.demo")
    return {
        name: folder.joinpath(f"{name}.toml").read_text("utf-8")
        for name in ("cowl", "panel", "duct", "shop")
    }


def spoilt(text, rng):
    """Return a file with a few lines dropped, doubled, overwritten or garbled."""
    lines = text.splitlines()
    for _ in range(rng.randint(1, 3)):
        at = rng.randrange(len(lines))
        match rng.randrange(5):
            case 0:
                del lines[at]
            case 1:
                lines.insert(at, rng.choice(lines))
            case 2:
                lines[at] = rng.choice(LINES)
            case 3 if lines[at]:
                cut = rng.randrange(len(lines[at]))
                lines[at] = lines[at][:cut] + rng.choice(MARKS) + lines[at][cut + 1 :]
            case _:
                lines[at] = lines[at].partition("=")[0] + "= " + rng.choice(VALUES)
    return "\n".join(lines)


def is_refused(path, is_shop):
    """Return whether a file cannot be used, as the program's reader sees it."""
    try:
        job = Job(title="unread") if is_shop else read_job(path)
        shop = read_shop(path) if is_shop else Shop()
    except InputError:
        return True
    return bool(unknown_names(job, shop, load_knowledge()))


def test_every_spoilt_file_is_refused_in_clear_lines(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    rng, originals, refused = random.Random(20261126), texts(), 0
    for n in range(SPOILT):
        name = rng.choice(sorted(originals))
        is_shop = name == "shop"
        job, shop = tmp_path / "job.toml", tmp_path / "shop.toml"
        job.write_text(originals["cowl"], "utf-8")
        shop.write_text(originals["shop"], "utf-8")
        odd = shop if is_shop else job
        odd.write_text(spoilt(originals[name], rng), "utf-8")
        if not is_refused(odd, is_shop):
            continue
        refused += 1
        told = CliRunner().invoke(app, ["plan", "job.toml", "--shop", "shop.toml"])
        assert isinstance(told.exception, SystemExit), f"{n}: {told.exception!r}"
        assert told.exit_code == 2, n
        for line in told.stderr.splitlines():
            assert line.startswith(f"{odd.name}: "), f"{n}: {line}"
            assert len(line) < 500, f"{n}: {line}"
            assert line.isprintable(), f"{n}: {line!r}"
        assert told.stdout == ""
    assert refused > SPOILT / 2


@pytest.mark.parametrize(
    ("content", "says"),
    [
        (b"\x00\x01\x02", "not valid TOML"),
        (b"\xff\xfe\x00", "not a UTF-8 text file"),
        (b"[" * 5000, "not valid TOML"),
        (b"x = " + b"[" * 100_000, "not valid TOML"),
        (b"", "title: nothing was given"),
        (b"PK\x03\x04", "not valid TOML"),
        (b'title = "x"\npart.length = "' + b"long " * 500 + b'"', "given 'long long"),
        (b'title = "x"\npart.shape = "' + b"long " * 500 + b'"', "given 'long long"),
    ],
)
def test_what_is_no_job_at_all_is_refused_in_one_line(tmp_path, content, says):
    path = tmp_path / "job.toml"
    path.write_bytes(content)
    told = CliRunner().invoke(app, ["check", str(path)])
    assert told.exit_code == 2
    assert isinstance(told.exception, SystemExit)
    assert says in told.stderr
    assert len(told.stderr.splitlines()) == 1
    assert len(told.stderr) < 500
