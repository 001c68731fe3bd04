"""A plan that was questioned: with what would change it, and how sure it is."""

from advisor.advise import Consultation, plan_of
from advisor.assembly import source_records, word_records
from advisor.job import Job
from advisor.plan import Plan
from advisor.questioning.changes import changes
from advisor.questioning.flips import Search
from advisor.questioning.sureness import how_sure
from advisor.shop import Shop


def questioned_plan(consultation: Consultation, job: Job, shop: Shop) -> Plan:
    """Return the plan of a job, with what would change it and how sure it is.

    Takes some hundred decisions: seconds, where a plan alone takes one.

    Raises
    ------
    InputError
        As `advisor.advise.advise` does, or if the job gives a range that is none.
    """
    search = Search(consultation, job, shop)
    plan = plan_of(search.base)
    sureness = how_sure(consultation, search.base)
    turns = sureness.turns if sureness else ()
    said = [text for turn in turns for text in (turn.name, turn.text, turn.narrow_by)]
    words = {*plan.words, *word_records(said, consultation.knowledge)}
    cited = {one.id for one in plan.sources}
    cited |= {id for turn in turns for id in turn.sources}
    cited |= {id for word in words for id in word.sources}
    return plan.model_copy(
        update={
            "changes": tuple(changes(search)),
            "sureness": sureness,
            "sources": source_records(cited, consultation.knowledge),
            "words": tuple(sorted(words, key=lambda word: word.term.lower())),
        }
    )
