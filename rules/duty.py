"""Work whose approval the law keeps for others: what to ask, and of whom."""

from advisor.reasoning.conclusions import Condition, HoldPoint, Step
from advisor.reasoning.expert import MATCH, Rule
from advisor.reasoning.facts import Duty
from advisor.reasoning.rulebook import advice


class Approval:
    """A part under an approval is handed to those who may give it."""

    stage = "plan"

    @Rule(Duty(given=True, name=MATCH.what, law=MATCH.law, approver=MATCH.approver))
    @advice(
        id="DUTY-010",
        title="Leave the approval to those who may give it",
        reason=(
            "This is {what}: {law}. The plan helps to make a part well; it is neither "
            "design data nor an approval, and says nothing of the part's strength."
        ),
    )
    def approved_by_others(self, what: str, law: str, approver: str) -> Condition:
        return Condition(
            "Before the tool is cut, this shop's making the part, its drawing, materials, "
            "process and tests are agreed in writing by {approver}.",
            "the approval's number and date; the specification it names, at hand",
        )

    @Rule(Duty(given=True, name=MATCH.what, approver=MATCH.approver))
    @advice(
        id="STEP-014",
        title="Agree the records and the tests with those who approve",
        reason="Of {what} it must be shown how it was made, and by then it is too late.",
    )
    def agree_records(self, what: str, approver: str) -> Step:
        return Step(
            "prepare",
            "Show this plan to {approver}. Agree which lots, hours out, leak tests, "
            "thermocouple charts and sizes are recorded, what is tested or inspected on "
            "each part and on which witness coupons, and who may accept a deviation. Where "
            "the approved specification and this plan differ, the specification decides.",
            hold_point=HoldPoint(
                "Specification, records and tests agreed",
                "in writing, with the approval's number",
                "approval number, date",
            ),
        )

    @Rule(Duty(given=False, word=MATCH.word, name=MATCH.what, law=MATCH.law))
    @advice(
        id="DUTY-020",
        title="Settle whether the part needs an approval",
        reason=(
            "The title says {word}, and the job does not say whether this is {what}: {law}."
        ),
    )
    def may_be_regulated(self, word: str, what: str, law: str) -> Condition:
        return Condition(
            "It is settled whether this is {what}, and the job says so as part.duty: its "
            "kind, or none.",
            "the job file, and the customer's word in writing",
        )
