"""The facts that rules match: what is known of the job, the shop and one option.

A field left out of a fact is unknown: a pattern that asks for it does not match. Lengths
are in m, pressures in Pa, masses in kg, temperatures in °C, times in h.
"""

from advisor.reasoning.expert import Fact, Field


def _number() -> Field:
    return Field(lambda value: isinstance(value, int | float))


def _word() -> Field:
    return Field(str)


def _flag() -> Field:
    return Field(bool)


def _numbers() -> Field:
    return Field(list)


def _words() -> Field:
    return Field(list)


class JobFile(Fact):
    """The job as a whole."""

    title = _word()


class Duty(Fact):
    """A law that the part's approval falls under: given, or suggested by the title."""

    id = _word()
    given = _flag()
    word = _word()
    name = _word()
    law = _word()
    approver = _word()


class Part(Fact):
    """Size, shape and removal of the part."""

    length_m = _number()
    width_m = _number()
    depth_m = _number()
    shape = _word()
    smallest_radius_m = _number()
    service_c = _number()
    draft_deg = _number()
    undercut = _flag()
    undercut_places = _word()
    undercut_pieces = _number()
    undercut_length_m = _number()
    undercut_depth_m = _number()
    tool_side = _word()
    corner_deg = _number()
    tolerance_m = _number()
    tolerance_over_m = _number()


class Laminate(Fact):
    """Plies of the part, and what its fibre and resin are known to do."""

    plies = _number()
    fibre = _word()
    weave = _word()
    layup = _word()
    areal_weight = _number()
    fibre_volume = _number()
    resin_content = _number()
    fibre_density = _number()
    resin_density = _number()
    expansion = _number()
    expansion_low = _number()
    expansion_high = _number()
    density = _number()
    conductivity = _number()
    specific_heat = _number()


class Cure(Fact):
    """The resin maker's cure, and the range its class is sold for."""

    resin = _word()
    temperature_c = _number()
    hold_h = _number()
    ramp = _number()
    pressure = _word()
    autoclave_pressure_pa = _number()
    bladder_pressure_pa = _number()
    free_standing_post_cure = _flag()
    first_cure_c = _number()
    class_low_c = _number()
    class_high_c = _number()
    listed_low_c = _number()
    listed_high_c = _number()
    dwell_at_high_h = _number()
    shortest_h = _number()
    listed_c = _numbers()
    listed_h = _numbers()
    listed_least_h = _numbers()
    sheet_c = _numbers()
    sheet_h = _numbers()
    transition_rise = _number()
    transition_rise_low = _number()
    transition_rise_high = _number()
    transition_post_cured_c = _number()
    transition_post_cured_low_c = _number()
    kinetics = _words()


class Finish(Fact):
    """What the moulded face must look like, and what follows."""

    target = _word()
    roughness_m = _number()
    after = _word()
    both_faces = _flag()


class Run(Fact):
    """How many parts."""

    parts = _number()
    per_week = _number()


class Budget(Fact):
    """Money and what matters most."""

    total = _number()
    priority = _word()


class Oven(Fact):
    """The oven or autoclave."""

    kind = _word()
    length_m = _number()
    width_m = _number()
    height_m = _number()
    door_width_m = _number()
    door_height_m = _number()
    limit_c = _number()
    shelf_load_kg = _number()
    over_temperature_trip = _flag()
    fuel_fired = _flag()


class Shop(Fact):
    """Means of the shop: cutting, dust control, vacuum, hands, law."""

    machining = _word()
    printer = _flag()
    metal_machining = _flag()
    extraction = _word()
    wet_cutting = _flag()
    respirators = _flag()
    air_changes = _number()
    room_volume = _number()
    pump = _flag()
    vacuum_reading_pa = _number()
    pump_flow = _number()
    altitude_m = _number()
    humidity = _number()
    scale_step_kg = _number()
    people = _number()
    hoist = _flag()
    jurisdiction = _word()
    currency = _word()


class Plate(Fact):
    """A flat plate in stock."""

    material = _word()
    length_m = _number()
    width_m = _number()


