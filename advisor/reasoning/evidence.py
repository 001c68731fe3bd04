"""Turns job, shop and table rows into evidence: facts whose every value has an origin."""

import math
from collections.abc import Iterator, Mapping
from typing import Any

from advisor.job import Job, Table
from advisor.knowledge.rows import (
    Bagging,
    Consumable,
    Figure,
    Option,
    Release,
    Resin,
    Sealer,
    StockSize,
    ToolMaterial,
)
from advisor.knowledge.tables import Knowledge
from advisor.measures import Measure, in_sentence, sign
from advisor.reasoning import facts
from advisor.reasoning.engine import Evidence
from advisor.reasoning.expert import Fact
from advisor.reasoning.provenance import Ground, figure_shown, table_ground
from advisor.shop import Shop, StockItem

_NO_CLASS_C = -math.inf  # below the lowest class there is none

_SI = {
    "mm": "m",
    "um": "m",
    "mbar": "Pa",
    "bar": "Pa",
    "g/m**2": "kg/m**2",
    "m**3/h": "m**3/s",
    "g": "kg",
}


def _plain(value: Any) -> Any:
    if isinstance(value, Measure):
        return value.to(_SI[value.unit]) if value.unit in _SI else value.value
    return value


def _shown(value: Any) -> str:
    if isinstance(value, Measure):
        number, _, unit = value.given.partition(" ")
        return f"{number} {sign(unit or value.unit)}".strip()
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)


def _from_user(
    kind: type[Fact], table: Table, prefix: str, who: str, names: Mapping[str, str]
) -> Evidence:
    """Make a fact of one table of the user's file; `names` maps fact field to key."""
    values: dict[str, Any] = {}
    origins: dict[str, Ground] = {}
    for name, key in names.items():
        value = getattr(table, key)
        if value is None:
            continue
        given = key in table.model_fields_set
        path = f"{prefix}.{key}" if prefix else key
        values[name] = _plain(value)
        origins[name] = Ground(
            kind="job" if given and who == "job" else "shop" if given else "assumption",
            name=path if who == "job" else f"shop {path}",
            value=_shown(value),
        )
    return Evidence(kind, values, origins)


def _same(*names: str) -> dict[str, str]:
    return {name: name for name in names}


def job_evidence(job: Job, knowledge: Knowledge) -> list[Evidence]:
    """Return everything the job says, with its resin class and fibre looked up."""
    part = _from_user(
        facts.Part,
        job.part,
        "part",
        "job",
        {
            "length_m": "length",
            "width_m": "width",
            "depth_m": "depth",
            "shape": "shape",
            "smallest_radius_m": "smallest_radius",
            "service_c": "service_temperature",
            "draft_deg": "draft",
            "undercut": "undercut",
            "tool_side": "tool_side",
            "corner_deg": "corner",
            "tolerance_m": "tolerance",
            "tolerance_over_m": "tolerance_over",
        },
    )
    part = _local_undercuts(_over_the_length(part), job)
    return [
        _from_user(facts.JobFile, job, "", "job", _same("title")),
        _lying_flat(part) if job.part.shape == "flat" else part,
        _laminate(job, knowledge),
        _cure(job, knowledge),
        _from_user(
            facts.Finish,
            job.finish,
            "finish",
            "job",
            _same("target", "after", "both_faces") | {"roughness_m": "roughness"},
        ),
        _from_user(facts.Run, job.run, "run", "job", _same("parts", "per_week")),
        _from_user(facts.Budget, job.budget, "budget", "job", _same("total", "priority")),
        *_duties(job, knowledge),
    ]


def _duties(job: Job, knowledge: Knowledge) -> Iterator[Evidence]:
    """Yield the duty the job names, or those its title suggests where it names none."""
    named = job.part.duty
    for id, row in knowledge.duties.items():
        word = row.hint(job.title)
        if id != named and (named is not None or not word):
            continue
        told = {"id": id, "given": id == named, "word": word}
        field, value = ("part.duty", id) if id == named else ("title", job.title)
        because = Ground(kind="job", name=field, value=value)
        texts = {"name": row.name, "law": row.law, "approver": row.approver}
        yield Evidence(
            facts.Duty,
            told | texts,
            dict.fromkeys(told, because)
            | {
                name: _word(f"{name} of {id} work", text, row.source, knowledge)
                for name, text in texts.items()
            },
        )


