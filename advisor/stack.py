"""The bag stack of a route: its layers in order, the tool among them."""

from collections.abc import Iterator

from advisor.costing import Pieces
from advisor.job import Job
from advisor.knowledge.rows import Layer
from advisor.knowledge.tables import Knowledge
from advisor.plan import LayerRecord


def bag_stack(pieces: Pieces, job: Job, knowledge: Knowledge) -> tuple[LayerRecord, ...]:
    """Return the layers of a route's bag, as they are laid.

    Peel ply is among them only where something is bonded to the bag side; what lies under
    the tool is not where the plies go all round it.
    """
    return tuple(_layers(pieces, job, knowledge))


def layer_of(line: str, knowledge: Knowledge) -> str:
    """Return which row of the table of layers a line of a bag belongs to.

    Raises
    ------
    KeyError
        If the table has no row for it.
    """
    found = {
        start: id
        for id, row in knowledge.layers.items()
        for start in row.begins
        if line.startswith(start)
    }
    if not found:
        raise KeyError(line)
    return found[max(found, key=len)]


def _layers(pieces: Pieces, job: Job, knowledge: Knowledge) -> Iterator[LayerRecord]:
    on_a_core = job.part.shape == "closed" and job.part.tool_side == "male"
    below = () if on_a_core else pieces.bagging.below
    lines = [(layer_of(line, knowledge), line) for line in below]
    lines = [one for one in lines if one[0] != "tool"]  # the bag's own line says more
    laid = (on_a_core and pieces.bagging.on_core) or pieces.bagging.layers
    lines += [(layer_of(line, knowledge), line) for line in laid]
    for id, line in lines:
        row = knowledge.layers[id]
        if id == "peel-ply" and job.finish.after != "bond":
            continue
        if id != "tool":
            yield _record(id, row, row.name, line)
            continue
        yield _record(id, row, pieces.tool.name, line, pieces.tool.form == "laminate")
        if pieces.sealing_id != "none":
            yield _record("seal", knowledge.layers["seal"], pieces.sealing.name)
        yield _record("release", knowledge.layers["release"], pieces.release.name)


def _record(
    id: str, row: Layer, name: str, text: str = "", shell: bool = False
) -> LayerRecord:
    return LayerRecord(
        id=id, name=name, text=text, does=row.does, sources=row.source, shell=shell
    )
