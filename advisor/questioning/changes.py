"""What would change a plan, in words: the nearest flips of its route and of each option."""

from collections.abc import Iterable, Iterator, Mapping
from typing import Any, Literal

from advisor.measures import in_sentence, in_styles, phrase
from advisor.plan import ChangeRecord
from advisor.questioning.fields import field_at, value_at
from advisor.questioning.flips import Flip, Search

# How a change of an input is told; the others go by their name in the file.
_WORDS = {
    "cure.temperature": "a cure at {new}{cured} instead of {old}",
    "cure.hold": "a dwell of {new} instead of {old}",
    "cure.pressure": "{new} pressure instead of {old}",
    "cure.free_standing_post_cure": "a low first cure and a post-cure off the tool",
    "run.parts": "a run of {new} instead of {old}",
    "run.per_week": "{new} a week instead of {old}",
    "budget.total": "a budget of {new} instead of {old}",
    "budget.priority": "{new} deciding instead of {old}",
    "finish.target": "a {new} face instead of {old}",
    "finish.both_faces": "one moulded face instead of two",
    "part.tolerance": "a tolerance of {new} instead of {old}",
    "part.tool_side": "a {new} tool instead of a {old} one",
    "part.draft": "a draft of {new} instead of {old}",
    "part.smallest_radius": "no radius under {new} instead of {old}",
    "part.length": "a part {new} long instead of {old}",
    "part.width": "a part {new} wide instead of {old}",
    "part.depth": "a part {new} deep instead of {old}",
    "shop.making.printer": "a large printer in the shop",
    "shop.making.metal_machining": "metal that the shop machines or buys machined",
    "shop.oven.limit": "an oven to {new} instead of {old}",
    "shop.people.hoist": "a hoist",
}


def changes(search: Search) -> Iterator[ChangeRecord]:
    """Yield the nearest flips: of the route first, then of what is ruled out."""
    base = search.base
    if base.questions or base.refusals:
        return
    for flip in search.unseats():
        winner = flip.decision.winner
        then = "no route stands"
        if winner is not None:
            then = f"{in_sentence(winner.pieces.tool.name)} leads"
        yield _record("route", (), f"With {_moves(search, flip)}, {then}.", flip)
    yield from _come_back(search)


def back_again(search: Search, tool: str) -> str:
    """Say what brings one tool material back, as a sentence."""
    flip = search.brings_back(tool)
    if flip is None:
        return "No change of one or two inputs that can be chosen brings it back."
    return f"It comes back with {_moves(search, flip)}."


def _come_back(search: Search) -> Iterator[ChangeRecord]:
    """Yield what brings ruled-out tool materials back, the nearest first.

    Those that one and the same change brings back stand together.
    """
    together: dict[str, list[tuple[str, Flip]]] = {}
    lost: list[str] = []
    for id in search.base.tool_facts:
        if any(one.stands for one in search.base.routes_of(id)):
            continue
        flip = search.brings_back(id)
        if flip is None:
            lost.append(id)
        else:
            together.setdefault(_moves(search, flip), []).append((id, flip))
    for words, found in sorted(together.items(), key=lambda row: row[1][0][1].distance):
        ids = tuple(id for id, _ in found)
        back = "comes back" if len(ids) == 1 else "come back"
        yield _record(
            "option", ids, f"{_names(search, ids)} {back} with {words}.", found[0][1]
        )
    if lost:
        text = "No change of one or two inputs that can be chosen brings back {names}."
        names = in_sentence(_names(search, lost))
        yield ChangeRecord(
            about="option", options=tuple(lost), text=text.format(names=names)
        )


def _record(
    about: Literal["route", "option"], options: tuple[str, ...], text: str, flip: Flip
) -> ChangeRecord:
    return ChangeRecord(
        about=about,
        options=options,
        text=text[:1].upper() + text[1:],
        moves={
            one.field: "" if one.value is None else str(one.value) for one in flip.moves
        },
    )


def _names(search: Search, ids: Iterable[str]) -> str:
    rows = search.consultation.knowledge.tool_materials
    first, *others = (rows[id].name for id in ids)
    return ", ".join((first, *map(in_sentence, others)))


def _moves(search: Search, flip: Flip) -> str:
    """Tell the moves of a flip, with what goes with a new cure temperature."""
    values = {one.field: one.value for one in flip.moves}
    told = []
    for path in flip.chosen:
        old, new = value_at(search.job, search.shop, path), values[path]
        field = field_at(path)
        if field and field.kind == "measure":
            new = float(str(new).split()[0])
        words = _WORDS.get(path, f"{path} {{new}} instead of {{old}}")
        shown = {"new": _shown(search, path, new), "old": _shown(search, path, old)}
        told.append(words.format(**shown, cured=_cured(values)))
    return " and ".join(told)


def _cured(values: Mapping[str, Any]) -> str:
    """Tell the resin class and the hold that go with another cure temperature."""
    resin = f" in resin class {values['cure.resin']}" if "cure.resin" in values else ""
    hold = f" for {values['cure.hold']}" if "cure.hold" in values else ""
    return f"{hold}{resin}"


def _shown(search: Search, path: str, value: Any) -> str:
    """Return the value of an input as it is printed."""
    field = field_at(path)
    if path == "budget.total":
        return phrase("{x:money} {of}", x=value, of=search.shop.rates.currency)
    if path == "run.parts":
        return phrase("{x:parts}", x=value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    if field and field.kind == "measure":
        return in_styles(value, field.unit)
    return str(value).replace("-", " ")
