"""Energy that peels a skin: against a sum of strain energies made with numpy alone."""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from advisor.calculations.skin_peel import peel_energy_j_m2, peel_energy_span_j_m2

SKINS = (
    st.floats(1e8, 2e11),
    st.floats(0.0, 0.45),
    st.floats(1e-4, 2e-2),
    st.floats(-0.01, 0.01),
)


def stored(modulus, poisson, strain):
    """Strain energy of a thin sheet for each volume, from its plane-stress stiffness."""
    compliance = np.array([[1.0, -poisson], [-poisson, 1.0]]) / modulus
    return 0.5 * strain @ np.linalg.inv(compliance) @ strain


@given(*SKINS)
def test_what_peeling_frees_is_what_the_sheet_loses(modulus, poisson, thickness, strain):
    held = stored(modulus, poisson, np.array([strain, strain]))
    free_across = np.array([-poisson * strain, strain])
    let_go = stored(modulus, poisson, free_across)
    energy = peel_energy_j_m2(modulus, poisson, thickness, strain)
    assert energy == pytest.approx(thickness * (held - let_go), rel=1e-6, abs=1e-9)


@given(*SKINS)
def test_growing_more_or_less_than_the_body_is_the_same(modulus, poisson, thick, strain):
    energy = peel_energy_j_m2(modulus, poisson, thick, strain)
    assert energy == peel_energy_j_m2(modulus, poisson, thick, -strain) >= 0.0


@pytest.mark.parametrize(
    ("bad", "words"),
    [
        ((0.0, 0.3, 1e-3, 1e-4), "skin_modulus_pa"),
        ((5e10, 0.6, 1e-3, 1e-4), "skin_poisson"),
        ((5e10, 0.3, 3.0, 1e-4), "skin_thickness_m"),
        ((5e10, 0.3, 1e-3, 0.06), "mismatch_strain"),
    ],
)
def test_out_of_range_is_refused(bad, words):
    with pytest.raises(ValueError, match=words):
        peel_energy_j_m2(*bad)


ENDS = st.tuples(st.floats(0.0, 5e-5), st.floats(0.0, 5e-5)).map(sorted).map(tuple)
SHARE = st.floats(0.0, 1.0)


@given(ENDS, ENDS, SHARE, SHARE, SHARE, st.floats(1.0, 180.0))
def test_the_span_holds_every_skin_and_body_within_their_figures(
    skin, body, at_skin, at_body, at_modulus, change
):
    def within(span, share):
        return span[0] + share * (span[1] - span[0])

    moduli = (10e9, 20e9)
    low, high = peel_energy_span_j_m2(moduli, 0.3, 1e-3, skin, body, change)
    strain = (within(skin, at_skin) - within(body, at_body)) * change
    energy = peel_energy_j_m2(within(moduli, at_modulus), 0.3, 1e-3, strain)
    assert low * (1 - 1e-9) - 1e-12 <= energy <= high * (1 + 1e-9) + 1e-12


def test_a_span_the_wrong_way_round_is_refused():
    good, bad = (1e-6, 2e-6), (2e-6, 1e-6)
    with pytest.raises(ValueError, match="body_expansion_span"):
        peel_energy_span_j_m2((1e9, 2e9), 0.3, 1e-3, good, bad, 50.0)
