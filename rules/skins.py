"""A stiff skin on a brittle body that grows otherwise: whether it peels."""

from advisor.calculations.skin_peel import peel_energy_j_m2, peel_energy_span_j_m2
from advisor.knowledge.tables import limit
from advisor.measures import worked
from advisor.reasoning.conclusions import Doubtful, Finding, RuledOut
from advisor.reasoning.expert import MATCH, NE, Rule
from advisor.reasoning.facts import Found, Sealing, Tool
from advisor.reasoning.rulebook import RuleBody, advice

BAKE_HOLD = limit("bake_hold")
POISSON = limit("skin_poisson_ratio")
ROOM = limit("room_temperature")
SKIN_CURES = int(limit("skin_cures"))


class SkinOnBody:
    """Which bodies carry a skin through heat."""

    stage = "sealing"

    @Rule(
        Found(key="tool-temperature", value=MATCH.hot),
        Tool(
            brittle=True,
            name=MATCH.name,
            expansion=MATCH.grows,
            expansion_low=MATCH.grows_low,
            expansion_high=MATCH.grows_high,
            fracture_energy_j_m2=MATCH.tough,
            fracture_energy_low_j_m2=MATCH.tough_low,
            fracture_energy_high_j_m2=MATCH.tough_high,
        ),
        Sealing(
            name=MATCH.seal,
            build_m=MATCH.thick,
            limit_as_painted_c=MATCH.locked,
            skin_modulus_pa=MATCH.stiff,
            skin_modulus_low_pa=MATCH.softest,
            skin_modulus_high_pa=MATCH.stiffest,
            skin_expansion=MATCH.skin_grows,
            skin_expansion_low=MATCH.skin_low,
            skin_expansion_high=MATCH.skin_high,
        ),
    )
    @advice(
        id="SEAL-061",
        title="Skin a brittle body only with what grows as it does",
        reason=(
            "{seal} grows {skin_grows:expansion} and {name} {grows:expansion}: held flat "
            "on the body, {thick:length} of skin that set at {locked:temperature} frees "
            "{value:peel_energy} where it peels, at {hot:temperature} or back in the room, "
            "whichever strains it more. Over the spread of stiffness and growth, and if "
            "its bake let it settle, that is {low:peel_energy} to {high:peel_energy}; the "
            "body tears at {tough_low:peel_energy} to {tough_high:peel_energy}."
        ),
        cites=("memory-film-delamination", "common-practice"),
        limits=("bake_hold", "room_temperature", "skin_cures", "skin_poisson_ratio"),
    )
    def skin_peels(
        self,
        hot: float,
        name: str,
        grows: float,
        grows_low: float,
        grows_high: float,
        tough: float,
        tough_low: float,
        tough_high: float,
        seal: str,
        thick: float,
        locked: float,
        stiff: float,
        softest: float,
        stiffest: float,
        skin_grows: float,
        skin_low: float,
        skin_high: float,
    ) -> RuleBody:
        as_set = max(hot - locked, locked - ROOM)
        settled = max(hot, locked) + BAKE_HOLD - ROOM
        value = peel_energy_j_m2(stiff, POISSON, thick, (grows - skin_grows) * as_set)
        spans = [
            peel_energy_span_j_m2(
                (softest, stiffest),
                POISSON,
                thick,
                (skin_low, skin_high),
                (grows_low, grows_high),
                change,
            )
            for change in (as_set, settled)
        ]
        low, high = min(low for low, _ in spans), max(high for _, high in spans)
        peels, may = value > tough_high, high > tough_low
        finding = Finding(
            "skin-peel",
            "Energy that peels the skin off the body",
            value,
            "J/m**2",
            "E · h · (Δα · ΔT)² · (1 + ν) / (2 (1 − ν))",
            low=low,
            high=high,
            limit=tough,
            judgement="fail" if peels else "watch" if may else "ok",
            worked=worked(
                "{} · {} · ({} · {})² · (1 + {}) / (2 · (1 − {}))",
                (stiff, "GPa"),
                (thick, "mm"),
                (abs(grows - skin_grows), "um/(m*K)"),
                (as_set, "K"),
                POISSON,
                POISSON,
            ),
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
                        "a coupon of both through the bake and {skin_cures:number} cures, "
                        "tapped, its edges looked at"
                    ),
                    coupon_cures=SKIN_CURES,
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
        limits=("skin_cures",),
    )
    def skin_by_analogy(self, seal: str, name: str) -> Doubtful:
        return Doubtful(
            "The skin holds on a coupon of the body, and holds vacuum.",
            "a coupon through the bake and {skin_cures:number} cures, tapped, and bagged "
            "for 30 min",
            coupon_cures=SKIN_CURES,
        )
