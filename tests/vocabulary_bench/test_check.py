"""`vocab check`: every kind of mistake, told in one line with file, line and how to mend it."""

from __future__ import annotations

import ast
from pathlib import Path
from typing import NamedTuple, get_args

import pytest

from fieldnotes.errors import VocabularyError
from fieldnotes.places import PACKAGE
from fieldnotes.vocabulary.formulas import FormulaName
from fieldnotes.vocabulary.load import vocabulary_files
from fieldnotes.vocabulary.rules import Label
from fieldnotes.vocabulary_bench.check import check_vocabulary
from fieldnotes.vocabulary_bench.opened import FOLDERS, SINGLE


class Row(NamedTuple):
    """A text of the small vocabulary, what it is spoilt to, and what must be told of the file."""

    id: str
    file: str
    old: str
    new: str
    told: str


URN, RULES = "appliances/urn.yaml", "rules/fine.yaml"
ROWS = [
    # what the loader refuses
    Row("unknown key", URN, "short: [valve]", "shrt: [valve]", "line 6: unknown key 'shrt'. Did you mean \"short\"?"),
    Row("unknown key, none near", "rules/fine.yaml", "id: fine", "id: fine\n    colour: red",
        "line 3: unknown key 'colour'. It can be one of"
        " closes, finds, form, id, label, misses, name, object, phrases, strength, value."),
    Row("repeated key", URN, "spoken: [tea urn]", "spoken: [tea urn]\nkind: pot",
        "line 3: 'kind' stands here a second time. Take one of the two out."),
    Row("missing key", RULES, '    misses: ["a fine day"]\n', "", "line 2: rules.misses is missing. Add it."),
    Row("no YAML", URN, "kind: urn", "kind: [urn", "line 2: did not find expected ',' or ']'."
        " A text with any of : # [ ] { } needs quotes."),
    Row("open bracket", URN, "short: [valve]", "short: [(valve]",
        "line 6: parts.short: phrase '(valve': a bracket is not closed"),
    Row("limit without source", "limits.yaml", "    source: invented\n    maximum", "    maximum",
        'line 6: limits: status "from memory" needs a source; without one, write "common practice, no source"'),
    Row("caution without source", "cautions.yaml", '"common practice, no source"', "looked up",
        'line 5: cautions: status "looked up" needs a source; without one, write "common practice, no source"'),
    # names
    Row("two parts of one pack", URN, "spoken: [cover]", "spoken: [cover, valves]",
        'line 9: "valves" names "lid", and "tap" as well (appliances/urn.yaml, line 6).'
        " Take it out of one of the two."),
    Row("part of parts.yaml", URN, "spoken: [cover]", "spoken: [rubber hose]",
        'line 9: "rubber hose" names "lid", and "hose" as well (parts.yaml, line 3).'
        " Take it out of one of the two."),
    Row("part of the wider pack", "appliances/big-urn.yaml", "parts:", "parts:\n  - {name: hood, spoken: [cover]}",
        'line 5: "cover" names "hood", and "lid" as well (appliances/urn.yaml, line 9).'
        " Take it out of one of the two."),
    Row("two kinds", URN, "spoken: [tea urn]", "spoken: [tea urn, party urn]",
        'line 2: "party urn" names "urn", and "big urn" as well (appliances/big-urn.yaml, line 2).'
        " Take it out of one of the two."),
    Row("part given twice", URN, "  - name: lid\n    spoken: [cover]", "  - name: lid\n  - name: lid",
        'line 9: "lid" stands in parts a second time (appliances/urn.yaml, line 8). Make one entry of the two.'),
    Row("misheard and spoken", URN, "misheard: [tab]", "misheard: [tab, cover]",
        'line 7: "cover" is given as misheard, but it names "lid" (appliances/urn.yaml, line 9).'
        " A misheard form must mean nothing: take it out."),
    Row("misheard for two", URN, "misheard: [tab]", "misheard: [tab, hoes]",
        'line 7: "hoes" is misheard for "tap", and "hose" as well (parts.yaml, line 4).'
        " Take it out of one of the two."),
    # what can never match
    Row("bracket inside a word", URN, "[cover]", "[cover, 'lid(s)']",
        'line 9: "lid(s)" has a sign inside a word after "lid". Signs stand for whole words:'
        ' write "drain|drains", not "drain(s)".'),
    Row("question mark inside a word", URN, "[cover]", "[cover, colou?r ring]",
        'line 9: "colou?r ring" has a sign inside a word after "colou?". Signs stand for whole words:'
        ' write "drain|drains", not "drain(s)".'),
    Row("filler", URN, "[cover]", "[cover, um lid]",
        'line 9: "um lid" holds the filler "um", which is dropped before matching. Take the word out.'),
    Row("half a contraction", RULES, "phrases: [all fine", "phrases: [is n't fine, all fine",
        'line 5: "is n\'t fine" holds "n\'t" as a word, but "isn\'t" is one word. Write the whole word.'),
    Row("slot in a name", URN, "[cover]", "[cover, <part> cover]",
        "line 9: \"<part> cover\" cannot name a thing: phrase '<part> cover':"
        " slots are for rules, not for names of things."),
    Row("contraction in what is judged", "cautions.yaml", "says: [steam]", 'says: ["steam\'s out"]',
        'line 9: "steam\'s out" holds "\'s", which is dropped from what is judged. Take it out.'),
    Row("contraction as one word", "grammar.yaml", "links: []", 'links: [is, "that\'s"]',
        "line LINKS: \"that's\" in links never matches: speech is compared word by word,"
        " and splits it into 'that' and \"'s\". Take it out."),
    Row("capital in a word", "grammar.yaml", "links: []", "links: [Is]",
        "line LINKS: \"Is\" in links never matches: speech is compared word by word,"
        " and splits it into 'is'. Take it out."),
    Row("filler among the words", "grammar.yaml", "openers: [okay]", "openers: [okay, uh]",
        'line OPENERS: "uh" in openers is a filler, which is dropped before matching. Take it out.'),
    # what does not exist
    Row("no such wider kind", "appliances/big-urn.yaml", "wider: urn", "wider: urrn",
        'line 3: no kind of appliance is called "urrn". Did you mean "urn"?'),
    Row("no such symptom", URN, "complaint: [drips, noise]", "complaint: [dripss, noise]",
        'line 14: no symptom of "urn" is called "dripss". Did you mean "drips"?'),
    Row("no such part or trial", URN, "about: [tap, test run]", "about: [tap, tset run]",
        'line 16: no part or trial of "urn" is called "tset run". Did you mean "test run"?'),
    Row("no such unit", "parts.yaml", "measured_in: [ohm]", "measured_in: [ohms]",
        'line 6: "ohms" is no unit. Did you mean "ohm"?'),
    Row("no such kind for a limit", "sums.yaml", "kinds: [urn]", "kinds: [urn, urns]",
        'line 15: no kind of appliance is called "urns". Did you mean "urn"?'),
    Row("no such kind nor any near", "sums.yaml", "kinds: [urn]", "kinds: [urn, zzz]",
        'line 15: no kind of appliance is called "zzz". Take it out, or add it.'),
    Row("no value where one is due", RULES, "    value: good\n", "",
        'line 2: rule "fine" has no value; outcome is one of good, fault, unclear, not tested, none, as before.'
        ' Give one of these.'),
    Row("no regular expression", URN, '"U\\\\d"', '"U("',
        'line 12: "U(" is no regular expression: missing ), unterminated subpattern at position 1.'
        ' E01 to E99 is "E\\\\d\\\\d".'),
    Row("no such value", RULES, "value: good", "value: goood",
        'line 4: rule "fine" has value "goood"; outcome is one of good, fault, unclear, not tested, none, as before.'
        ' Did you mean "good"?'),
    # rules and limits against their samples
    Row("sample not found", RULES, "is quite fine", "is fairly fine",
        'line 6: rule "fine" does not find its sample "the tap is fairly fine". Add the wording to its phrases.'),
    Row("sample hidden", RULES, "less than fine]", "less than fine, is quite fine]",
        'line 6: rule "fine" does not find its sample "the tap is quite fine",'
        ' only "is quite fine" (not-so-fine) is found of outcome. Add the wording to its phrases.'),
    Row("miss found", RULES, "a fine day", "really fine day",
        'line 7: rule "fine" finds "really fine" in its miss "really fine day". Narrow the phrase.'),
    Row("phrase twice", RULES, "phrases: [less than fine]", "phrases: [less than fine, quite|really fine]",
        'line 11: phrase "quite|really fine" of rule "not-so-fine" stands in rule "fine" already'
        " (rules/fine.yaml, line 5). Take one of the two out."),
    Row("rule id twice", RULES, "id: not-so-fine", "id: fine",
        'line 8: id "fine" is that of another rule (rules/fine.yaml, line 2). Give one of them another.'),
    Row("limit holds not", "limits.yaml", "{about: outlet, value", "{about: pump, value",
        'line 13: limit "outlet" does not hold for its sample "pump", 120 V: no limit takes it.'
        " Mend its words."),
    Row("limit holds wrongly", "limits.yaml", "{about: switch, value", "{about: outlet, value",
        'line 14: limit "outlet" holds for a reading that it should not "outlet", 120 V:'
        ' limit "outlet" takes it. Mend its words.'),
    Row("limit judges otherwise", "limits.yaml", "maximum: 126", "maximum: 110",
        'line 13: limit "outlet": "outlet", 120 V is judged "outside", and its sample says "within".'
        " Mend the bounds or the sample."),
    Row("sum not made", "sums.yaml", "after: [bends]", "after: [knees]",
        'line 20: sum "pipe" is not made for its sample "steam pipe", 9 ft, which wants 25. Mend its words.'),
    Row("sum gives another value", "sums.yaml", "gives: 25", "gives: 20",
        'line 20: sum "pipe" gives 25 for its sample "steam pipe", 9 ft, which wants 20. Mend its words.'),
    Row("sum made wrongly", "sums.yaml", "steam hose", "steam pipe",
        'line 21: sum "pipe" gives 25 for its sample "steam pipe", 9 ft, which wants not to be made.'
        " Mend its words."),
    Row("sum judges otherwise", "sums.yaml", "judgement: within", "judgement: outside",
        'line 20: sum "pipe": "steam pipe", 9 ft is judged "within", and its sample says "outside".'
        " Mend the bounds or the sample."),
    Row("sum without a source", "sums.yaml", "    source: invented\n", "",
        'line 7: sums: status "from memory" needs a source; without one, write "common practice, no source"'),
    Row("sum with a formula that nobody knows", "sums.yaml", "duct length allowed", "duct length alowed",
        f'line 9: sums.formula "duct length alowed" is not one of {", ".join(get_args(FormulaName))}.'
        ' Did you mean "duct length allowed"?'),
    Row("input left out", "sums.yaml", "      elbows: {said: [], after: [bends], what: bends}\n", "",
        'line 7: sums: "duct length allowed" takes longest, elbows, each, and gets longest, each'),
    Row("input from two places", "sums.yaml", "{figure: 35,", "{figure: 35, supply: across,",
        'line 12: sums.inputs.longest: give one of read, said, figure, supply, part, named'),
    Row("reading of another quantity", "sums.yaml", "{figure: 35, what: longest}",
        "{read: {read: voltage, point: [tap]}}",
        'line 7: sums: "longest" is reckoned in ft, which does not measure voltage'),
    Row("key of an input", "sums.yaml", "{figure: 5,", "{figur: 5,",
        "line 14: unknown key 'figur'. Did you mean \"figure\"?"),
]  # fmt: skip


