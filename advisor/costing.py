"""What a route costs: the calculations fed with the job, the shop and the price table."""

import math
from dataclasses import dataclass, replace
from functools import cached_property
from typing import Literal

from advisor.calculations import blanks, consumables, cost, labour, tape, volumes
from advisor.job import Job
from advisor.knowledge.rows import Bagging, Construction, Release, Sealer, ToolMaterial
from advisor.knowledge.tables import Knowledge
from advisor.plan import CostLine
from advisor.shop import Shop

End = Literal["low", "value", "high"]
Key = tuple[object, ...]
_LITRES = 1000  # in a cubic metre: stock is priced and cut by the litre
_DAY_H = 24  # by the clock
_PATTERN_SEALER = "epoxy-fairing"  # a pattern is faired, whatever its tool is sealed by
_OTHER_END: dict[End, End] = {"low": "high", "value": "value", "high": "low"}


@dataclass(frozen=True)
class Geometry:
    """Sizes that follow from the part and the margin around it, in m, m² and m³."""

    shape: volumes.Shape
    side: volumes.Side
    length_m: float
    width_m: float
    depth_m: float
    margin_m: float
    base_m: float

    @classmethod
    def of(cls, job: Job, margin_m: float, base_m: float) -> "Geometry":
        """Read the part's size; a part called flat has no depth of its own."""
        part = job.part
        if part.length is None or part.width is None:
            raise ValueError("the part's length and width are deciding facts: ask first")
        return cls(
            shape=part.shape or "flat",
            side=part.tool_side or "female",
            length_m=part.length.to("m"),
            width_m=part.width.to("m"),
            depth_m=part.depth.to("m") if part.depth and part.shape != "flat" else 0.0,
            margin_m=margin_m,
            base_m=base_m,
        )

    @cached_property
    def face_m2(self) -> float:
        """Developed area of the part's moulded face."""
        return volumes.face_area_m2(self.shape, self.length_m, self.width_m, self.depth_m)

    @cached_property
    def sealed_m2(self) -> float:
        """Moulded face and the land around it."""
        return volumes.sealed_area_m2(
            self.shape, self.length_m, self.width_m, self.depth_m, self.margin_m
        )

    @cached_property
    def blank(self) -> volumes.BlankSize:
        """Outer size of a block to cut the tool from."""
        return volumes.tool_blank(
            self.shape,
            self.side,
            self.length_m,
            self.width_m,
            self.depth_m,
            self.margin_m,
            self.base_m,
        )

    @cached_property
    def removed_m3(self) -> float:
        """Volume cut away."""
        return volumes.removed_volume_m3(
            self.shape, self.side, self.length_m, self.width_m, self.depth_m, self.margin_m
        )

    def pockets_m3(self, wall_m: float) -> float:
        """Volume cut from the back to leave a wall."""
        return volumes.pocket_volume_m3(
            self.shape,
            self.side,
            self.length_m,
            self.width_m,
            self.depth_m,
            self.margin_m,
            self.base_m,
            wall_m,
        )

    @property
    def body_m3(self) -> float:
        """Volume that stays."""
        return max(self.blank.volume_m3 - self.removed_m3, 0.0)

    @property
    def counterpart(self) -> "Geometry":
        """The half that closes on this one: male on a female, female on a male."""
        return replace(self, side="male" if self.side == "female" else "female")

    def bag(
        self, all_round: bool, bodies: int, around_m: float
    ) -> consumables.BagMaterials:
        """Return what bags one part; `bodies` counts the tool bodies under the bag."""
        height = self.depth_m + self.base_m * bodies
        if all_round:
            return consumables.envelope_bag_materials(
                self.blank.length_m,
                self.blank.width_m,
                height,
                around_m,
                self.face_m2,
                ports=2,
            )
        return consumables.surface_bag_materials(
            self.length_m, self.width_m, height, self.margin_m, self.face_m2, ports=2
        )