def _over_the_length(part: Evidence) -> Evidence:
    """Take the whole length where no shorter one was given for the tolerance."""
    if "tolerance_over_m" in part.values or "length_m" not in part.values:
        return part
    taken = {"tolerance_over_m": part.values["length_m"]}
    origins = {"tolerance_over_m": part.origins["length_m"]}
    return Evidence(part.kind, {**part.values, **taken}, {**part.origins, **origins})


def _local_undercuts(part: Evidence, job: Job) -> Evidence:
    """Add up the hidden faces that are listed; a listed one is an undercut."""
    listed = job.part.local_undercut
    if not listed:
        return part
    known = {
        "undercut_places": "; ".join(one.place for one in listed),
        "undercut_pieces": float(len(listed)),
        "undercut_length_m": sum(one.length.to("m") for one in listed),
        "undercut_depth_m": max(one.depth.to("m") for one in listed),
    }
    told = "; ".join(
        f"{one.place}: {_shown(one.depth)} deep, {_shown(one.length)} long"
        for one in listed
    )
    because = dict.fromkeys(
        (*known, "undercut"), Ground(kind="job", name="part.local_undercut", value=told)
    )
    return Evidence(
        part.kind,
        {"undercut": True} | dict(part.values) | known,
        because | dict(part.origins),
    )


def _lying_flat(part: Evidence) -> Evidence:
    """Add what goes without saying of a flat part: no height, nothing to hold it."""
    known = {"depth_m": 0.0, "undercut": False, "tool_side": "female"}
    because = Ground(kind="job", name="part.shape", value="flat")
    return Evidence(
        part.kind,
        known | dict(part.values),
        dict.fromkeys(known, because) | dict(part.origins),
    )


def _laminate(job: Job, knowledge: Knowledge) -> Evidence:
    said = _from_user(
        facts.Laminate,
        job.laminate,
        "laminate",
        "job",
        _same(
            "plies",
            "fibre",
            "weave",
            "layup",
            "areal_weight",
            "resin_content",
            "fibre_volume",
        ),
    )
    fibre = knowledge.fibres[job.laminate.fibre]
    growth = fibre.laminate_expansion
    looked_up: dict[str, tuple[float, Figure, str]] = {
        "fibre_density": (fibre.density.si, fibre.density, "fibre density"),
        "expansion": (growth.si, growth, "expansion of the laminate"),
        "expansion_low": (growth.low_si, growth, "expansion of the laminate"),
        "expansion_high": (growth.high_si, growth, "expansion of the laminate"),
    }
    looked_up |= {
        name: (figure.si, figure, f"{name.replace('_', ' ')} of the laminate")
        for name, figure in (
            ("density", fibre.laminate_density),
            ("conductivity", fibre.laminate_conductivity),
            ("specific_heat", fibre.laminate_specific_heat),
        )
    }
    resin = knowledge.resins.get(job.cure.resin)
    if resin:
        looked_up["resin_density"] = (resin.density.si, resin.density, "resin density")
    return _with_rows(said, looked_up, job.laminate.fibre, knowledge)


def _cure(job: Job, knowledge: Knowledge) -> Evidence:
    said = _from_user(
        facts.Cure,
        job.cure,
        "cure",
        "job",
        {
            "resin": "resin",
            "temperature_c": "temperature",
            "hold_h": "hold",
            "ramp": "ramp",
            "pressure": "pressure",
            "autoclave_pressure_pa": "autoclave_pressure",
            "bladder_pressure_pa": "bladder_pressure",
            "free_standing_post_cure": "free_standing_post_cure",
            "first_cure_c": "first_cure",
        },
    )
    resin = knowledge.resins.get(job.cure.resin)
    if resin is None:
        return said
    low, high = resin.cure_low, resin.cure_high
    rows: dict[str, tuple[float, Figure, str]] = {
        "class_low_c": (low.low_si, low, "lowest cure"),
        "class_high_c": (high.high_si, high, "highest cure"),
        "listed_low_c": (low.si, low, "lowest cure"),
        "listed_high_c": (high.si, high, "highest cure"),
    }
    if resin.dwell_at_high:
        figure = resin.dwell_at_high
        rows["dwell_at_high_h"] = (figure.si, figure, "dwell at the highest cure")
        rows["shortest_h"] = (figure.low_si, figure, "dwell at the highest cure")
    if resin.glass_transition_rise:
        figure, name = resin.glass_transition_rise, "glass transition over the cure"
        rows["transition_rise"] = (figure.si, figure, name)
        rows["transition_rise_low"] = (figure.low_si, figure, name)
        rows["transition_rise_high"] = (figure.high_si, figure, name)
    if resin.glass_transition_post_cured:
        figure, name = resin.glass_transition_post_cured, "glass transition, post-cured"
        rows["transition_post_cured_c"] = (figure.si, figure, name)
        rows["transition_post_cured_low_c"] = (figure.low_si, figure, name)
    known = _with_rows(said, rows, job.cure.resin, knowledge)
    return Evidence(
        known.kind,
        {
            **known.values,
            "kinetics": list(resin.kinetics),
            **_listed(resin),
            **_sheet(job),
        },
        {
            **known.origins,
            **_listed_origins(job.cure.resin, knowledge),
            **_sheet_origins(job),
        },
    )