@pytest.mark.parametrize("row", ROWS, ids=[row.id for row in ROWS])
def test_mistake_is_told_in_one_line(vocab: Path, row: Row) -> None:
    path = vocab / row.file
    text = path.read_text(encoding="utf-8")
    assert text.count(row.old) == 1
    spoilt = text.replace(row.old, row.new)
    path.write_text(spoilt, encoding="utf-8")
    told = row.told
    for key in [key for key in ("links", "openers") if key.upper() in told]:
        told = told.replace(key.upper(), str(1 + [n.split(":")[0] for n in spoilt.splitlines()].index(key)))

    assert list(map(str, check_vocabulary().mistakes)) == [f"{row.file}, {told}"]


def test_sound_vocabulary_has_no_mistake(vocab: Path) -> None:
    checked = check_vocabulary()

    assert checked.mistakes == ()
    assert checked.summary == (
        f"vocab: 2 kinds, 5 parts, 2 symptoms, 1 trials, {len(get_args(Label)) + 1} rules,"
        f" {len(get_args(Label)) + 2} phrases of rules, 1 limits, 1 sums, 1 cautions, 0 explanations; no mistakes"
    )


def test_mistakes_of_all_files_are_told_at_once(vocab: Path) -> None:
    for file, old, new in (
        ("parts.yaml", "[ohm]", "[ohms]"),
        (URN, "short:", "shrt:"),
        (RULES, "value: good", "value: gud"),
    ):
        path = vocab / file
        path.write_text(path.read_text(encoding="utf-8").replace(old, new), encoding="utf-8")

    told = [str(mistake).split(": ")[0] for mistake in check_vocabulary().mistakes]

    # and nothing is said against what names the pack that cannot be read
    assert told == ["appliances/urn.yaml, line 6", "parts.yaml, line 6", "rules/fine.yaml, line 4"]


