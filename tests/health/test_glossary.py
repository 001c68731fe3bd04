"""Words of the trade: those that the rule base uses are explained, and no others."""

import re
from dataclasses import replace

import pytest
from wordfreq import zipf_frequency

from advisor.knowledge.rows import Word
from advisor.knowledge.tables import load_knowledge
from advisor.reasoning.rulebook import rule_entries
from advisor.rule_base import check, vocabulary

# Rare in print, and yet everyday words, or words of arithmetic and of places in a file.
PLAIN = set(
    """
abrade abrading acetone arccos aslant backings bakes bedded breathable butted bypassed
carcinogen carcinogenic cautions ceil charted chiselled chisels clamped clamping coarser
combustible condenses consumables couplings creased crosswise crumbles dabbed deburr
deflections degc dispensers dowels dryness dulls earthed earthing electrics enclose
endangers extinguisher extractor extractors eyewash feeler feelers fingernail flatness
flue fume gentler giddiness gloved grinders grits handhold hardening hardens hollowed
hoses hydroxide incinerators insulator interlock irritates jacking lacquer lapped
levelling lidded loosened machined mended mends milled millimetres miscounted misleads
moats molar narrowest odour offcut outlives outruns outwards outweighs overheat
overheated peels pimple pinches plasters polyethylene polypropylene polystyrene pried
prying puller putty radii readies reconditioned rehearse renewals resins ribbed roughed
roughness sanded sander sanding saturate sawdust sawing sawn saws scoured scrapers
scrapes seeps sensitise sevenfold sharps shaven sheared shears shrinkage singly slurry
smears soaks softens soiled soldering splashes splinters squeegees stagger starves
stockist stretchable surfacing tenfold thickest thinnest tightest tooled tooling
unbagged uncoated uncured unevenly unfilled unmixed unsealed unsupported unsymmetric
vapours vented ventilate warps washers weighings worktop
""".split()
)
RARE = 3.0  # below one in a million words of English (zipf scale of the word list)


def unexplained(sentences, known):
    """Return words that are rare in English and stand neither in the glossary nor here."""
    explained = {
        part.lower()
        for word in known.glossary.values()
        for form in word.forms
        for part in re.split(r"[^A-Za-z]", form)
    }
    words = {word.lower() for one in sentences for word in re.findall("[A-Za-z]{3,}", one)}
    return {word for word in words - explained - PLAIN if zipf_frequency(word, "en") < RARE}


def with_words(**words):
    known = load_knowledge()
    return replace(known, glossary={**known.glossary, **words})


def without(id):
    known = load_knowledge()
    return replace(known, glossary={k: v for k, v in known.glossary.items() if k != id})


def found(known):
    return " ".join(vocabulary.faults(rule_entries(), known))


def test_rare_words_of_the_rule_base_are_explained():
    """How common a word is, is taken from the open word list of the package wordfreq."""
    known = load_knowledge()
    said = list(vocabulary.sentences(rule_entries(), known))
    assert unexplained(said, known) == set()
    assert unexplained([*said, "Bleed it through the caul."], known) == {"caul"}


def test_a_plain_word_is_used_and_is_not_explained_too():
    known = load_knowledge()
    said = " ".join(vocabulary.sentences(rule_entries(), known)).lower()
    assert {word for word in PLAIN if word not in said} == set()


@pytest.mark.parametrize("id", ["faw", "lel", "hepa", "mdf"])
def test_an_abbreviation_that_nothing_explains_is_found(id):
    assert "is used and not explained" in found(without(id))


def test_a_word_explained_in_vain_or_twice_is_found():
    row = {"term": "X", "means": "Nothing.", "source": ("common-practice",)}
    assert "nothing in the rule base uses it" in found(
        with_words(x=Word(forms=("widdershins",), **row))
    )
    assert "is explained by" in found(with_words(x=Word(forms=("LEL",), **row)))


def test_the_glossary_that_ships_has_no_fault():
    assert found(load_knowledge()) == ""


def test_each_word_is_explained_in_one_sentence():
    for id, word in load_knowledge().glossary.items():
        assert word.means[0].isupper(), id
        assert word.means.endswith("."), id
        assert word.means.count(". ") == 0, id


def test_a_module_without_a_topic_is_found(monkeypatch):
    known = load_knowledge()
    left = {id: row for id, row in known.topics.items() if id != "money"}
    monkeypatch.setattr(check, "load_knowledge", lambda: replace(known, topics=left))
    assert "topics.toml: money stands 0 times, and has rules" in check.faults()
