"""Designs the trials of a plan: patches, measures, time, and what each outcome changes."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from itertools import islice

from advisor.decision import Decision
from advisor.measures import in_sentence, phrase
from advisor.plan import GaugedRecord, OutcomeRecord, PatchRecord, TrialRecord
from advisor.reasoning.conclusions import Doubtful, Finding, Gauged, Trial
from advisor.reasoning.engine import Concluded
from advisor.routes import Candidate, named, price_against, rank, to_prove

_ROW = 2  # patches side by side
_TWO_DAYS_H = 48.0  # from here on time is told by the half day
_SEAL, _RELEASE = 1, 2  # where they stand in the ids of a route


def designed(
    decision: Decision, ranked: Sequence[Candidate], concluded: Sequence[Concluded]
) -> Iterator[TrialRecord]:
    """Yield the trials that the rules ask for, laid out for this job.

    Where something of the route rests on thin evidence, the trial of its face has a patch
    for each other seal or release that stands on the same body, the best first.

    Parameters
    ----------
    decision : Decision
        The job in its shop.
    ranked : sequence of Candidate
        The routes that stand, best first.
    concluded : sequence of Concluded
        What the rules said of the first of them.
    """
    design = _Design(decision, ranked, concluded)
    for one in concluded:
        if isinstance(one.outcome, Trial):
            face = one.outcome.of == "face"
            record = TrialRecord(
                text=one.outcome.text,
                passes_if=one.outcome.passes_if,
                fails_if=one.outcome.fails_if,
                conclusion=one.conclusion,
                cures=design.cures if face else 1,
            )
            yield design.of_face(record) if face else design.timed(record)


@dataclass(frozen=True)
class _Design:
    decision: Decision
    ranked: Sequence[Candidate]
    concluded: Sequence[Concluded]

    @property
    def winner(self) -> Candidate:
        return self.ranked[0]

    @cached_property
    def thin(self) -> list[Doubtful]:
        """What of the route a coupon has to prove."""
        found = (one.outcome for one in self.winner.doubts)
        return [one for one in found if isinstance(one, Doubtful) and one.coupon_cures]

    @property
    def cures(self) -> int:
        """How often the coupon is cured."""
        return max((one.coupon_cures for one in self.thin), default=1)

    @cached_property
    def faces(self) -> list[Candidate]:
        """The best route for each other seal on the same body, the chosen one first.

        Where no other seal stands, that for each other release.
        """
        if not self.thin:
            return [self.winner]
        same = [one for one in self.ranked if one.ids[0] == self.winner.ids[0]]
        tried = _SEAL if len({one.ids[_SEAL] for one in same}) > 1 else _RELEASE
        best: dict[str, Candidate] = {}
        for one in same:
            best.setdefault(one.ids[tried], one)
        most = int(self.decision.knowledge.limits["coupon_patches"].figure.si)
        return list(islice(best.values(), most))

    @cached_property
    def rival(self) -> Candidate | None:
        """The best route on another body, whatever was proposed."""
        family = self.winner.pieces.tool.family
        priority = self.decision.job.budget.priority
        by_merit = rank(self.ranked, priority, keep_proposal=False)
        others = (one for one in by_merit if one.pieces.tool.family != family)
        return next(others, None)

    # ------------------------------------------------------------------ the record

    def of_face(self, record: TrialRecord) -> TrialRecord:
        """Return a trial of the face with all that belongs to it."""
        return self.timed(record).model_copy(
            update={
                "piece": self._piece(),
                "patches": tuple(self._patches()),
                "gauged": tuple(self._gauged()),
                "outcomes": tuple(self._outcomes()),
            }
        )

    def timed(self, record: TrialRecord) -> TrialRecord:
        """Return a trial with the hours that it takes by the clock."""
        ready = max(
            one.pieces.sealing.elapsed.si + one.pieces.release.elapsed.si
            for one in self.faces
        )
        takes_h = ready + record.cures * self._cure_h
        takes = phrase(
            "about {days:days} by the clock: {ready:about_hours} until {coated} ready, "
            "then {cures} of {cure:about_hours}, heated and cooled as the tool will be; "
            "sawing, drying and waiting for the oven come on top",
            days=round(takes_h / 12) / 2 if takes_h > _TWO_DAYS_H else takes_h / 24,
            ready=ready,
            coated="the release is"
            if self.winner.pieces.sealing_id == "none"
            else "seal and release are",
            cures="1 cure" if record.cures == 1 else f"{record.cures} cures",
            cure=self._cure_h,
        )
        return record.model_copy(update={"takes_h": round(takes_h, 1), "takes": takes})

    @property
    def _cure_h(self) -> float:
        """Hours of one cure with its heating and cooling, as found for the tool."""
        said = (*self.concluded, *self.winner.judged.concluded)
        found = {
            one.outcome.key: one.outcome.value
            for one in said
            if isinstance(one.outcome, Finding)
        }
        cooled = found.get("cooling-time", 0.0)
        if {"cooling-ramp", "opens-at", "tool-temperature"} <= found.keys():
            falls_k = max(0.0, found["tool-temperature"] - found["opens-at"])
            cooled = max(cooled, falls_k / (60.0 * found["cooling-ramp"]))
        return found.get("dwell-start", 0.0) + self.decision.job.cure.hold.value + cooled

    def _piece(self) -> str:
        limits = self.decision.knowledge.limits
        patch, land = (limits[id].figure.si for id in ("coupon_patch", "coupon_land"))
        across = min(len(self.faces), _ROW)
        down = math.ceil(len(self.faces) / _ROW)
        length, width = (n * patch + (n + 1) * land for n in (across, down))
        if self.winner.pieces.owned or self.winner.pieces.tool.form == "plate":
            body = "an offcut of the same finish"
        else:
            body = "an offcut of the lot, as thick as the tool will be"
        many = len(self.faces)
        return phrase(
            "{body}, {length:length} by {width:length}, one edge rounded as on the tool; "
            "{patches} {patch:length} square, {land:length} of land round each",
            body=body,
            length=length,
            width=width,
            patches="1 patch" if many == 1 else f"{many} patches, numbered, each",
            patch=patch,
            land=land,
        )

    def _patches(self) -> Iterator[PatchRecord]:
        for n, one in enumerate(self.faces, 1):
            seal, release = one.pieces.sealing.name, in_sentence(one.pieces.release.name)
            yield PatchRecord(
                n=n,
                sealing=one.ids[1],
                release=one.ids[2],
                name=f"{seal}, {release}",
                cost_total=round(one.cost.total, 2),
                beware=self._beware(one),
            )

    def _beware(self, one: Candidate) -> str:
        """Name what a patch holds that nothing of the planned route does."""
        known = _holds(self.winner)
        new = [what for what in _holds(one) if what not in known]
        if not new:
            return ""
        return (
            f"Holds {' and '.join(new)}, which the cautions of this plan do not cover: "
            "plan the job with it as the proposal, and read those first."
        )

    def _gauged(self) -> Iterator[GaugedRecord]:
        for one in self.concluded:
            if isinstance(one.outcome, Gauged):
                yield GaugedRecord(
                    measure=one.outcome.measure,
                    how=one.outcome.how,
                    passes_if=one.outcome.passes_if,
                    conclusion=one.conclusion,
                )

    # ------------------------------------------------------------------ what follows

    def _outcomes(self) -> Iterator[OutcomeRecord]:
        shown = " ".join(one.prove for one in self.thin)
        yield OutcomeRecord(
            outcome="Patch 1 passes" if len(self.faces) > 1 else "It passes",
            then=f"The plan holds. This is shown and is signed: {shown}"
            if shown
            else "The plan holds.",
        )
        currency = self.decision.shop.rates.currency
        for n, one in enumerate(self.faces[1:], 2):
            price = price_against(one, self.winner, currency)
            less = one.cost.total < self.winner.cost.total
            yield OutcomeRecord(
                outcome=f"Patch {n} passes" + (" too" if less else ", patch 1 does not"),
                then=f"Made so the run {price} and {to_prove(one)}: plan the job again "
                "with this face as the proposal.",
            )
        lasting = self._least_life()
        if lasting is not None:
            yield lasting
        yield OutcomeRecord(
            outcome="No patch passes" if len(self.faces) > 1 else "It fails",
            then=self._otherwise(),
        )

    def _otherwise(self) -> str:
        if not self.thin:
            return (
                "Face, release or prepreg is at fault, not the body: find which, and peel "
                "a new coupon before the tool is released."
            )
        if self.rival is None:
            return (
                "No other body stands for this job: find the cause and try again, or "
                "change the job as the plan says."
            )
        price = price_against(self.rival, self.winner, self.decision.shop.rates.currency)
        name = named(self.rival)
        return (
            f"Do not make this tool. Next comes {name}, which {price} and "
            f"{to_prove(self.rival)}."
        )

    def _least_life(self) -> OutcomeRecord | None:
        """Say below how many pulls of one tool the route is dearer than the next."""
        if not self.thin or self.rival is None:
            return None
        if self.rival.cost.total <= self.winner.cost.total:
            return None
        pieces = self.winner.pieces
        for life in range(pieces.parts_per_tool, 0, -1):
            cost = self.decision.pricer.price(replace(pieces, parts_per_tool=life))
            if cost.total > self.rival.cost.total:
                return OutcomeRecord(
                    outcome=phrase("A face is worn out after {n:parts} or fewer", n=life),
                    then=phrase(
                        "{tools:tools} would be needed, {total:money} {currency} in all: "
                        "{name} is cheaper then.",
                        tools=cost.tools,
                        total=cost.total,
                        currency=self.decision.shop.rates.currency,
                        name=named(self.rival),
                    ),
                )
        return None


def _holds(one: Candidate) -> list[str]:
    """Return what a face holds that wants a caution of its own."""
    seal, release = one.pieces.sealing, one.pieces.release
    held: dict[str, bool] = {what: what != "none" for what in seal.contains}
    held["solvent"] = held.get("solvent", False) or release.solvent
    held["fluoropolymer"] = release.fluoropolymer
    return [what for what, there in held.items() if there]