def test_samples_wait_until_all_files_can_be_read(vocab: Path) -> None:
    path = vocab / RULES
    path.write_text(path.read_text(encoding="utf-8").replace("outcome", "outcom"), encoding="utf-8")

    checked = check_vocabulary()

    assert checked.summary.endswith("2 mistakes (samples are tried once these are mended)")


def test_label_without_a_rule_is_told(vocab: Path) -> None:
    path = vocab / "rules/rest.yaml"
    text = path.read_text(encoding="utf-8").replace("label: turn\n", "label: plan\n")
    path.write_text(text, encoding="utf-8")

    assert list(map(str, check_vocabulary().mistakes)) == [
        'rules, line 1: no rule has the label "turn", so what it marks is never found. Add a rule with it.'
    ]


@pytest.mark.parametrize(
    ("name", "mend"),
    [
        ("part.yaml", 'Did you mean "parts.yaml"?'),
        ("appliance/kettle.yaml", 'Did you mean "appliances"?'),
        ("zzz.yaml", "A new kind of appliance goes under appliances/, a rule under rules/."),
        ("appliances/kettle.yml", "Name it kettle.yaml."),
    ],
)
def test_file_that_is_never_read_is_told(vocab: Path, tmp_path: Path, name: str, mend: str) -> None:
    shop = tmp_path / "shop"
    (shop / name).parent.mkdir(parents=True)
    (shop / name).write_text("kind: kettle\nspoken: [kettle]\n", encoding="utf-8")

    mistakes = check_vocabulary(shop).mistakes

    assert list(map(str, mistakes)) == [f"{shop / name}, line 1: a file of this name is never read. {mend}"]


