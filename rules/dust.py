"""Dust: which tools the shop may cut at all, and the cautions at each cut."""

from advisor.reasoning.conclusions import Caution, Condition, Doubtful, RuledOut
from advisor.reasoning.expert import MATCH, NE, Rule, among
from advisor.reasoning.facts import Activity, Laminate, Pattern, Shop, Tool
from advisor.reasoning.rulebook import advice

SILICA_SOURCES = ("osha-silica-memo-2018", "cfr-1910-1053-copy", "lightweight-blocks-sheet")


class DustControl:
    """No dust control, no cutting: never a matter of score."""

    stage = "tool"

    @Rule(
        Shop(extraction=MATCH.extraction & among("none", "household"), wet_cutting=False),
        Tool(name=MATCH.name, dust="silica", owned=False),
    )
    @advice(
        id="DUST-010",
        title="Do not cut silica-bearing block without extraction or water",
        reason=(
            "Cutting {name} raises respirable crystalline silica, and the shop's "
            "extraction is {extraction}: dust has to be held at the source, a mask alone "
            "is not enough."
        ),
        cites=SILICA_SOURCES,
    )
    def no_silica_uncontrolled(self, name: str, extraction: str) -> RuledOut:
        return RuledOut(
            "class H (or at the least class M) extraction at the cut, wet cutting with "
            "drying afterwards, or a block cut to shape elsewhere"
        )

    @Rule(
        Shop(extraction=MATCH.extraction & among("none", "household"), wet_cutting=True),
        Tool(name=MATCH.name, dust="silica", washes_out=True, owned=False),
    )
    @advice(
        id="DUST-015",
        title="Do not cut a core that dissolves without extraction",
        reason=(
            "{name} may hold crystalline silica and cannot be cut wet, and the shop's "
            "extraction is {extraction}."
        ),
        cites=SILICA_SOURCES,
    )
    def no_wet_core(self, name: str, extraction: str) -> RuledOut:
        return RuledOut("class H (or at the least class M) extraction at the cut")

    @Rule(
        Shop(extraction="class-m"),
        Tool(name=MATCH.name, dust="silica", owned=False),
    )
    @advice(
        id="DUST-020",
        title="Have the silica exposure assessed; class H is better",
        reason=(
            "Class M is the floor for cutting {name}: one authority accepts it, the class "
            "rule by limit asks for class H."
        ),
        cites=("lightweight-blocks-sheet",),
    )
    def class_m_is_the_floor(self, name: str) -> Doubtful:
        return Doubtful(
            (
                "A class H extractor is found, or a competent person accepts class M for "
                "this work."
            ),
            "exposure assessment and written exposure control plan, before the first cut",
        )

    @Rule(
        Shop(extraction=MATCH.extraction & among("none", "household")),
        Tool(
            name=MATCH.name,
            dust=MATCH.dust & among("wood", "polymer", "carbon", "glass", "gypsum"),
            owned=False,
        ),
    )
    @advice(
        id="DUST-030",
        title="Find extraction before cutting board or laminate",
        reason=(
            "Cutting {name} raises {dust} dust that harms the lungs and may burn; the "
            "shop's extraction is {extraction}."
        ),
        cites=("niosh-guide-wood-dust", "common-practice"),
    )
    def no_extraction_for_board(self, name: str, dust: str, extraction: str) -> Doubtful:
        return Doubtful(
            "Extraction rated for this dust stands at the cutter.",
            (
                "extractor class and earthing read off its plate; hire one, or have it "
                "cut outside"
            ),
        )


class DustConditions:
    """What has to be in place on paper before silica is cut."""

    stage = "plan"

    @Rule(Tool(dust="silica", owned=False, name=MATCH.name))
    @advice(
        id="DUST-110",
        title="Write the silica plan first",
        reason=(
            "{name} holds crystalline silica or may hold it: law in most places asks for "
            "an exposure assessment and a written plan, and the sheet of the block for "
            "its share."
        ),
        cites=SILICA_SOURCES,
    )
    def silica_plan(self, name: str) -> Condition:
        return Condition(
            "The silica exposure is assessed and the exposure control plan is written.",
            "signature of a competent person, with the block's safety data sheet at hand",
        )

    @Rule(
        Shop(extraction=MATCH.extraction & among("none", "household")),
        Laminate(fibre=MATCH.fibre),
    )
    @advice(
        id="DUST-120",
        title="Find extraction or water for the trimming",
        reason=(
            "Trimming {fibre} laminate raises fine dust, and the shop's extraction is "
            "{extraction}."
        ),
        cites=("carbon-fragments-report", "common-practice"),
    )
    def trim_control(self, extraction: str, fibre: str) -> Condition:
        return Condition(
            "Class M or H extraction, or water, stands at the trimming blade, and an "
            "H-class or HEPA cleaner is at hand, owned or hired.",
            "class read off the plate of the machine",
        )


