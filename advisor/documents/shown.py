"""The pictures of a plan in the order of a page, each with its number and caption."""

from collections.abc import Iterator
from dataclasses import dataclass

from markupsafe import Markup

from advisor.documents.citations import Citations, numbered
from advisor.documents.pictures.blank import blank
from advisor.documents.pictures.cure_chart import cure_chart
from advisor.documents.pictures.section import section
from advisor.documents.pictures.side_view import side_view
from advisor.documents.pictures.strips import film_strips
from advisor.documents.pictures.svg import Picture
from advisor.plan import LayerRecord, Plan
from advisor.reasoning.provenance import Conclusion

# The steps at which a picture is looked at, by the rule that made the step.
_LOOKED_AT = {
    "stack": ("STEP-610", "STEP-612", "STEP-613", "STEP-618"),
    "side": ("STEP-525",),
    "cure": ("STEP-720", "STEP-730", "STEP-740"),
    "blank": ("STEP-116", "STEP-123"),
    "strips": ("STEP-445",),
}


@dataclass(frozen=True)
class LayerRow:
    """A layer of the stack: how it is laid, and what it does."""

    n: int
    name: str
    text: str
    does: str
    sources: tuple[int, ...]


@dataclass(frozen=True)
class Shown:
    """A picture as it stands on the page, with the rule that found what it shows."""

    n: int
    id: str
    svg: Markup
    caption: str
    rule: str
    sources: tuple[int, ...]


def pictures_of(plan: Plan, refs: Citations) -> tuple[Shown, ...]:
    """Return the pictures of a plan; none where it has no route."""
    if plan.route is None:
        return ()
    return tuple(
        _shown(n, id, one, plan, refs) for n, (id, one) in enumerate(_drawn(plan), 1)
    )


def _shown(n: int, id: str, one: Picture, plan: Plan, refs: Citations) -> Shown:
    said = {
        "side": plan.thermocouples,
        "blank": plan.blank,
        "strips": plan.strips,
        "cure": plan.course,
    }.get(id)
    if said is None:
        return Shown(n, id, one.svg, one.caption, "", ())
    sources = numbered(_of_the_method(said.conclusion), refs)
    return Shown(n, id, one.svg, one.caption, said.conclusion.rule, sources)


def _of_the_method(said: Conclusion) -> tuple[str, ...]:
    """Return what a conclusion cites beside the sources of its figures; else those too."""
    of_figures = {source for ground in said.grounds for source in ground.sources}
    own = tuple(one for one in said.sources if one not in of_figures)
    return own or said.sources


def layer_rows(plan: Plan, refs: Citations) -> tuple[LayerRow, ...]:
    """Return the layers of a plan's stack by the numbers that the section shows."""
    return tuple(
        LayerRow(n, one.name, _laid(one), one.does, numbered(one.sources, refs))
        for n, one in enumerate(plan.stack, 1)
    )


def looked_at(rule: str) -> str:
    """Return which picture is looked at in a rule's step; nothing where none is."""
    return next((id for id, rules in _LOOKED_AT.items() if rule in rules), "")


def _drawn(plan: Plan) -> Iterator[tuple[str, Picture]]:
    yield "stack", section(plan)
    yield "side", side_view(plan)
    for id, draw in (("blank", blank), ("strips", film_strips), ("cure", cure_chart)):
        picture = draw(plan)
        if picture is not None:
            yield id, picture


def _laid(layer: LayerRecord) -> str:
    """Return how a layer is laid, without its name where the words begin with it."""
    text = layer.text
    if text.lower().startswith(layer.name.lower()):
        text = text[len(layer.name) :]
    if layer.id == "tool":
        text = text.removeprefix("tool")
    return text.lstrip(",: ")