def test_shop_replaces_the_file_of_the_same_name(vocab: Path, tmp_path: Path) -> None:
    shop = tmp_path / "shop"
    (shop / "appliances").mkdir(parents=True)
    own = (vocab / URN).read_text(encoding="utf-8").replace("[cover]", "[cover, drip tap]")
    (shop / URN).write_text(own, encoding="utf-8")

    assert list(map(str, check_vocabulary(shop).mistakes)) == [
        f'{shop / URN}, line 9: "drip tap" names "lid", and "tap" as well ({shop / URN}, line 5).'
        " Take it out of one of the two."
    ]


def test_folder_that_is_missing_is_told(vocab: Path) -> None:
    with pytest.raises(VocabularyError, match="nowhere: is no folder"):
        check_vocabulary(Path("nowhere"))


def test_every_built_in_file_has_a_known_shape() -> None:
    names = [name for name in vocabulary_files() if name not in SINGLE]

    assert {name.split("/")[0] for name in names} <= FOLDERS.keys()


def test_code_asks_for_labels_that_rules_can_have() -> None:
    """Every label is asked for somewhere in the understand stage, and no other is."""
    said: set[str] = set()
    asked: set[str] = set()
    for path in (PACKAGE / "understand").rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Constant) and isinstance(node.value, str):
                said.add(node.value)
            if (
                isinstance(node, ast.Call)
                and isinstance(node.func, ast.Attribute)
                and node.func.attr == "marked"
            ):
                asked |= {
                    a.value for a in node.args[:1] if isinstance(a, ast.Constant) and isinstance(a.value, str)
                }

    assert (set(get_args(Label)) - said, asked - set(get_args(Label))) == (set(), set())


def test_built_in_vocabulary_has_no_mistake() -> None:
    assert list(map(str, check_vocabulary().mistakes)) == []