class PatternCautions:
    """Dust and gas of the pattern: its frame and parting boards are board in any case."""

    stage = "people"

    @Rule(Activity(name="makes-pattern"), Pattern(dust="metal", name=MATCH.name))
    @advice(
        id="CAUT-023",
        title="Guard against metal chips of the master",
        reason="{name} gives chips and fines when the master is cut and polished.",
    )
    def metal_master_caution(self, name: str) -> Caution:
        return Caution("metal-dust", "makes-pattern")

    @Rule(Activity(name="makes-pattern"), Tool(needs_pattern=True, name=MATCH.name))
    @advice(
        id="CAUT-022",
        title="Guard against wood dust of the pattern",
        reason="The pattern for {name} is cut from board and sanded.",
        cites=("niosh-guide-wood-dust", "uk-hse-wood-dust"),
    )
    def pattern_wood_caution(self, name: str) -> Caution:
        return Caution("wood-dust", "makes-pattern", agent="wood-dust")

    @Rule(Activity(name="makes-pattern"), Tool(needs_pattern=True, name=MATCH.name))
    @advice(
        id="CAUT-024",
        title="Guard against dust fire at the pattern",
        reason="Fine board dust from the pattern for {name} can burn or explode.",
        cites=("combustible-dust-poster", "nfpa-660-pages"),
    )
    def pattern_fire_caution(self, name: str) -> Caution:
        return Caution("combustible-dust", "makes-pattern")

    @Rule(Activity(name="makes-pattern"), Tool(needs_pattern=True, name=MATCH.name))
    @advice(
        id="CAUT-026",
        title="Guard against formaldehyde of the pattern",
        reason="Fibreboard cut for the pattern of {name} gives off formaldehyde.",
        cites=("osha-formaldehyde-summary",),
    )
    def pattern_formaldehyde_caution(self, name: str) -> Caution:
        return Caution("formaldehyde", "makes-pattern", agent="formaldehyde")

    @Rule(Activity(name="heats-pattern"), Tool(needs_pattern=True, name=MATCH.name))
    @advice(
        id="CAUT-028",
        title="Guard against formaldehyde of a warm pattern",
        reason=(
            "The pattern of {name} is warmed with it, and fibreboard gives off more "
            "formaldehyde warm."
        ),
        cites=("osha-formaldehyde-summary",),
    )
    def warm_pattern_caution(self, name: str) -> Caution:
        return Caution("formaldehyde", "heats-pattern", agent="formaldehyde")


