"""What a job comes to in a shop: options judged, routes joined, priced and ranked."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from dataclasses import replace
from functools import cached_property, partial
from itertools import product
from typing import Literal, TypeVar

from advisor import routes, sparing
from advisor.costing import Key, Pieces, Pricer
from advisor.job import Job
from advisor.knowledge.tables import Knowledge
from advisor.naming import unknown_names
from advisor.plan import CostLine
from advisor.reading import InputError
from advisor.reasoning import facts
from advisor.reasoning.conclusions import (
    Need,
    Question,
    Refusal,
    RuledOut,
    Step,
)
from advisor.reasoning.engine import Concluded, Evidence, Reasoner
from advisor.reasoning.evidence import (
    bagging_evidence,
    chosen,
    grade_evidence,
    job_evidence,
    pattern_evidence,
    release_evidence,
    sealing_evidence,
    shelf_evidence,
    shop_evidence,
    stock_piece_evidence,
    tool_evidence,
)
from advisor.reasoning.provenance import Conclusion, resting_on
from advisor.reasoning.rulebook import Stage, lasting_rules
from advisor.routes import Candidate, Judged
from advisor.shop import Shop, StockItem

PairStage = Literal["sealing", "release", "bagging"]
Ids = tuple[str, str, str, str]  # tool, sealing, release, bagging
Row = TypeVar("Row")


class Decision:
    """A job in a shop, decided as far as it is asked for: each part is found once.

    Parameters
    ----------
    job : Job
        What the part is and how it is cured.
    shop : Shop
        What the shop owns.
    reasoner : Reasoner
        Who asks the rules; one that remembers makes many decisions quick.

    Raises
    ------
    InputError
        If job or shop name an option, a resin or a price that the tables do not hold.
    """

    def __init__(self, job: Job, shop: Shop, reasoner: Reasoner):
        faults = unknown_names(job, shop, reasoner.knowledge)
        if faults:
            raise InputError(faults)
        self.job = job
        self.shop = shop
        self.reasoner = reasoner
        self.knowledge: Knowledge = reasoner.knowledge
        self._planned: list[Concluded] = []
        self._tools: dict[str, Judged] = {}
        self._seals: dict[str, dict[str, Judged]] = {}
        self._on_face: dict[tuple[str, str, str], dict[str, Judged]] = {}
        self._out: dict[tuple[PairStage, str], bool] = {}
        self._routes: dict[str, list[Candidate]] = {}
        self._given: tuple[Evidence, ...] = (
            *job_evidence(job, self.knowledge),
            *shop_evidence(shop),
        )

    @cached_property
    def questions(self) -> list[Concluded]:
        """What has to be answered before anything can be decided."""
        asked = self.reasoner.ask("ask", self._given)
        return [one for one in asked if isinstance(one.outcome, Question)]

    @cached_property
    def needs(self) -> list[Concluded]:
        """What the job needs, whatever it is made on."""
        return self.reasoner.ask("needs", self._given)

    @cached_property
    def context(self) -> tuple[Evidence, ...]:
        """What is known before an option is looked at."""
        return (*self._given, *_evidence(self.needs))

    @cached_property
    def refusals(self) -> list[Concluded]:
        """Why the job cannot be done in this shop, whatever the tool."""
        return [one for one in self.needs if isinstance(one.outcome, Refusal)]

    # ------------------------------------------------------------------ options

    @cached_property
    def pricer(self) -> Pricer:
        """Prices for this job in this shop."""
        job, shop = self.job, self.shop
        same = (job.part, job.laminate, shop)
        key = ("prices", *(one.model_dump_json() for one in same))
        known: dict[Key, list[CostLine]] = self.reasoner.once(key, dict)
        return Pricer(job, shop, self.knowledge, known)

    @cached_property
    def tool_facts(self) -> dict[str, Evidence]:
        """Every tool material as a fact."""
        rows, title = self.knowledge.tool_materials, self.job.title
        owned = frozenset(
            item.material
            for item in self.shop.stock
            if (item.kind == "plate" and rows[item.material].form == "plate")
            or (item.kind == "tool" and self._is_made(item))
        )
        return self.reasoner.once(
            ("tool", title, owned),
            lambda: {
                id: tool_evidence(id, row, id in owned, self.knowledge, title)
                for id, row in rows.items()
            },
        )

    def _is_made(self, item: StockItem) -> bool:
        """Tell whether a tool in stock is this job's, and no smaller than the part."""
        part = self.job.part
        if item.made_for != self.job.title:
            return False
        if not (part.length and part.width):
            return True
        needed = sorted((part.length.to("m"), part.width.to("m")))
        owned = sorted((item.length.to("m"), item.width.to("m")))
        return all(have >= need for have, need in zip(owned, needed, strict=True))

    @cached_property
    def sealing_facts(self) -> dict[str, Evidence]:
        """Every way to seal as a fact."""
        return self._facts("sealing", self.knowledge.sealers, sealing_evidence)

    @cached_property
    def release_facts(self) -> dict[str, Evidence]:
        """Every release as a fact."""
        return self._facts("release", self.knowledge.releases, release_evidence)

    @cached_property
    def bagging_facts(self) -> dict[str, Evidence]:
        """Every way to bag as a fact."""
        return self._facts("bagging", self.knowledge.bagging, bagging_evidence)

    def _facts(
        self,
        stage: PairStage,
        rows: Mapping[str, Row],
        evidence: Callable[[str, Row, Knowledge, str], Evidence],
    ) -> dict[str, Evidence]:
        title = self.job.title
        return self.reasoner.once(
            (stage, title),
            lambda: {
                id: evidence(id, row, self.knowledge, title) for id, row in rows.items()
            },
        )

    @cached_property
    def tools(self) -> dict[str, Judged]:
        """Verdicts on each tool material alone; what stands is heated by calculation."""
        return {id: self.tool(id) for id in self.tool_facts}

    def tool(self, id: str) -> Judged:
        """Return the verdict on one tool material alone."""
        if id not in self._tools:
            self._tools[id] = Judged(partial(self._of_tool, id))
        return self._tools[id]

    def _of_tool(self, id: str) -> list[Concluded]:
        own, context = [self.tool_facts[id]], self.context
        said = self.reasoner.ask("tool", context, own, id)
        if any(isinstance(one.outcome, RuledOut) for one in said):
            return said
        return [*said, *self.reasoner.ask("heat", context, own, id)]

    @cached_property
    def seals(self) -> dict[tuple[str, str], Judged]:
        """Verdicts on each seal over each tool material that stands."""
        return {
            (tool, seal): judged
            for tool, alone in self.tools.items()
            if alone.stands
            for seal, judged in self.seals_on(tool).items()
        }

    def seals_on(self, tool: str) -> dict[str, Judged]:
        """Return the verdicts on each seal over this tool material."""
        if tool not in self._seals:
            self._seals[tool] = {
                seal: self._pair("sealing", tool, seal, fact)
                for seal, fact in self.sealing_facts.items()
            }
        return self._seals[tool]

    def releases_on(self, tool: str, seal: str) -> dict[str, Judged]:
        """Verdicts on each release over this face."""
        return self._judged("release", tool, seal, self.release_facts)

    def bags_on(self, tool: str, seal: str) -> dict[str, Judged]:
        """Verdicts on each way to bag this tool."""
        return self._judged("bagging", tool, seal, self.bagging_facts)

    def _judged(
        self, stage: PairStage, tool: str, seal: str, options: dict[str, Evidence]
    ) -> dict[str, Judged]:
        key = (stage, tool, seal)
        if key not in self._on_face:
            sealing = self.sealing_facts[seal]
            self._on_face[key] = {
                id: self._pair(stage, f"{tool}+{seal}", id, fact, sealing)
                for id, fact in options.items()
            }
        return self._on_face[key]

    def _pair(
        self, stage: PairStage, base: str, id: str, option: Evidence, *more: Evidence
    ) -> Judged:
        tool = base.partition("+")[0]
        own = [self.tool_facts[tool], *more, option]
        if stage == "bagging":
            own += _evidence(self.tool(tool).concluded)
        judge = partial(self.reasoner.ask, stage, self.context, own, f"{base}+{id}")
        return Judged(judge, out=self._out_anyway(stage, id, option))

    def _out_anyway(self, stage: PairStage, id: str, option: Evidence) -> bool:
        """Tell whether the job alone rules an option out, whatever it goes with."""
        if (stage, id) not in self._out:
            said = self.reasoner.ask(stage, self.context, [option], id)
            self._out[stage, id] = any(
                isinstance(one.outcome, RuledOut) and one.conclusion.rule in lasting_rules()
                for one in said
            )
        return self._out[stage, id]

    def need(self, kind: str) -> str:
        """Return what the job was found to need, by its kind."""
        for one in self.needs:
            if isinstance(one.outcome, Need) and one.outcome.kind == kind:
                return one.outcome.value
        return ""

    # ------------------------------------------------------------------ routes

    @cached_property
    def candidates(self) -> list[Candidate]:
        """Every complete route whose pieces stand, priced and judged for its price."""
        return [one for tool in self.tool_facts for one in self.routes_of(tool)]

    def routes_of(self, tool: str) -> list[Candidate]:
        """Return the complete routes over one tool material whose pieces stand."""
        if tool not in self._routes:
            self._routes[tool] = list(self._joined(tool)) if self.tool(tool).stands else []
        return self._routes[tool]

    def _joined(self, tool: str) -> Iterator[Candidate]:
        for seal, sealed in self.seals_on(tool).items():
            if not sealed.stands:
                continue
            releases, bags = self.releases_on(tool, seal), self.bags_on(tool, seal)
            for release, bag in product(releases, bags):
                if releases[release].stands and bags[bag].stands:
                    yield self._candidate((tool, seal, release, bag))

    def pieces_of(self, ids: Ids) -> Iterator[Judged]:
        """Yield the verdicts on each piece of a route, up to the first that falls."""
        tool, seal, release, bag = ids
        yield self.tool(tool)
        if not self.tool(tool).stands:
            return
        yield self.seals_on(tool)[seal]
        if self.seals_on(tool)[seal].stands:
            yield self.releases_on(tool, seal)[release]
            yield self.bags_on(tool, seal)[bag]

    def route(self, ids: Ids) -> Candidate | None:
        """Return one route if its pieces stand, without joining the others."""
        stands = all(one.stands for one in self.pieces_of(ids))
        return self._candidate(ids) if stands else None

    def _candidate(self, ids: Ids) -> Candidate:
        tool, seal, release, bag = ids
        judged = Judged(lambda: _all_of(self.pieces_of(ids)))
        knowledge, part = self.knowledge, self.job.part
        row = knowledge.tool_materials[tool]
        side = part.tool_side or "female"
        fibre = knowledge.fibres[self.job.laminate.fibre]
        construction = routes.construction_for(
            row, self.need("removal"), side, fibre.laminate_expansion.high_si
        )
        if construction is None:
            raise RuntimeError(f"the rules let {tool} stand though it cannot free the part")
        hot = self._tool_temperature() > row.service_limit.si
        few = knowledge.limits["short_use_parts"].figure.si
        sealer = knowledge.sealers[seal]
        life = sealer.parts_on_porous.si
        pieces = Pieces(
            tool_id=tool,
            tool=row,
            sealing_id=seal,
            sealing=sealer,
            release_id=release,
            release=knowledge.releases[release],
            bagging_id=bag,
            bagging=knowledge.bagging[bag],
            construction=construction,
            owned="owned" in self.tool_facts[tool].values
            and self.tool_facts[tool].values["owned"],
            parts_per_tool=routes.parts_per_tool(row, construction, life, hot, few),
        )
        return Candidate(
            pieces,
            self.pricer.price(pieces),
            judged,
            self._kept(pieces),
            self._judged_as_a_whole,
        )

    def _judged_as_a_whole(self, one: Candidate) -> Judged:
        stage: Stage = "route"
        asked = (stage, self.context, self._of_route(one), "+".join(one.ids))
        return Judged(
            partial(self.reasoner.ask, *asked), out=self.reasoner.surely_out(*asked)
        )

    def _tool_temperature(self) -> float:
        return next(
            float(one.values["value"])
            for one in self.context
            if one.kind is facts.Found and one.values["key"] == "tool-temperature"
        )

    def _kept(self, pieces: Pieces) -> int:
        """Count the pieces of the user's proposal that a route keeps."""
        asked = self.job.proposal
        if asked is None:
            return 0
        return len(routes.kept_stages(asked, pieces))

    @cached_property
    def winner(self) -> Candidate | None:
        """The best route that stands; none while there is a question or a refusal.

        Found without judging the routes that cannot come first.
        """
        if self.questions or self.refusals:
            return None
        priority = self.job.budget.priority
        by_merit = routes.standing_by_merit(self.candidates, priority)
        return sparing.first(by_merit, priority, self.knowledge)

    @cached_property
    def ranked(self) -> list[Candidate]:
        """Routes that stand, best first; none while there is a question or a refusal."""
        if self.winner is None:
            return []
        return [self.winner, *(one for one in self._by_merit if one is not self.winner)]

    @cached_property
    def _by_merit(self) -> list[Candidate]:
        """Routes that stand, a tie of price not yet broken."""
        standing = [one for one in self.candidates if one.stands]
        return routes.rank(standing, self.job.budget.priority)

    def _of_route(self, one: Candidate) -> list[Evidence]:
        """Return what is known of a route, besides the context, while it is judged."""
        return [
            *_evidence(self.tool(one.pieces.tool_id).concluded),
            *self._pieces(one),
            routes.route_evidence(one, self.knowledge, self.pricer),
        ]

    def _pieces(self, one: Candidate) -> list[Evidence]:
        tool, seal, release, bag = one.ids
        return [
            self.tool_facts[tool],
            self.sealing_facts[seal],
            self.release_facts[release],
            self.bagging_facts[bag],
        ]

    def _stock_piece(self, one: Candidate) -> list[Evidence]:
        """Return the piece that the tool's stock is sold in, if it is sold in sizes."""
        tool = one.pieces.tool_id
        row = self.knowledge.stock_size(tool)
        return [stock_piece_evidence(tool, row, self.knowledge)] if row else []

    @cached_property
    def first_because(self) -> Conclusion:
        """Why the first route came first."""
        return routes.why_first(
            self.ranked, self._by_merit[0], self.job.budget.priority, self.pricer
        )

    def _chosen_context(self, one: Candidate) -> list[Evidence]:
        """Return all that is known once a route is chosen; its pieces rest on that."""
        why = self.first_because
        because = resting_on(why)
        return [
            *self.context,
            *(chosen(piece, because) for piece in self._pieces(one)),
            *self._stock_piece(one),
            *pattern_evidence(one.pieces.tool, self.knowledge),
            *grade_evidence(one.pieces.bagging, self.knowledge),
            shelf_evidence(one.pieces.bagging, self.knowledge),
            routes.route_evidence(one, self.knowledge, self.pricer),
        ]

    # ------------------------------------------------------------------ planning

    def steps_and_more(self, one: Candidate) -> list[Concluded]:
        """Return steps, conditions, trials, findings and consumables of a route."""
        self._planned = self.reasoner.ask("plan", self._known(one))
        return self._planned

    def _known(self, one: Candidate) -> tuple[Evidence, ...]:
        """Return all that is known of a chosen route and was found of its tool.

        Where a second half closes on the tool, the numbers of the closed mould take the
        place of those of the same key that were found for the tool alone, and the part is
        as thick as the gap makes it.
        """
        alone = _evidence(self.tool(one.pieces.tool_id).concluded)
        known = (*self._chosen_context(one), *alone)
        if not one.pieces.bagging.both_faces:
            return known
        closed = _evidence(self.bags_on(*one.ids[:2])[one.pieces.bagging_id].concluded)
        closed += [
            replace(fact, values={**fact.values, "key": "laminate-thickness"})
            for fact in closed
            if fact.values.get("key") == "gap-part"
        ]
        keys = {fact.values["key"] for fact in closed if fact.kind is facts.Found}
        return (*(fact for fact in known if fact.values.get("key") not in keys), *closed)

    def cautions(self, one: Candidate, steps: Iterable[Concluded]) -> list[Concluded]:
        """Return the hazards of what the steps have people do."""
        first: dict[str, Conclusion] = {}
        for step in steps:
            if isinstance(step.outcome, Step):
                for activity in step.outcome.does:
                    first.setdefault(activity, step.conclusion)
        activities = [
            Evidence(
                facts.Activity,
                {"name": name},
                {"name": resting_on(first[name])},
            )
            for name in sorted(first)
        ]
        known = self._known(one)
        return self.reasoner.ask("people", known, [*_evidence(self._planned), *activities])


def _all_of(parts: Iterable[Judged]) -> Iterator[Concluded]:
    return (said for part in parts for said in part.concluded)


def _evidence(concluded: Iterable[Concluded]) -> list[Evidence]:
    return [one.evidence for one in concluded if one.evidence]