def _listed(resin: Resin) -> dict[str, list[float]]:
    cures = resin.cures()
    return {
        "listed_c": [at.si for at, _ in cures],
        "listed_h": [hold.si for _, hold in cures],
        "listed_least_h": [hold.low_si for _, hold in cures],
    }


def _listed_origins(id: str, knowledge: Knowledge) -> dict[str, Ground]:
    cures = knowledge.resins[id].cures()
    sources = tuple(sorted({key for cure in cures for one in cure for key in one.source}))
    ground = Ground(
        kind="table",
        name=f"cures listed, {id}",
        value="; ".join(
            f"{figure_shown(hold)} at {figure_shown(at)}" for at, hold in cures
        ),
        sources=sources,
        basis=knowledge.basis(sources),
    )
    return dict.fromkeys(("listed_c", "listed_h", "listed_least_h"), ground)


def _sheet(job: Job) -> dict[str, list[float]]:
    """Return the lines of the maker's cure table, coolest first."""
    lines = sorted((one.temperature.value, one.hold.value) for one in job.cure.sheet)
    return {"sheet_c": [c for c, _ in lines], "sheet_h": [h for _, h in lines]}


def _sheet_origins(job: Job) -> dict[str, Ground]:
    listed = "; ".join(
        f"{_shown(one.hold)} at {_shown(one.temperature)}" for one in job.cure.sheet
    )
    if not listed:
        return {}
    ground = Ground(kind="job", name="cure.sheet", value=listed)
    return {"sheet_c": ground, "sheet_h": ground}


def _with_rows(
    said: Evidence,
    rows: Mapping[str, tuple[float, Figure, str]],
    of: str,
    knowledge: Knowledge,
) -> Evidence:
    values = dict(said.values) | {name: row[0] for name, row in rows.items()}
    origins = dict(said.origins) | {
        name: table_ground(knowledge, f"{label}, {of}", figure)
        for name, (_, figure, label) in rows.items()
    }
    return Evidence(said.kind, values, origins)


def shop_evidence(shop: Shop) -> list[Evidence]:
    """Return everything the shop says of itself, one fact for each plate it owns."""
    groups = [
        ("making", shop.making, _same("machining", "printer", "metal_machining")),
        (
            "dust",
            shop.dust,
            _same("extraction", "wet_cutting", "respirators", "air_changes", "room_volume"),
        ),
        (
            "vacuum",
            shop.vacuum,
            {
                "pump": "pump",
                "vacuum_reading_pa": "reading",
                "pump_flow": "flow",
                "altitude_m": "altitude",
            },
        ),
        ("room", shop.room, {"humidity": "humidity", "scale_step_kg": "scale_step"}),
        ("people", shop.people, {"people": "count", "hoist": "hoist"}),
        ("rates", shop.rates, _same("jurisdiction", "currency")),
    ]
    values: dict[str, Any] = {}
    origins: dict[str, Ground] = {}
    for prefix, table, names in groups:
        part = _from_user(facts.Shop, table, prefix, "shop", names)
        values |= part.values
        origins |= part.origins
    oven = _from_user(
        facts.Oven,
        shop.oven,
        "oven",
        "shop",
        {
            "kind": "kind",
            "length_m": "length",
            "width_m": "width",
            "height_m": "height",
            "door_width_m": "door_width",
            "door_height_m": "door_height",
            "limit_c": "limit",
            "shelf_load_kg": "shelf_load",
            "over_temperature_trip": "over_temperature_trip",
            "fuel_fired": "fuel_fired",
        },
    )
    plates = [_plate(item) for item in shop.stock if item.kind == "plate"]
    return [Evidence(facts.Shop, values, origins), _with_door(oven), *plates]