class DustCautions:
    """Which dust hangs over which step."""

    stage = "people"

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="silica", name=MATCH.name),
    )
    @advice(
        id="CAUT-010",
        title="Guard against silica",
        reason=(
            "{name} raises respirable crystalline silica when it is cut, sanded, broken "
            "or cleaned up."
        ),
        cites=SILICA_SOURCES,
    )
    def silica_caution(self, activity: str, name: str) -> Caution:
        return Caution("silica", activity, agent="respirable-crystalline-silica")

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="wood", name=MATCH.name),
    )
    @advice(
        id="CAUT-020",
        title="Guard against wood dust",
        reason="{name} raises wood dust when it is cut, sanded or cleaned up.",
        cites=("niosh-guide-wood-dust", "uk-hse-wood-dust"),
    )
    def wood_caution(self, activity: str, name: str) -> Caution:
        return Caution("wood-dust", activity, agent="wood-dust")

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="polymer", name=MATCH.name),
    )
    @advice(
        id="CAUT-030",
        title="Guard against board dust",
        reason="{name} raises polymer dust, with whatever fills it.",
        cites=("pu-foam-sds",),
    )
    def board_caution(self, activity: str, name: str) -> Caution:
        return Caution("board-dust", activity, agent="respirable-dust")

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(family="acrylic-sheet", name=MATCH.name),
    )
    @advice(
        id="CAUT-032",
        title="Guard against the dust of filled acrylic",
        reason="{name} raises fine dust of aluminium hydroxide and acrylic.",
        cites=("solid-surface-review", "solid-surface-exposure", "solid-surface-sheet"),
    )
    def filled_acrylic_caution(self, activity: str, name: str) -> Caution:
        return Caution("filled-acrylic-dust", activity, agent="respirable-dust")

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="gypsum", name=MATCH.name),
    )
    @advice(
        id="CAUT-040",
        title="Guard against plaster dust",
        reason="{name} raises dust that may hold quartz.",
    )
    def gypsum_caution(self, activity: str, name: str) -> Caution:
        return Caution("gypsum-dust", activity, agent="respirable-dust")

    @Rule(
        Activity(name=MATCH.activity & among("cuts-tool", "sands-tool", "cleans-dust")),
        Tool(dust="metal", name=MATCH.name),
    )
    @advice(
        id="CAUT-050",
        title="Guard against metal chips",
        reason="{name} gives chips and fines when it is cut or rubbed down.",
    )
    def metal_caution(self, activity: str, name: str) -> Caution:
        return Caution("metal-dust", activity)

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="carbon", name=MATCH.name),
    )
    @advice(
        id="CAUT-055",
        title="Guard against carbon dust from the tool",
        reason="{name} raises conductive carbon dust when it is cut, sanded or cleaned up.",
        cites=("carbon-fragments-report",),
    )
    def carbon_tool_caution(self, activity: str, name: str) -> Caution:
        return Caution("carbon-dust", activity, agent="respirable-dust")

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "sands-tool", "breaks-tool", "cleans-dust")
        ),
        Tool(dust="carbon", name=MATCH.name),
    )
    @advice(
        id="CAUT-058",
        title="Keep carbon dust of the tool out of electrics",
        reason="Settled dust of {name} conducts and makes motors, drives and sockets fail.",
        cites=("carbon-electrical-sae-790034", "carbon-electrical-nasa-sp-448"),
    )
    def carbon_tool_electrics(self, activity: str, name: str) -> Caution:
        return Caution("electrical", activity)

    @Rule(
        Activity(name=MATCH.activity & among("cuts-tool", "sands-tool", "cleans-dust")),
        Tool(dust="glass", name=MATCH.name),
    )
    @advice(
        id="CAUT-060",
        title="Guard against glass dust from the tool",
        reason="{name} raises glass and resin dust when it is cut, sanded or cleaned up.",
    )
    def glass_tool_caution(self, activity: str, name: str) -> Caution:
        return Caution("glass-dust", activity, agent="fibrous-glass")

    @Rule(
        Activity(name=MATCH.activity & among("trims-part", "sands-part", "clears-up")),
        Laminate(fibre=NE("glass")),
    )
    @advice(
        id="CAUT-070",
        title="Guard against laminate dust",
        reason="Trimming the laminate raises fine, conductive dust and splinters.",
        cites=("carbon-fragments-report", "carbon-electrical-sae-790034"),
    )
    def laminate_caution(self, activity: str) -> Caution:
        return Caution("carbon-dust", activity, agent="respirable-dust")

    @Rule(
        Activity(name=MATCH.activity & among("trims-part", "sands-part", "clears-up")),
        Laminate(fibre="carbon"),
    )
    @advice(
        id="CAUT-075",
        title="Keep carbon dust out of electrics",
        reason="Settled carbon dust conducts and makes motors, drives and sockets fail.",
        cites=("carbon-electrical-sae-790034", "carbon-electrical-nasa-sp-448"),
    )
    def electrical_caution(self, activity: str) -> Caution:
        return Caution("electrical", activity)

    @Rule(
        Activity(name=MATCH.activity & among("trims-part", "sands-part", "clears-up")),
        Laminate(fibre="glass"),
    )
    @advice(
        id="CAUT-080",
        title="Guard against glass dust",
        reason="Trimming the laminate raises glass and resin dust.",
    )
    def glass_laminate_caution(self, activity: str) -> Caution:
        return Caution("glass-dust", activity, agent="fibrous-glass")

    @Rule(
        Activity(name=MATCH.activity & among("cuts-tool", "sands-tool", "cleans-dust")),
        Tool(combustible_dust=True, name=MATCH.name),
    )
    @advice(
        id="CAUT-090",
        title="Guard against dust fire",
        reason="Fine dust of {name} can burn, and a cloud of it can explode.",
        cites=("combustible-dust-poster", "nfpa-660-pages"),
    )
    def combustible_caution(self, activity: str, name: str) -> Caution:
        return Caution("combustible-dust", activity)

    @Rule(
        Activity(name=MATCH.activity & among("trims-part", "sands-part", "clears-up")),
        Laminate(fibre=MATCH.fibre),
    )
    @advice(
        id="CAUT-095",
        title="Guard against resin dust fire",
        reason="Trim dust of a resin laminate can burn like any fine resin dust.",
        cites=("combustible-dust-poster",),
    )
    def trim_dust_burns(self, activity: str, fibre: str) -> Caution:
        return Caution("combustible-dust", activity)

    @Rule(
        Activity(name=MATCH.activity & among("cuts-tool", "sands-tool", "heats-tool")),
        Tool(dust="wood", name=MATCH.name),
    )
    @advice(
        id="CAUT-100",
        title="Guard against formaldehyde",
        reason="{name} gives off formaldehyde when cut, and more when warm.",
        cites=("osha-formaldehyde-summary",),
    )
    def formaldehyde_caution(self, activity: str, name: str) -> Caution:
        return Caution("formaldehyde", activity, agent="formaldehyde")

    @Rule(
        Activity(
            name=MATCH.activity
            & among(
                "cuts-tool",
                "makes-pattern",
                "sands-tool",
                "breaks-tool",
                "cleans-dust",
                "trims-part",
                "sands-part",
            )
        )
    )
    @advice(
        id="CAUT-110",
        title="Put the mask last",
        reason=(
            "Where dust is raised a mask is often named; it comes after every other "
            "control."
        ),
        cites=("respirator-guidance-summary",),
    )
    def respirator_caution(self, activity: str) -> Caution:
        return Caution("respirator", activity)

    @Rule(
        Activity(
            name=MATCH.activity
            & among("cuts-tool", "makes-pattern", "breaks-tool", "trims-part")
        )
    )
    @advice(
        id="CAUT-120",
        title="Guard the ears",
        reason="Saws, routers and grinders are loud enough to harm hearing.",
        cites=("uk-hse-wood-noise", "cfr-1910-95-copy"),
    )
    def noise_caution(self, activity: str) -> Caution:
        return Caution("noise", activity, agent="noise")

    @Rule(
        Activity(
            name=MATCH.activity
            & among(
                "cuts-tool",
                "makes-pattern",
                "breaks-tool",
                "trims-part",
                "mixes-resin",
                "demoulds",
            )
        )
    )
    @advice(
        id="CAUT-130",
        title="Guard the eyes",
        reason="Chips, springing edges and splashes reach the eyes first.",
    )
    def eye_caution(self, activity: str) -> Caution:
        return Caution("eyes", activity)

    @Rule(
        Activity(
            name=MATCH.activity
            & among(
                "cuts-tool",
                "sands-tool",
                "makes-pattern",
                "breaks-tool",
                "trims-part",
                "sands-part",
            )
        )
    )
    @advice(
        id="CAUT-140",
        title="Guard the hands against vibration",
        reason="Hand-held sanders, routers, saws and grinders shake the hands.",
        cites=("vibration-agents-portal", "vibration-limits-manual"),
    )
    def vibration_caution(self, activity: str) -> Caution:
        return Caution("vibration", activity, agent="vibration")

    @Rule(
        Activity(name=MATCH.activity & among("cuts-tool", "sands-tool", "breaks-tool")),
        Tool(dust="silica", name=MATCH.name),
    )
    @advice(
        id="CAUT-150",
        title="Keep the slurry of a mineral block off skin and out of the drain",
        reason="Cut wet, {name} leaves an alkaline slurry.",
        cites=("block-maker-safety-page", "common-practice"),
    )
    def slurry_caution(self, activity: str, name: str) -> Caution:
        return Caution("alkaline", activity)

    @Rule(Activity(name="mixes-cement"), Tool(name=MATCH.name))
    @advice(
        id="CAUT-160",
        title="Keep a cement mix off the skin",
        reason="The wet mix of {name} is alkaline.",
        cites=("cement-safety-page",),
    )
    def cement_caution(self, name: str) -> Caution:
        return Caution("alkaline", "mixes-cement")