class Tool(Fact):
    """One tool material under judgement."""

    id = _word()
    family = _word()
    name = _word()
    form = _word()
    dust = _word()
    tightness = _word()
    one_piece = _flag()
    splits = _flag()
    breaks_out = _flag()
    washes_out = _flag()
    needs_pattern = _flag()
    drying = _word()
    joint = _word()
    combustible_dust = _flag()
    porous = _flag()
    soft = _flag()
    brittle = _flag()
    owned = _flag()
    standard_sizes = _flag()
    density = _number()
    expansion = _number()
    expansion_low = _number()
    expansion_high = _number()
    service_limit_c = _number()
    short_limit_c = _number()
    compressive_strength_pa = _number()
    tensile_strength_pa = _number()
    tensile_strength_low_pa = _number()
    tensile_strength_high_pa = _number()
    modulus_pa = _number()
    modulus_low_pa = _number()
    modulus_high_pa = _number()
    fracture_energy_j_m2 = _number()
    fracture_energy_low_j_m2 = _number()
    fracture_energy_high_j_m2 = _number()
    conductivity = _number()
    conductivity_low = _number()
    conductivity_high = _number()
    specific_heat = _number()
    pore_size_m = _number()
    permeability = _number()
    permeability_low = _number()
    permeability_high = _number()
    cycles = _number()


class Pattern(Fact):
    """What the pattern of the chosen tool is cut from, and the heat it has to stand."""

    id = _word()
    name = _word()
    dust = _word()
    density = _number()
    expansion = _number()
    limit_c = _number()
    heat_c = _number()


class StockPiece(Fact):
    """The piece that the chosen tool material is sold in."""

    material = _word()
    piece = _word()
    turning = _word()
    length_m = _number()
    width_m = _number()
    thickness_m = _number()
    joint_m = _number()


class Sealing(Fact):
    """One way to seal under judgement."""

    id = _word()
    name = _word()
    epoxy = _flag()
    styrene = _flag()
    solvent = _flag()
    isocyanate = _flag()
    film_only = _flag()
    vacuum = _word()
    polished = _flag()
    first_grit = _number()
    limit_as_painted_c = _number()
    limit_baked_c = _number()
    fills_pores_to_m = _number()
    build_m = _number()
    build_low_m = _number()
    effort_h_m2 = _number()
    parts_on_porous = _number()
    skin_modulus_pa = _number()
    skin_modulus_low_pa = _number()
    skin_modulus_high_pa = _number()
    skin_expansion = _number()
    skin_expansion_low = _number()
    skin_expansion_high = _number()
    skin_plies = _number()
    skin_of = _word()
    material_use = _number()
    layers = _words()


class Grade(Fact):
    """One temperature class of a bagging material, and the class below it."""

    id = _word()
    name = _word()
    role = _word()
    limit_c = _number()
    next_lower_c = _number()


class Shelf(Fact):
    """The classes of all that lies in the chosen bag: each material as often as it has."""

    roles = _words()
    limits_c = _numbers()


class Release(Fact):
    """One release under judgement."""

    id = _word()
    name = _word()
    surface = _word()
    curvature = _words()
    poor_on = _words()
    finish = _word()
    transfers = _flag()
    fluoropolymer = _flag()
    solvent = _flag()
    is_film = _flag()
    limit_c = _number()
    film_thickness_m = _number()
    modulus_cool_pa = _number()
    modulus_cool_low_pa = _number()
    modulus_cool_high_pa = _number()
    modulus_warm_pa = _number()
    modulus_warm_low_pa = _number()
    modulus_warm_high_pa = _number()
    pulls = _number()


class Bagging(Fact):
    """One way to bag under judgement."""

    id = _word()
    name = _word()
    pressure = _word()
    needs_tight_tool = _flag()
    all_round = _flag()
    both_faces = _flag()
    inside = _flag()
    bladder = _flag()
    margin_m = _number()
    pulls = _number()
    below = _words()
    layers = _words()
    on_core = _words()


class Need(Fact):
    """Something the job was found to need."""

    kind = _word()
    value = _word()


class Found(Fact):
    """A number a calculation found, by its key, with its span where one is known."""

    key = _word()
    value = _number()
    low = _number()
    high = _number()


class Route(Fact):
    """The route a plan is written for, with its construction, counts and cost."""

    tool = _word()
    sealing = _word()
    release = _word()
    bagging = _word()
    construction = _word()
    tools = _number()
    parts_per_tool = _number()
    cost_total = _number()
    cost_per_part = _number()
    lead_time_h = _number()


class Activity(Fact):
    """Something a step of the plan has people do."""

    name = _word()


FACTS: tuple[type[Fact], ...] = (
    JobFile,
    Part,
    Laminate,
    Cure,
    Finish,
    Run,
    Budget,
    Duty,
    Oven,
    Shop,
    Plate,
    Tool,
    Pattern,
    StockPiece,
    Sealing,
    Release,
    Bagging,
    Grade,
    Shelf,
    Need,
    Found,
    Route,
    Activity,
)