def _with_door(oven: Evidence) -> Evidence:
    """Take a door as large as the inside where the shop gives the oven's size alone."""
    values, origins = dict(oven.values), dict(oven.origins)
    if not {"length_m", "width_m", "height_m"} <= set(values):
        return oven
    inside = {
        "door_width_m": max(values["length_m"], values["width_m"]),
        "door_height_m": values["height_m"],
    }
    for name, size in inside.items():
        if name not in values:
            values[name] = size
            key = name.removesuffix("_m")
            said = f"{1000 * size:g} mm, as the inside"
            origins[name] = Ground(kind="assumption", name=f"shop oven.{key}", value=said)
    return Evidence(oven.kind, values, origins)


def _plate(item: StockItem) -> Evidence:
    names = {"material": "material", "length_m": "length", "width_m": "width"}
    return _from_user(facts.Plate, item, "stock", "shop", names)


# Words that say what an option is, not how it behaves: they claim nothing.
_DEFINES = frozenset(
    {
        "family",
        "form",
        "is_film",
        "film_only",
        "pressure",
        "all_round",
        "both_faces",
        "bladder",
    }
)

# Fields of a fact that are read out of a column of another name.
_COLUMNS = dict.fromkeys(
    ("one_piece", "splits", "breaks_out", "washes_out"), "constructions"
) | dict.fromkeys(("epoxy", "styrene", "isocyanate"), "contains")


def _option(
    kind: type[Fact],
    id: str,
    row: Option,
    words: Mapping[str, Any],
    figures: Mapping[str, float | None],
    knowledge: Knowledge,
    considered_for: str,
) -> Evidence:
    """Make the fact of one option: `words` as they stand, `figures` by the row's field.

    Its name rests on the job it is considered for, so that whatever is said of an option
    leads back to the user's own file.
    """
    values: dict[str, Any] = {"id": id, **words, **figures}
    origins = {
        name: _word(f"{name.replace('_', ' ')}, {id}", word, _cited(row, name), knowledge)
        for name, word in words.items()
        if name not in {"name", "layers", "on_core", "below"}
    }
    origins["name"] = Ground(
        kind="job", name=f"title, {id} considered for", value=considered_for
    )
    for name in figures:
        column = next(stem for stem in _stems(name) if stem in type(row).model_fields)
        figure = getattr(row, column)
        if figure is not None:
            label = f"{column.replace('_', ' ')}, {id}"
            origins[name] = table_ground(knowledge, label, figure)
    return Evidence(kind, values, origins)


def _cited(row: Option, name: str) -> tuple[str, ...]:
    """Return what a word of an option rests on: nothing, if it only defines the option."""
    if name in _DEFINES:
        return ()
    return row.word_sources.get(_COLUMNS.get(name, name), ("common-practice",))


def _word(name: str, word: Any, sources: tuple[str, ...], knowledge: Knowledge) -> Ground:
    return Ground(
        kind="table",
        name=name,
        value=_shown(word),
        sources=sources,
        basis=knowledge.basis(sources) if sources else None,
    )


def _stems(name: str) -> list[str]:
    """Return the table columns a fact's field may come from: its name less unit and end."""
    stems = [name]
    for ending in ("_c", "_pa", "_m", "_h_m2", "_j_m2", "_low", "_high"):
        stems += [
            stem.removesuffix(ending) for stem in list(stems) if stem.endswith(ending)
        ]
    return stems


def chosen(option: Evidence, because: Ground) -> Evidence:
    """Return an option's fact once it is in the plan: its name rests on that decision."""
    return Evidence(option.kind, option.values, {**option.origins, "name": because})


def _value(figure: Figure | None) -> float | None:
    return None if figure is None else figure.si


