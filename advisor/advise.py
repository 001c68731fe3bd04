"""One call from job and shop to Plan: ask, judge, join, rank, plan, caution."""

from advisor import __version__, assembly
from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.tables import Knowledge, load_knowledge
from advisor.plan import Plan
from advisor.reasoning.engine import Reasoner
from advisor.reasoning.remembering import RememberingReasoner
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
    reasoner = Reasoner(knowledge or load_knowledge())
    return plan_of(Decision(job, shop or Shop(), reasoner))


class Consultation:
    """Many decisions, each of which asks the rules only what no earlier one asked.

    Parameters
    ----------
    knowledge : Knowledge, optional
        The tables; left out, those that ship with the program.
    """

    def __init__(self, knowledge: Knowledge | None = None):
        self.knowledge = knowledge or load_knowledge()
        self._reasoner = RememberingReasoner(self.knowledge)

    def decide(
        self, job: Job, shop: Shop | None = None, knowledge: Knowledge | None = None
    ) -> Decision:
        """Return what a job comes to in a shop; raises as `advise` does.

        `knowledge` stands in for the tables of the consultation this once.
        """
        reasoner = self._reasoner.over(knowledge) if knowledge else self._reasoner
        return Decision(job, shop or Shop(), reasoner)

    def plan(self, job: Job, shop: Shop | None = None) -> Plan:
        """Return the plan that `advise` would; raises as it does."""
        return plan_of(self.decide(job, shop))


def plan_of(decision: Decision) -> Plan:
    """Return a decision as a plan: what to ask first, what blocks, or what to do."""
    if decision.questions:
        parts = assembly.asking(decision.questions)
    elif decision.ranked:
        parts = assembly.planned(decision, decision.ranked)
    else:
        parts = assembly.blocked(decision)
    return assembly.finish(
        parts,
        job=decision.job,
        shop=decision.shop,
        knowledge=decision.knowledge,
        version=__version__,
    )
