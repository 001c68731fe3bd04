"""The resin class and the hold that go with another cure temperature."""

from advisor.job import Job
from advisor.knowledge.tables import Knowledge
from advisor.questioning.inputs import Move


def going_with(job: Job, knowledge: Knowledge, temperature_c: float) -> tuple[Move, ...]:
    """Return what else moves when the cure goes to another temperature.

    The resin stays if its class is cured at that temperature, else the first class of the
    same form that is. A hold shorter than the class lists there gives way to the listed
    one, and with a new hold or resin the lines of the maker's sheet go, for they say
    nothing of it. Nothing is worked out between the listed points: the hold is that of the
    next lower one.

    Parameters
    ----------
    job : Job
        The job as it stands.
    knowledge : Knowledge
        Its table of resins lists the cures.
    temperature_c : float
        The new temperature [degC]
    """
    rows, cure = knowledge.resins, job.cure
    form = rows[cure.resin].form
    fitting = [
        id
        for id, row in rows.items()
        if row.form == form and row.cure_low.si <= temperature_c <= row.cure_high.si
    ]
    if not fitting:
        return ()
    resin = cure.resin if cure.resin in fitting else fitting[0]
    moves: tuple[Move, ...] = ()
    if resin != cure.resin:
        moves += (Move("cure.resin", resin),)
    holds = [hold.si for at, hold in rows[resin].cures() if at.si <= temperature_c]
    if holds and (moves or holds[-1] > cure.hold.value):
        moves += (Move("cure.hold", f"{holds[-1]:g} h"),)
    if moves and cure.sheet:
        moves += (Move("cure.sheet", None),)
    return moves