def _span(name: str, unit: str, figure: Figure | None) -> dict[str, float]:
    """Return a figure with both ends of its range, by the fields of a fact."""
    if figure is None:
        return {}
    return {
        f"{name}{unit}": figure.si,
        f"{name}_low{unit}": figure.low_si,
        f"{name}_high{unit}": figure.high_si,
    }


def tool_evidence(
    id: str, row: ToolMaterial, owned: bool, knowledge: Knowledge, considered_for: str
) -> Evidence:
    """Return one tool material as a fact."""
    words = {
        name: getattr(row, name)
        for name in (
            "family",
            "form",
            "dust",
            "tightness",
            "needs_pattern",
            "drying",
            "joint",
            "combustible_dust",
            "porous",
            "soft",
            "brittle",
        )
    }
    words |= {
        "name": in_sentence(row.name),
        "one_piece": "one-piece" in row.constructions,
        "splits": "split" in row.constructions,
        "breaks_out": "break-out" in row.constructions,
        "washes_out": "wash-out" in row.constructions,
        "owned": owned,
        "standard_sizes": knowledge.stock_size(id) is not None,
    }
    figures = {
        "density": row.density.si,
        "expansion": row.expansion.si,
        "expansion_low": row.expansion.low_si,
        "expansion_high": row.expansion.high_si,
        "service_limit_c": row.service_limit.si,
        "short_limit_c": row.short_limit.si,
        "compressive_strength_pa": row.compressive_strength.si,
        **_span("tensile_strength", "_pa", row.tensile_strength),
        **_span("modulus", "_pa", row.modulus),
        **_span("fracture_energy", "_j_m2", row.fracture_energy),
        **_span("conductivity", "", row.conductivity),
        "specific_heat": row.specific_heat.si,
        **_span("permeability", "", row.permeability),
        "pore_size_m": _value(row.pore_size),
        "cycles": row.cycles.si,
    }
    known = _option(facts.Tool, id, row, words, figures, knowledge, considered_for)
    stock = Ground(kind="shop", name=f"shop stock, {id}", value=_shown(owned))
    return Evidence(known.kind, known.values, {**known.origins, "owned": stock})


def grade_evidence(bag: Bagging, knowledge: Knowledge) -> Iterator[Evidence]:
    """Yield the classes of each material of a bag; of equal ones, the first."""
    for role in sorted(bag.materials):
        classes: dict[float, tuple[str, Consumable]] = {}
        for id, row in knowledge.consumables.items():
            if row.role == role:
                classes.setdefault(row.limit.si, (id, row))
        below = _NO_CLASS_C
        for stands, (id, row) in sorted(classes.items()):
            ground = table_ground(knowledge, f"limit, {id}", row.limit)
            values = {
                "id": id,
                "name": in_sentence(row.name),
                "role": role,
                "limit_c": stands,
                "next_lower_c": below,
            }
            yield Evidence(facts.Grade, values, dict.fromkeys(values, ground))
            below = stands


def shelf_evidence(bag: Bagging, knowledge: Knowledge) -> Evidence:
    """Return the classes of all that lies in a bag as one fact."""
    rows = {
        id: row for id, row in knowledge.consumables.items() if row.role in bag.materials
    }
    sources = sorted({key for row in rows.values() for key in row.limit.source})
    ground = Ground(
        kind="table",
        name="limits of the bagging materials",
        value=", ".join(rows),
        sources=tuple(sources),
        basis=knowledge.basis(tuple(sources)),
    )
    values = {
        "roles": [row.role for row in rows.values()],
        "limits_c": [row.limit.si for row in rows.values()],
    }
    return Evidence(facts.Shelf, values, dict.fromkeys(values, ground))


def pattern_evidence(tool: ToolMaterial, knowledge: Knowledge) -> Iterator[Evidence]:
    """Yield what the pattern of a tool is cut from, if it needs one and one stands."""
    heat, id = tool.heat_on_pattern, knowledge.pattern_for(tool)
    if heat is None or id is None:
        return
    row = knowledge.tool_materials[id]
    words = {"id": id, "name": row.pattern, "dust": row.dust}
    figures = {
        "density": (row.density.si, f"density, {id}", row.density),
        "expansion": (row.expansion.si, f"expansion, {id}", row.expansion),
        "limit_c": (row.service_limit.si, f"service limit, {id}", row.service_limit),
        "heat_c": (heat.si, "heat on the pattern", heat),
    }
    used = _word(f"pattern, {id}", row.pattern, _cited(row, "pattern"), knowledge)
    yield Evidence(
        facts.Pattern,
        words | {name: value for name, (value, _, _) in figures.items()},
        dict.fromkeys(words, used)
        | {
            name: table_ground(knowledge, label, figure)
            for name, (_, label, figure) in figures.items()
        },
    )


