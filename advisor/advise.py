"""One call from job and shop to Plan: ask, judge, join, rank, plan, caution."""

from collections.abc import Iterable
from dataclasses import replace
from functools import cached_property
from itertools import product

from advisor import __version__, assembly, proposal, routes, sparing
from advisor.costing import Pieces, Pricer
from advisor.job import Job
from advisor.knowledge.tables import Knowledge, load_knowledge
from advisor.naming import unknown_names
from advisor.plan import Plan
from advisor.reading import InputError
from advisor.reasoning import facts
from advisor.reasoning.conclusions import Need, Question, Refusal, Step
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
from advisor.routes import Candidate, Judged
from advisor.shop import Shop


def advise(job: Job, shop: Shop | None = None, knowledge: Knowledge | None = None) -> Plan:
    """Return the process plan for a job in a shop.

    Parameters
    ----------
    job : Job
        What the part is and how it is cured.
    shop : Shop, optional
        What the shop owns; left out, a shop that owns little.
    knowledge : Knowledge, optional
        The tables; left out, those that ship with the program.

    Returns
    -------
    Plan
        The same, byte for byte, for the same input.

    Raises
    ------
    InputError
        If job or shop name an option, a resin or a price that the tables do not hold.
    """
    shop = shop or Shop()
    knowledge = knowledge or load_knowledge()
    faults = unknown_names(job, shop, knowledge)
    if faults:
        raise InputError(faults)
    return _Advice(job, shop, knowledge).plan()