@dataclass(frozen=True)
class Pieces:
    """The four rows a route is made of, and how the tool is built."""

    tool_id: str
    tool: ToolMaterial
    sealing_id: str
    sealing: Sealer
    release_id: str
    release: Release
    bagging_id: str
    bagging: Bagging
    construction: Construction
    owned: bool
    parts_per_tool: int


@dataclass(frozen=True)
class RouteCost:
    """Money and time of a route over the run."""

    tools: int
    tool_cost: float
    part_cost: float
    total: float
    low: float
    high: float
    lines: tuple[CostLine, ...]
    lead_time_h: float

    def at(self, parts: int, parts_per_tool: int) -> float:
        """Return cost per part for another run length."""
        tools = cost.tools_needed(parts, parts_per_tool)
        return cost.cost_per_part(self.tool_cost, tools, self.part_cost, parts)


def _tool_of(pieces: Pieces) -> Key:
    """Return what the price of a tool depends on: its release is no part of it."""
    return (
        pieces.tool_id,
        pieces.sealing_id,
        pieces.bagging_id,
        pieces.construction,
        pieces.owned,
    )


class Pricer:
    """Prices routes for one job in one shop.

    `known` keeps what was worked out; it may be shared by jobs of the same part and
    laminate in the same shop.
    """

    def __init__(
        self,
        job: Job,
        shop: Shop,
        knowledge: Knowledge,
        known: "dict[Key, list[CostLine]] | None" = None,
    ):
        self.job = job
        self.shop = shop
        self.knowledge = knowledge
        self.plies = job.laminate.plies
        self.parts = job.run.parts or 1
        self._bought: dict[tuple[str, volumes.BlankSize], float] = {}
        self._geometries: dict[tuple[float, float], Geometry] = {}
        self._counterparts: dict[Geometry, Geometry] = {}
        self._hours: dict[Key, float] = {}
        self._lines: dict[Key, list[CostLine]] = {} if known is None else known

    def price(self, pieces: Pieces) -> RouteCost:
        """Return what a route costs, with the span that prices and effort leave open."""
        tools = cost.tools_needed(self.parts, pieces.parts_per_tool)
        ends: tuple[End, ...] = ("low", "value", "high")
        priced = {
            end: (self._lines_of_tool(pieces, end), self._lines_of_part(pieces, end))
            for end in ends
        }
        sums = {
            end: (sum(x.amount for x in tool), sum(x.amount for x in part))
            for end, (tool, part) in priced.items()
        }
        totals = {
            end: cost.run_total(tool_cost, tools, part_cost, self.parts)
            for end, (tool_cost, part_cost) in sums.items()
        }
        tool_lines, part_lines = priced["value"]
        return RouteCost(
            tools=tools,
            tool_cost=sums["value"][0],
            part_cost=sums["value"][1],
            total=totals["value"],
            low=totals["low"],
            high=totals["high"],
            lines=tuple(line for line in (*tool_lines, *part_lines) if line.amount > 0),
            lead_time_h=self._lead_time_h(pieces),
        )

    def cheaper_from(
        self, one: "Pieces", dearer: RouteCost, other: "Pieces", cheaper: RouteCost
    ) -> int | None:
        """Return the run from which on the dearer of two routes costs no more."""
        found = cost.break_even_parts(
            cost.Route(0.0, cheaper.tool_cost, other.parts_per_tool, cheaper.part_cost),
            cost.Route(0.0, dearer.tool_cost, one.parts_per_tool, dearer.part_cost),
            int(self._limit("break_even_horizon")),
        )
        return found.lasting

    def geometry(self, pieces: Pieces) -> Geometry:
        """Return the sizes of a route's tool."""
        return self.geometry_for(pieces.tool, pieces.bagging.margin.si)

    def geometry_for(self, tool: ToolMaterial, margin_m: float) -> Geometry:
        """Return the sizes of a tool of this material with this margin around the part."""
        row = {"laminate": "laminate_tool_thickness", "plate": "plate_thickness"}
        base = self._limit(row.get(tool.form, "base_thickness"))
        key = (margin_m, base)
        if key not in self._geometries:
            self._geometries[key] = Geometry.of(self.job, margin_m, base)
        return self._geometries[key]

    def _halves(self, pieces: Pieces) -> list[tuple[Pieces, Geometry]]:
        """Return the tool, or both halves of one that closes on the part.

        Each half is made by itself; the one that closes on a tool in hand is made new.
        """
        geometry = self.geometry(pieces)
        if not pieces.bagging.both_faces:
            return [(pieces, geometry)]
        if geometry not in self._counterparts:
            self._counterparts[geometry] = geometry.counterpart
        other = self._counterparts[geometry]
        return [(pieces, geometry), (replace(pieces, owned=False), other)]

    # ------------------------------------------------------------------ looking up

    def _limit(self, name: str, end: End = "value") -> float:
        figure = self.knowledge.limits[name].figure
        return {"low": figure.low_si, "value": figure.si, "high": figure.high_si}[end]

    def _price(self, row: str, end: End) -> float:
        own = self.shop.prices.get(row)
        if own is not None:
            return own
        figure = self.knowledge.prices[row].price
        value = {"low": figure.low_si, "value": figure.si, "high": figure.high_si}[end]
        return value * self.shop.rates.planning_factor

    def _rate(self, end: End) -> float:
        return self.shop.rates.labour or self._price("labour-rate", end)

    # ------------------------------------------------------------------ the tool

    def tool_hours(self, pieces: Pieces, end: End = "value") -> float:
        """Return hands-on hours for one tool, sealing and proving included."""
        key = (*_tool_of(pieces), end)
        if key not in self._hours:
            halves = self._halves(pieces)
            self._hours[key] = sum(self._half_hours(*half, end) for half in halves)
        return self._hours[key]

    def _half_hours(self, pieces: Pieces, geometry: Geometry, end: End) -> float:
        """Return hands-on hours for a tool in one piece, or for one half of a pair."""
        sealing = self._end(pieces.sealing.effort, end) * geometry.sealed_m2
        proving = self._limit("proving_effort", end)
        if pieces.owned:  # a tool in hand is already sealed; a bare plate is only cleaned
            return proving + (sealing if pieces.sealing_id == "none" else 0.0)
        hours = self._limit("setting_up", end) + sealing + proving
        if pieces.bagging.pressure == "bladder":
            hours += self._limit("bladder_mould_effort", end)
        if pieces.tool.form == "laminate":
            hours += self._limit("tool_layup_effort", end) * geometry.sealed_m2
        if pieces.construction == "loose-piece":
            count = len(self.job.part.local_undercut)
            hours += self._limit("loose_piece_effort", end) * count
        if pieces.tool.form == "printed":
            return hours + self._limit("finishing_effort", end) * geometry.sealed_m2
        return hours + self._shaping_hours(pieces, geometry, end)

    def _pattern_of(self, tool: ToolMaterial) -> str:
        """Return the id of what a tool's pattern is cut from."""
        return self.knowledge.pattern_for(tool) or "mdf"

    def _pattern(self, of: str, side: volumes.Side) -> Geometry:
        """Return the sizes of a pattern: male for a female tool and the other way round."""
        row = self.knowledge.tool_materials[of]
        tool = self.geometry_for(row, self._limit("laminate_tool_margin"))
        return replace(tool, side="male" if side == "female" else "female")

    def _shaping_hours(self, pieces: Pieces, geometry: Geometry, end: End) -> float:
        """Hours to cut and finish the tool, or the pattern it is made on."""
        shaped, sealing = pieces.tool, 0.0
        if shaped.needs_pattern:
            of = self._pattern_of(shaped)
            shaped = self.knowledge.tool_materials[of]
            geometry = self._pattern(of, geometry.side)
            sealer = self.knowledge.sealers[_PATTERN_SEALER]
            sealing = self._end(sealer.effort, end) * geometry.sealed_m2
        slower = {
            "hand": self._limit("hand_cutting_factor", end),
            "hand-router": self._limit("hand_router_factor", end),
            "cnc-router": 1.0,
        }[self.shop.making.machining]
        if shaped.dust == "metal":
            slower = 1.0  # metal is cut on a machine, in the shop or outside
        cut_m3 = geometry.removed_m3
        if shaped.form == "pocketed":
            wall_m = self._limit("metal_wall", _OTHER_END[end])  # thin: more to cut
            cut_m3 += geometry.pockets_m3(wall_m)
        cutting = _LITRES * cut_m3 / shaped.cutting_rate.si * slower
        finishing = self._limit("finishing_effort", end) * geometry.sealed_m2
        return cutting + finishing + sealing

    def _lines_of_tool(self, pieces: Pieces, end: End) -> list[CostLine]:
        key = (*_tool_of(pieces), end)
        if key not in self._lines:
            self._lines[key] = self._tool_lines(pieces, end)
        return self._lines[key]

    def _tool_lines(self, pieces: Pieces, end: End) -> list[CostLine]:
        halves = self._halves(pieces)
        of = ", both halves" if pieces.bagging.both_faces else ""
        sealed = sum(face.sealed_m2 for half, face in halves if not half.owned)
        seal = self._price(f"sealer-{pieces.sealing_id}", end) * sealed
        material = sum(self._material(*half, end) for half in halves)
        return [
            CostLine(label=f"Tool material{of}", amount=material, per="tool"),
            CostLine(label=f"Sealing material{of}", amount=seal, per="tool"),
            CostLine(
                label=f"Tool making, sealing and proving, labour{of}",
                amount=self.tool_hours(pieces, end) * self._rate(end),
                per="tool",
            ),
        ]

    def _material(self, pieces: Pieces, geometry: Geometry, end: End) -> float:
        if pieces.owned:
            return 0.0
        price = self._price(f"tool-{pieces.tool_id}", end)
        if pieces.tool.form == "laminate":
            return price * geometry.sealed_m2 + self._pattern_material(
                pieces.tool, geometry.side, end
            )
        litres = _LITRES * self.bought_m3(pieces.tool_id, geometry.blank)
        if pieces.tool.form == "printed":
            return price * _LITRES * geometry.body_m3 * self._limit("printed_fill", end)
        if pieces.tool.form == "cast":
            return price * _LITRES * geometry.body_m3 + self._pattern_material(
                pieces.tool, geometry.side, end
            )
        return price * litres

    def bought_m3(self, tool: str, blank: volumes.BlankSize) -> float:
        """Return the volume of whole blocks or sheets bought, or of the blank itself."""
        key = (tool, blank)
        if key not in self._bought:
            self._bought[key] = self._whole_pieces_m3(tool, blank)
        return self._bought[key]

    def _whole_pieces_m3(self, tool: str, blank: volumes.BlankSize) -> float:
        size = self.knowledge.stock_size(tool)
        if size is None:
            return blank.volume_m3
        piece = (size.length.si, size.width.si, size.thickness.si)
        made = blanks.blank_yield(
            (blank.length_m, blank.width_m, blank.height_m),
            piece,
            size.turning,
            size.joint.si,
        )
        return made.pieces * math.prod(piece)

    def _pattern_material(self, tool: ToolMaterial, side: volumes.Side, end: End) -> float:
        of = self._pattern_of(tool)
        pattern = self._pattern(of, side)
        board = self._price(f"tool-{of}", end) * _LITRES * self.bought_m3(of, pattern.blank)
        return board + self._price(f"sealer-{_PATTERN_SEALER}", end) * pattern.sealed_m2

    # ------------------------------------------------------------------ each part

    def part_hours(self, pieces: Pieces, end: End = "value") -> float:
        """Return hands-on hours for one part."""
        area = self.geometry(pieces).face_m2
        layup = self._limit("small_shop_factor", end) * labour.hand_layup_hours(
            area, self.plies
        )
        bagging = self._end(pieces.bagging.effort, end) * area
        release = self._end(pieces.release.effort, end) * area / pieces.release.pulls.si
        release *= 1 + pieces.bagging.both_faces
        return layup + bagging + release + self._limit("part_handling", end)

    def _lines_of_part(self, pieces: Pieces, end: End) -> list[CostLine]:
        key = (pieces.tool.form, pieces.release_id, pieces.bagging_id, self.parts, end)
        if key not in self._lines:
            self._lines[key] = self._part_lines(pieces, end)
        return self._lines[key]

    def _part_lines(self, pieces: Pieces, end: End) -> list[CostLine]:
        geometry = self.geometry(pieces)
        area = geometry.face_m2
        faces = 1 + pieces.bagging.both_faces
        bag = geometry.bag(
            pieces.bagging.all_round,
            bodies=faces * (pieces.tool.form not in {"laminate", "plate"}),
            around_m=self._limit("envelope_margin"),
        )
        prepreg = self._price(f"prepreg-{self.job.laminate.fibre}", end) * area * self.plies
        release = self._price(f"release-{pieces.release_id}", end) * geometry.sealed_m2
        consumed = self._bag_cost(pieces, bag, area, end)
        labour_cost = self.part_hours(pieces, end) * self._rate(end)
        return [
            CostLine(
                label="Prepreg",
                amount=prepreg * (1 + self._limit("offcut_share", end)),
                per="part",
            ),
            CostLine(
                label="Release",
                amount=faces * release / pieces.release.pulls.si,
                per="part",
            ),
            CostLine(label="Bagging materials", amount=consumed, per="part"),
            CostLine(label="Labour for each part", amount=labour_cost, per="part"),
        ]

    def _bag_cost(
        self, pieces: Pieces, bag: consumables.BagMaterials, area: float, end: End
    ) -> float:
        """Return what presses one part: bag or tape, and its share of a bladder."""
        bagging = pieces.bagging
        if bagging.pressure == "tape":
            return self._tape_cost(area, end)
        over_plies = bag.release_area_m2 * (not bagging.both_faces)
        lining = self._price("consumable-release-film", end) * over_plies
        if bagging.pulls is not None:
            bladders = cost.tools_needed(self.parts, int(bagging.pulls.si))
            lining += self._price("consumable-bladder", end) * area * bladders / self.parts
        if bagging.pressure == "bladder":
            return lining
        tube = area * (bagging.inside and not bagging.bladder)  # film besides the bag
        return (
            self._price("consumable-bag-film", end) * (bag.bag_area_m2 + tube)
            + self._price("consumable-sealant-tape", end) * bag.tape_length_m
            + self._price("consumable-breather", end) * bag.breather_area_m2
            + lining
        )

    def _tape_cost(self, area: float, end: End) -> float:
        """Return what the tape for one tube costs, wound for the tube's radius."""
        part = self.job.part
        across = max(one.to("m") for one in (part.width, part.depth) if one is not None)
        layers = tape.tape_layers(
            self._limit("tape_pressure"),
            self._limit("tape_stress", "low"),
            self._limit("tape_thickness"),
            across / 2,
        )
        return self._price("consumable-shrink-tape", end) * area * layers

    # ------------------------------------------------------------------ time

    def _lead_time_h(self, pieces: Pieces) -> float:
        """Return hours by the clock to a tool that is ready for its first part."""
        day = self._limit("working_day")
        hours = self.tool_hours(pieces) * _DAY_H / day
        hours += pieces.sealing.elapsed.si + pieces.release.elapsed.si
        if pieces.owned:
            return hours
        if pieces.tool.lead_days:
            hours += _DAY_H * pieces.tool.lead_days.si
        if pieces.tool.drying != "none":
            hours += _DAY_H * self._limit("drying_time")
        if pieces.tool.needs_pattern:
            hours += _DAY_H * self._limit("pattern_time") * (1 + pieces.bagging.both_faces)
        return hours

    @staticmethod
    def _end(figure: object, end: End) -> float:
        attribute = {"low": "low_si", "value": "si", "high": "high_si"}[end]
        return float(getattr(figure, attribute))