def stock_piece_evidence(id: str, row: StockSize, knowledge: Knowledge) -> Evidence:
    """Return the piece that a tool material is sold in as a fact."""
    sizes = {
        "length_m": row.length,
        "width_m": row.width,
        "thickness_m": row.thickness,
        "joint_m": row.joint,
    }
    words = {"material": id, "piece": row.piece, "turning": row.turning}
    return Evidence(
        facts.StockPiece,
        words | {name: figure.si for name, figure in sizes.items()},
        {
            name: table_ground(
                knowledge, f"{name.removesuffix('_m')} of a {row.piece}", figure
            )
            for name, figure in sizes.items()
        },
    )


def sealing_evidence(
    id: str, row: Sealer, knowledge: Knowledge, considered_for: str
) -> Evidence:
    """Return one way to seal as a fact."""
    words: dict[str, Any] = {
        "name": in_sentence(row.name),
        "layers": list(row.layers),
        "vacuum": row.vacuum,
        "polished": row.polished,
        "first_grit": float(row.first_grit or 0),
        "epoxy": "epoxy" in row.contains,
        "styrene": "styrene" in row.contains,
        "solvent": "solvent" in row.contains,
        "isocyanate": "isocyanate" in row.contains,
        "film_only": row.film_only,
    }
    if row.skin_of is not None:
        words["skin_of"] = row.skin_of
    figures = {
        "limit_as_painted_c": row.limit_as_painted.si,
        "limit_baked_c": row.limit_baked.si,
        "fills_pores_to_m": row.fills_pores_to.si,
        "build_m": row.build.si,
        "build_low_m": row.build.low_si,
        "effort_h_m2": row.effort.si,
        "parts_on_porous": row.parts_on_porous.si,
        **_span("skin_modulus", "_pa", row.skin_modulus),
        **_span("skin_expansion", "", row.skin_expansion),
        "skin_plies": _value(row.skin_plies),
        "material_use": _value(row.material_use),
    }
    return _option(facts.Sealing, id, row, words, figures, knowledge, considered_for)


def release_evidence(
    id: str, row: Release, knowledge: Knowledge, considered_for: str
) -> Evidence:
    """Return one release as a fact."""
    words: dict[str, Any] = {
        "name": in_sentence(row.name),
        "surface": row.surface,
        "curvature": list(row.curvature),
        "poor_on": list(row.poor_on),
        "finish": row.finish,
        "transfers": row.transfers,
        "fluoropolymer": row.fluoropolymer,
        "solvent": row.solvent,
        "is_film": row.is_film,
    }
    figures = {
        "limit_c": row.limit.si,
        "pulls": row.pulls.si,
        "film_thickness_m": _value(row.film_thickness),
    }
    for name in ("modulus_cool", "modulus_warm"):
        modulus: Figure | None = getattr(row, name)
        if modulus is not None:
            figures |= {
                f"{name}_pa": modulus.si,
                f"{name}_low_pa": modulus.low_si,
                f"{name}_high_pa": modulus.high_si,
            }
    return _option(facts.Release, id, row, words, figures, knowledge, considered_for)


def bagging_evidence(
    id: str, row: Bagging, knowledge: Knowledge, considered_for: str
) -> Evidence:
    """Return one way to bag as a fact."""
    words: dict[str, Any] = {
        "name": in_sentence(row.name),
        "pressure": row.pressure,
        "needs_tight_tool": row.needs_tight_tool,
        "all_round": row.all_round,
        "below": list(row.below),
        "both_faces": row.both_faces,
        "inside": row.inside,
        "bladder": row.bladder,
        "layers": list(row.layers),
        "on_core": list(row.on_core or row.layers),
    }
    return _option(
        facts.Bagging,
        id,
        row,
        words,
        {"margin_m": row.margin.si, "pulls": _value(row.pulls)},
        knowledge,
        considered_for,
    )