class _Advice:
    """The state of one call: what has been concluded so far."""

    def __init__(self, job: Job, shop: Shop, knowledge: Knowledge):
        self.job = job
        self.shop = shop
        self.knowledge = knowledge
        self.reasoner = Reasoner(knowledge)
        self._planned: list[Concluded] = []
        self._on_face: dict[tuple[str, str, str], dict[str, Judged]] = {}
        self.context: list[Evidence] = [*job_evidence(job, knowledge), *shop_evidence(shop)]

    def plan(self) -> Plan:
        """Ask first; then judge, join and plan."""
        questions = self.reasoner.ask("ask", self.context)
        if any(isinstance(one.outcome, Question) for one in questions):
            return self._finished(assembly.asking(questions))
        needs = self.reasoner.ask("needs", self.context)
        self.context += _evidence(needs)
        self.needs = needs
        refusals = [one for one in needs if isinstance(one.outcome, Refusal)]
        ranked = [] if refusals else self.ranked
        if not ranked:
            return self._finished(assembly.blocked(self, refusals))
        return self._finished(assembly.planned(self, ranked))

    def _finished(self, parts: assembly.Parts) -> Plan:
        return assembly.finish(
            parts,
            job=self.job,
            shop=self.shop,
            knowledge=self.knowledge,
            version=__version__,
        )

    # ------------------------------------------------------------------ options

    @cached_property
    def pricer(self) -> Pricer:
        """Prices for this job in this shop."""
        return Pricer(self.job, self.shop, self.knowledge)

    @cached_property
    def tool_facts(self) -> dict[str, Evidence]:
        """Every tool material as a fact."""
        rows = self.knowledge.tool_materials
        owned = {
            item.material
            for item in self.shop.stock
            if (item.kind == "plate" and rows[item.material].form == "plate")
            or (item.kind == "tool" and item.made_for == self.job.title)
        }
        return {
            id: tool_evidence(id, rows[id], id in owned, self.knowledge, self.job.title)
            for id in rows
        }

    @cached_property
    def sealing_facts(self) -> dict[str, Evidence]:
        """Every way to seal as a fact."""
        rows = self.knowledge.sealers
        return {
            id: sealing_evidence(id, rows[id], self.knowledge, self.job.title)
            for id in rows
        }

    @cached_property
    def release_facts(self) -> dict[str, Evidence]:
        """Every release as a fact."""
        rows = self.knowledge.releases
        return {
            id: release_evidence(id, rows[id], self.knowledge, self.job.title)
            for id in rows
        }

    @cached_property
    def bagging_facts(self) -> dict[str, Evidence]:
        """Every way to bag as a fact."""
        rows = self.knowledge.bagging
        return {
            id: bagging_evidence(id, rows[id], self.knowledge, self.job.title)
            for id in rows
        }

    @cached_property
    def tools(self) -> dict[str, Judged]:
        """Verdicts on each tool material alone; what stands is heated by calculation."""
        return {id: self._tool_judged(id, fact) for id, fact in self.tool_facts.items()}

    def _tool_judged(self, id: str, fact: Evidence) -> Judged:
        evidence = [*self.context, fact]
        judged = Judged(tuple(self.reasoner.ask("tool", evidence, id)))
        if not judged.stands:
            return judged
        heated = self.reasoner.ask("heat", evidence, id)
        return Judged((*judged.concluded, *heated))

    @cached_property
    def seals(self) -> dict[tuple[str, str], Judged]:
        """Verdicts on each seal over each tool material that stands."""
        standing = [id for id, judged in self.tools.items() if judged.stands]
        return {
            (tool, seal): self._pair("sealing", tool, seal, self.sealing_facts[seal])
            for tool, seal in product(standing, self.sealing_facts)
        }

    def releases_on(self, tool: str, seal: str) -> dict[str, Judged]:
        """Verdicts on each release over this face."""
        return self._judged("release", tool, seal, self.release_facts)

    def bags_on(self, tool: str, seal: str) -> dict[str, Judged]:
        """Verdicts on each way to bag this tool."""
        return self._judged("bagging", tool, seal, self.bagging_facts)

    def _judged(
        self, stage: assembly.PairStage, tool: str, seal: str, options: dict[str, Evidence]
    ) -> dict[str, Judged]:
        key = (stage, tool, seal)
        if key not in self._on_face:
            sealing = self.sealing_facts[seal]
            self._on_face[key] = {
                id: self._pair(stage, f"{tool}+{seal}", id, sealing, fact)
                for id, fact in options.items()
            }
        return self._on_face[key]

    def _pair(
        self, stage: assembly.PairStage, base: str, id: str, *more: Evidence
    ) -> Judged:
        tool = self.tool_facts[base.partition("+")[0]]
        of_tool = _evidence(self.tools[base.partition("+")[0]].concluded)
        evidence = [*self.context, tool, *more, *(of_tool if stage == "bagging" else ())]
        return Judged(tuple(self.reasoner.ask(stage, evidence, f"{base}+{id}")))

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
        found = []
        for (tool, seal), sealed in self.seals.items():
            if not sealed.stands:
                continue
            releases, bags = self.releases_on(tool, seal), self.bags_on(tool, seal)
            for release, bag in product(releases, bags):
                if not (releases[release].stands and bags[bag].stands):
                    continue
                judged = Judged(
                    self.tools[tool].concluded
                    + sealed.concluded
                    + releases[release].concluded
                    + bags[bag].concluded
                )
                found.append(self._candidate(tool, seal, release, bag, judged))
        return found

    def _candidate(
        self, tool: str, seal: str, release: str, bag: str, judged: Judged
    ) -> Candidate:
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
        one = Candidate(pieces, self.pricer.price(pieces), judged, self._kept(pieces))
        one.route_judged = Judged(
            tuple(self.reasoner.ask("route", self.route_context(one), "+".join(one.ids)))
        )
        return one

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
        return len(proposal.kept_stages(asked, pieces))

    @cached_property
    def ranked(self) -> list[Candidate]:
        """Routes that stand, best first."""
        if not self._by_merit:
            return []
        return sparing.first_without(
            self._by_merit, self.job.budget.priority, self.knowledge
        )

    @cached_property
    def _by_merit(self) -> list[Candidate]:
        """Routes that stand, a tie of price not yet broken."""
        standing = [one for one in self.candidates if one.stands]
        return routes.rank(standing, self.job.budget.priority)

    def route_context(self, one: Candidate) -> list[Evidence]:
        """Return all that is known of a route while it is judged."""
        return [
            *self.context,
            *_evidence(self.tools[one.pieces.tool_id].concluded),
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

    def chosen_context(self, one: Candidate) -> list[Evidence]:
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
        context = self._known(one)
        self._planned = self.reasoner.ask("plan", context)
        return self._planned

    def _known(self, one: Candidate) -> list[Evidence]:
        """Return all that is known of a chosen route and was found of its tool.

        Where a second half closes on the tool, the numbers of the closed mould take the
        place of those of the same key that were found for the tool alone, and the part is
        as thick as the gap makes it.
        """
        alone = _evidence(self.tools[one.pieces.tool_id].concluded)
        known = [*self.chosen_context(one), *alone]
        if not one.pieces.bagging.both_faces:
            return known
        closed = _evidence(self.bags_on(*one.ids[:2])[one.pieces.bagging_id].concluded)
        closed += [
            replace(fact, values={**fact.values, "key": "laminate-thickness"})
            for fact in closed
            if fact.values.get("key") == "gap-part"
        ]
        keys = {fact.values["key"] for fact in closed if fact.kind is facts.Found}
        return [*(fact for fact in known if fact.values.get("key") not in keys), *closed]

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
        context = [*self._known(one), *_evidence(self._planned)]
        return self.reasoner.ask("people", [*context, *activities])


def _evidence(concluded: Iterable[Concluded]) -> list[Evidence]:
    return [evidence for one in concluded if (evidence := one.evidence())]
