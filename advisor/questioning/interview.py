"""Asks for a job question by question: which comes next, and what an answer rules out."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from advisor.advise import Consultation
from advisor.decision import Decision
from advisor.job import Job
from advisor.knowledge.rows import Asked
from advisor.questioning.fields import InputField, field_at, value_at
from advisor.questioning.inputs import Move, moved, read_value
from advisor.questioning.job_file import JobFile
from advisor.reading import InputError, did_you_mean
from advisor.reasoning import conclusions
from advisor.shop import Shop

_YES = {"yes": True, "y": True, "true": True, "no": False, "n": False, "false": False}


@dataclass(frozen=True)
class Question:
    """A question of the interview.

    Attributes
    ----------
    path : str
        The field of the job that it fills.
    row : Asked
        What is asked, and why.
    choices : tuple
        Words that are accepted, each with what it stands for; none where it is free.
    deciding : bool
        Whether nothing can be decided without an answer.
    """

    path: str
    row: Asked
    choices: tuple[tuple[str, str], ...]
    deciding: bool

    @property
    def field(self) -> InputField | None:
        """What the answer may be."""
        return field_at(self.path)


@dataclass(frozen=True)
class Fallen:
    """Tool materials that an answer rules out, and why, or brings back."""

    names: tuple[str, ...]
    why: str


@dataclass(frozen=True)
class Effect:
    """What an answer did.

    Attributes
    ----------
    out, back : tuple
        The tool materials that fell, by reason, and the names of those that came back.
    refused : tuple of str
        Why the job cannot be done at all as it stands.
    asked : tuple of str
        What contradicts what.
    leads : str
        The tool that leads and what the run costs, where that is new and can be told.
    standing : int
        How many tool materials still stand.
    """

    out: tuple[Fallen, ...]
    back: tuple[str, ...]
    refused: tuple[str, ...]
    asked: tuple[str, ...]
    leads: str
    standing: int


class Interview:
    """One job, asked for field by field.

    Parameters
    ----------
    file : JobFile
        What is known already, and where answers go.
    shop : Shop
        What the shop owns.
    consultation : Consultation, optional
        Who decides.

    Raises
    ------
    InputError
        If the file holds what no job may.
    """

    def __init__(self, file: JobFile, shop: Shop, consultation: Consultation | None = None):
        self.file = file
        self.shop = shop
        self.consultation = consultation or Consultation()
        self._asked: list[str] = []
        self.decision = self._decide(file.job())

    @property
    def job(self) -> Job:
        """The job as far as it is known."""
        return self.decision.job

    # ------------------------------------------------------------------ questions

    @cached_property
    def _rows(self) -> dict[str, Asked]:
        rows = self.consultation.knowledge.interview
        return dict(sorted(rows.items(), key=lambda row: row[1].order))

    def questions(self) -> Iterator[Question]:
        """Yield what is still to be asked, in the order of the trade.

        What was left open is asked again only where nothing can be decided without it,
        and not a second time in one sitting.
        """
        deciding = self.missing
        for path, row in self._rows.items():
            if self.file.has(path) or path in self._asked or not self._matters(row):
                continue
            if path in deciding or not self.file.is_open(path):
                yield Question(path, row, self._choices(path), path in deciding)

    def next(self) -> Question | None:
        """Return what is asked next, or None when nothing is left."""
        return next(self.questions(), None)

    @property
    def missing(self) -> set[str]:
        """The fields without which nothing can be decided."""
        asked = {path for path, _ in _asked(self.decision)}
        return {path for path in {*asked, "title"} if not self.file.has(path)}

    def _matters(self, row: Asked) -> bool:
        return all(
            value_at(self.job, self.shop, path) in values
            for path, values in row.only_if.items()
        )

    def _choices(self, path: str) -> tuple[tuple[str, str], ...]:
        if path == "cure.resin":
            rows = self.consultation.knowledge.resins
            return tuple(
                (id, row.name) for id, row in rows.items() if row.form == "prepreg"
            )
        field = field_at(path)
        return tuple((word, word) for word in field.choices) if field else ()

    # ------------------------------------------------------------------ answers

    def so_far(self) -> Effect:
        """Return what the shop, and what the file holds already, have ruled out."""
        return self._effect(None)

    def answer(self, question: Question, text: str) -> Effect:
        """Take an answer and return what it did.

        Raises
        ------
        InputError
            If the answer is none that the field accepts; nothing is changed then.
        """
        value = self._read(question, text)
        job, _ = moved(self.job, self.shop, [Move(question.path, value)], "")
        before, self.decision = self.decision, self._decide(job)
        self.file.put(question.path, value)
        self._asked.append(question.path)
        return self._effect(before)

    def leave_open(self, question: Question) -> None:
        """Go on without an answer; a default is taken, or the plan will ask."""
        self.file.leave_open(question.path)
        self._asked.append(question.path)

    def leave_the_rest_open(self) -> None:
        """End with what is given."""
        while question := self.next():
            self.leave_open(question)

    def back(self) -> bool:
        """Forget the last answer, so that it is asked for again; False if there is none."""
        if not self._asked:
            return False
        self.file.drop(self._asked.pop())
        self.decision = self._decide(self.file.job())
        return True

    def _read(self, question: Question, text: str) -> object:
        words = [word for word, _ in question.choices]
        if words:
            if text.isdigit() and 1 <= int(text) <= len(words):
                return words[int(text) - 1]
            if text not in words:
                hint = did_you_mean(text, words)
                accepted = f"{', '.join(words)}, or its number"
                raise InputError([f"given {text!r}; accepted {accepted}.{hint}"])
            return text
        if question.field and question.field.kind == "switch":
            if text.lower() not in _YES:
                raise InputError([f"given {text!r}; accepted yes or no"])
            return _YES[text.lower()]
        if question.field and question.field.kind == "other":
            return text
        return read_value(text)

    # ------------------------------------------------------------------ the decision

    def _decide(self, job: Job) -> Decision:
        return self.consultation.decide(job, self.shop)

    def _effect(self, before: Decision | None) -> Effect:
        after = self.decision
        was, now = _out(before) if before else {}, _out(after)
        leads = self._leads(after)
        together: dict[str, list[str]] = {}
        said: dict[str, str] = {}
        for id in now.keys() - was.keys():
            rule, sentence = now[id]
            together.setdefault(rule, []).append(id)
            said.setdefault(rule, sentence)
        names = {id: row.name for id, row in after.knowledge.tool_materials.items()}
        return Effect(
            out=tuple(
                Fallen(tuple(sorted(names[id] for id in ids)), said[rule])
                for rule, ids in sorted(together.items())
            ),
            back=tuple(sorted(names[id] for id in was.keys() - now.keys())),
            refused=tuple(one.conclusion.sentence for one in after.refusals),
            asked=tuple(text for path, text in _asked(after) if self.file.has(path)),
            leads=leads if not before or leads != self._leads(before) else "",
            standing=len(names) - len(now),
        )

    def _leads(self, decision: Decision) -> str:
        winner = decision.winner
        if winner is None:
            return ""
        currency = self.shop.rates.currency
        return f"{winner.pieces.tool.name}, {winner.cost.total:.0f} {currency} for the run"


def _asked(decision: Decision) -> Iterator[tuple[str, str]]:
    """Yield the fields that the rules ask about, with their question and why."""
    for one in decision.questions:
        if isinstance(one.outcome, conclusions.Question):
            yield one.outcome.field, f"{one.conclusion.title} {one.conclusion.sentence}"


def _out(decision: Decision) -> dict[str, tuple[str, str]]:
    """Return the tool materials that are ruled out alone: the rule, and its words."""
    found = {}
    for id in decision.tool_facts:
        against = decision.tool(id).against
        if against:
            said = against[0].conclusion
            found[id] = (said.rule, said.sentence)
    return found
