"""A stiff skin on a brittle body that grows otherwise: whether it peels."""

from advisor.calculations.skin_peel import peel_energy_j_m2
from advisor.knowledge.tables import limit
from advisor.reasoning.conclusions import Doubtful, Finding, RuledOut
from advisor.reasoning.expert import MATCH, NE, Rule
from advisor.reasoning.facts import Found, Sealing, Tool
from advisor.reasoning.rulebook import RuleBody, advice

BAKE_HOLD = limit("bake_hold")
POISSON = limit("skin_poisson_ratio")
ROOM = limit("room_temperature")


class SkinOnBody:
    """Which bodies carry a skin through heat."""

    stage = "sealing"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(
            brittle=True,
            name=MATCH.name,
            expansion=MATCH.grows,
            fracture_energy_j_m2=MATCH.tough,
            fracture_energy_low_j_m2=MATCH.tough_low,
            fracture_energy_high_j_m2=MATCH.tough_high,
        ),
        Sealing(
            name=MATCH.seal,
            build_m=MATCH.thick,
            limit_as_painted_c=MATCH.locked,
            skin_modulus_pa=MATCH.stiff,
            skin_expansion=MATCH.skin_grows,
        ),
    )
    @advice(
        id="SEAL-061",
        title="Skin a brittle body only with what grows as it does",
        reason=(
            "{seal} grows {skin_grows:expansion} and {name} {grows:expansion}: held flat "
            "on the body, {thick:length} of skin frees {value:peel_energy} where it peels "
            "at {hot:temperature} if it set at its first cure, and up to "
            "{high:peel_energy} if its bake let it settle; the body tears at "
            "{tough:peel_energy}."
        ),
        cites=("memory-film-delamination", "common-practice"),
        limits=("bake_hold", "room_temperature", "skin_poisson_ratio"),
    )
    def skin_peels(
        self,
        hot: float,
        name: str,
        grows: float,
        tough: float,
        tough_low: float,
        tough_high: float,
        seal: str,
        thick: float,
        locked: float,
        stiff: float,
        skin_grows: float,
    ) -> RuleBody:
        def frees(change_k: float) -> float:
            strain = (grows - skin_grows) * change_k
            return peel_energy_j_m2(stiff, POISSON, thick, strain)

        settled = max(hot, locked) + BAKE_HOLD - ROOM
        value, high = frees(max(hot - locked, locked - ROOM)), frees(settled)
        peels, may = value > tough_high, max(value, high) > tough_high
        finding = Finding(
            "skin-peel",
            "Energy that peels the skin off the body",
            value,
            "J/m**2",
            "E · h · (Δα · ΔT)² · (1 + ν) / (2 (1 − ν))",
            low=min(value, high),
            high=max(value, high),
            limit=tough,
            judgement="fail" if peels else "watch" if high > tough_low else "ok",
        )
        if peels:
            return [
                finding,
                RuledOut("a skin or a body whose growth is nearer the other's"),
            ]
        if may:
            return [
                finding,
                Doubtful(
                    "The skin stays on the body through heat, edges included.",
                    (
                        "a coupon of body and skin through the bake and five cures, "
                        "tapped and looked at along its edges"
                    ),
                ),
            ]
        return [finding]

    @Rule(
        Sealing(id="tooling-prepreg-skin", name=MATCH.seal),
        Tool(porous=True, family=NE("carbon-foam"), name=MATCH.name),
    )
    @advice(
        id="SEAL-071",
        title="Prove a prepreg skin before trusting it to a porous body",
        reason=(
            "The trade lays {seal} on carbon foam; no published trial on {name} was found, "
            "so this is by analogy."
        ),
    )
    def skin_by_analogy(self, seal: str, name: str) -> Doubtful:
        return Doubtful(
            "The skin holds on a coupon of the body, and holds vacuum.",
            "a coupon through the bake and five cures, tapped, and bagged for 30 min",
        )
