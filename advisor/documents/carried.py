"""What a PDF of the advisor carries: the files it was made from, and the plan as data."""

from collections.abc import Mapping
from io import BytesIO
from pathlib import Path

from advisor.documents.pdf import Attached
from advisor.reading import InputError

JOB, SHOP, PLAN = "job.toml", "shop.toml", "plan.json"
_ABOUT = {
    JOB: "The job file that the plan was made from",
    SHOP: "The shop file that the plan was made from",
}


def sources(job: bytes, shop: bytes | None) -> list[Attached]:
    """Return the user's files as a PDF carries them, whatever they were called."""
    given = {JOB: job, SHOP: shop}
    return [
        Attached(name, content, _ABOUT[name], source=True)
        for name, content in given.items()
        if content is not None
    ]


def carried(path: Path) -> Mapping[str, bytes]:
    """Return the files that a PDF carries, by name.

    Raises
    ------
    InputError
        If there is no such file, it is no PDF that can be read, or it carries no job and
        no plan.
    """
    import pypdf

    try:
        content = path.read_bytes()
    except FileNotFoundError:
        raise InputError([f"{path}: there is no such file"]) from None
    except OSError as error:
        raise InputError([f"{path}: cannot be read ({error.strerror})"]) from None
    wanted = "a PDF that this program wrote"
    if not content.startswith(b"%PDF"):
        raise InputError([f"{path.name}: this is no PDF; accepted {wanted}"])
    try:
        attached = pypdf.PdfReader(BytesIO(content)).attachments
        found = {name: files[0] for name, files in attached.items() if files}
    except Exception as error:  # a broken file may raise anything
        raise InputError([f"{path.name}: cannot be read as a PDF ({error})"]) from None
    if not {JOB, PLAN} <= set(found):
        raise InputError([f"{path.name}: carries no job and no plan; accepted {wanted}"])
    return found
