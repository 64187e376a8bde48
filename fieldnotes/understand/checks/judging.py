"""Whether the words of an outcome judge something where they stand, or only look like it.

"The belt is tight" judges, "tight in here" and "I tightened it" don't; "it sticks" judges, "when it sticks" doesn't.
Each strength of a rule (see vocab/rules/outcomes.yaml) has its own question.
"""

from __future__ import annotations

from itertools import pairwise

from fieldnotes.understand.checks.acting import SELF, acts, behind_a_part, has_object
from fieldnotes.understand.checks.presence import before_a_preposition, ends_there, is_there
from fieldnotes.understand.words.clauses import Clause
from fieldnotes.understand.words.narration import Mark, Narration

JUDGED = ("good", "fault")
PERSONS = ("you", "she", "he")
OF_MACHINES = ("state", "verb", "firm")  # descriptions in which "she" and "he" may be the machine ...
OF_PEOPLE = (
    "good",
    "fine",
    "okay",
    "ok",
    "right",
    "wrong",
    "alright",
    "happy",
    "satisfied",
    "content",
    "pleased",
)  # ... but not these
SENSED = ("see", "saw", "hear", "heard", "feel", "felt")
LONGEST_OBJECT = 4  # words behind a deed
SUPPOSED = (
    "when",
    "whenever",
    "while",
    "whilst",
    "until",
    "till",
    "unless",
    "whether",
    "once",
    "after",
    "before",
)
WANTED = (
    "should",
    "ought",
    "must",
    "supposed",
    "meant",
    "needs",
    "need",
    "has",
    "have",
    "can",
    "could",
    "would",
)
AHEAD = ("will", "'ll", "would", "could", "might", "should", "must", "may")
ATTRIBUTE = ("noted", "found", "seen", "noticed", "spotted", "observed")


def judges(narration: Narration, clause: Clause, mark: Mark, negated: bool) -> bool:
    """Whether an outcome's words judge here. `negated`: a negation reaches them."""
    strength, words = mark.rule.strength, narration.words
    if mark.value not in JUDGED:
        return True
    before = words[clause.first : mark.first]
    if _about_people(narration, clause, mark) or _is_ironic(narration, clause, mark):
        return False
    if strength == "firm" and mark.last - mark.first > 1:
        return True
    if strength != "firm" and (words[clause.first] in SUPPOSED or "whether" in before or _is_wanted(before)):
        return False
    if _cleared_away(narration, clause, mark) or _tells_how_it_was_left(narration, clause, mark):
        return False
    if strength == "noun":
        forbidden = before[-1:] == ("don't",) and len(before) == 1  # "don't lean on it"
        return (negated and not forbidden) or is_there(narration, clause, mark)
    if strength == "state":
        return not _is_deed(narration, clause, mark) and not _names_a_sort(narration, clause, mark)
    if strength == "verb":
        return acts(narration, clause, mark, negated)
    if strength == "supply" and _made_safe(narration, clause):
        return False
    if strength == "word" and mark.value == "good" and _came_of_work(narration, clause, mark):
        return False
    return _plain_word_judges(narration, clause, mark, negated)


def _is_wanted(before: tuple[str, ...]) -> bool:
    """Whether the words are only what should be or will be ("it should be closed when it's cold", "the valve will
    open")."""
    if before[-1:] == ("be",):
        return any(word in WANTED for word in before[-4:-1])
    return bool(before) and before[-1] in AHEAD


def _about_people(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether the subject is a person ("you cannot sit in the drum"); in "she turns free" it is the machine, and in
    "you can hear it grinding" nobody."""
    words = narration.words
    harmless = narration.marked("pseudo", clause.first, mark.first)  # "you'd ask for no better"
    people = [
        n
        for n in range(clause.first, mark.first)
        if words[n] in PERSONS and not any(p.first <= n < p.last for p in harmless)
    ]
    of_machine = mark.rule.strength in OF_MACHINES and not any(
        word in OF_PEOPLE for word in words[mark.first : mark.last]
    )
    if of_machine and any(words[n] != "you" and mark.first - n <= 2 for n in people):
        return False
    return any(not any(word in SENSED for word in words[n + 1 : n + 3]) for n in people)


def _is_ironic(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether praise is about what was found in a thing and taken out of it ("the sump, that was lovely, a mouse and a
    sock, all cleaned out now")."""
    words = narration.words[clause.first : mark.last]
    if mark.value != "good" or ("that", "was") not in pairwise(words):
        return False
    _, end = narration.breaths[clause.breath]
    done = [m for m in narration.marked("work", mark.last, end) if m.value in ("cleaned", "removed")]
    if not done:
        return False
    named = narration.named(mark.last, min(end, done[0].last + LONGEST_OBJECT))
    return all(m.name.name in narration.trade.foreign_matter for m in named)


def stands_alone(narration: Narration, clause: Clause, first: int, last: int) -> bool:
    """Whether nothing but openers and verbs of seeming surrounds [first, last) in the clause."""
    grammar, words = narration.grammar, narration.words
    rest = [*words[clause.first : first], *words[last : clause.last]]
    return all(w in grammar.openers or w in grammar.seemings or w in grammar.determiners for w in rest)


def _plain_word_judges(narration: Narration, clause: Clause, mark: Mark, negated: bool) -> bool:
    """Plain words need a verb of seeming, a part or nothing before them."""
    if mark.last - mark.first > 1 or negated or stands_alone(narration, clause, mark.first, mark.last):
        return True
    if mark.value == "fault" and _before_a_part(narration, mark):
        return narration.words[mark.first - 1] != "the" and not _names_a_sort(narration, clause, mark)
    if _describes_what_follows(narration, clause, mark):
        return False
    if (
        narration.words[mark.first - 1 : mark.first] == ("to",)
        and narration.words[mark.first] in narration.trade.also_deeds
    ):
        return False  # "the door's open to dry"
    if mark.first == clause.first:  # "front felt, intact all the way round"
        return mark.rule.strength == "word" and mark.first > narration.breaths[clause.breath][0]
    if narration.words[mark.first - 1] in narration.grammar.seemings:
        return True
    if mark.value == "good" and any(
        q.last == mark.first for q in narration.numbers(clause.first, mark.first)
    ):
        return True  # "bake element twenty one ohms good"
    leaning = mark.value == "fault" and before_a_preposition(narration, clause, mark)
    return behind_a_part(narration, clause, mark) and not leaning


def _describes_what_follows(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a single word only describes the noun behind it ("the right rear")."""
    if ends_there(narration, clause, mark):
        return False
    after, grammar = narration.words[mark.last], narration.grammar
    if (
        after.endswith("ing")
        and after not in narration.nouns
        and narration.words[mark.first - 1] in grammar.being
    ):
        return False  # "it's quiet doing it"
    if narration.words[mark.first] in grammar.place_words and after in grammar.prepositions:
        return True
    return (
        after not in grammar.goes_with_judgement
        and after not in grammar.prepositions
        and after not in grammar.joiners
    )


def _is_deed(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a participle is somebody's or something's deed ("I pulled off", "cooked the relay")."""
    words, grammar = narration.words, narration.grammar
    before = words[max(clause.first, mark.first - 2) : mark.first]
    if any(word in SELF for word in before[-1:]) or (
        before[:1] in (("i",), ("we",)) and before[1:] == ("'ve",)
    ):
        return True
    if words[mark.last - 1] in grammar.prepositions or words[mark.first] in grammar.being:
        return False
    if words[mark.first - 1] in grammar.being and words[mark.first - 1] != "'s":
        return False  # "the belt is worn the roller's fine"
    return has_object(narration, mark)


def _names_a_sort(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a state only says which sort of part is spoken of ("a grounded element can heat"), rather than that
    there is one here ("there's a scorched lead", "a loose knob was noted")."""
    grammar, words = narration.grammar, narration.words
    before = words[clause.first : mark.first]
    if before[:1] in (("a",), ("an",)) and "that" in before:
        return True  # "a motor that's been cooked smells"
    if not _before_a_part(narration, mark) or (before and before[-1] in grammar.being):
        return False
    shown = any(word in grammar.showing for word in before) or any(
        word in ATTRIBUTE for word in words[mark.last : clause.last]
    )
    return mark.first != narration.breaths[clause.breath][0] and not shown


def _cleared_away(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether dirt is only named as what was taken out ("there was a wad of fluff in it" after "cleaned out")."""
    soil = narration.marked("soil", mark.first, mark.last)
    return bool(soil) and any(
        m.value in ("cleaned", "removed") and m.first < mark.first
        for m in narration.marked("work", *narration.breaths[clause.breath])
    )


def _tells_how_it_was_left(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether the breath tells in which state the unit was left ("it's running, I left it plugged in")."""
    if mark.rule.strength == "firm" or narration.named(clause.first, clause.last):
        return False
    return any(m.value == "left" for m in narration.marked("safety", *narration.breaths[clause.breath]))


def _came_of_work(narration: Narration, clause: Clause, mark: Mark) -> bool:
    """Whether a good word only says what cleaning came to ("I brushed it, so the coil's clean now")."""
    first, _ = narration.breaths[clause.breath]
    cleaned = any(
        m.last <= mark.first and m.value in ("cleaned", "removed")
        for m in narration.marked("work", first, mark.first)
    )
    now = any(word in ("now", "again") for word in narration.words[clause.first : clause.last])
    return cleaned and (now or not narration.named(clause.first, mark.first))


def _made_safe(narration: Narration, clause: Clause) -> bool:
    """Whether the breath tells of a supply that was shut off."""
    return any(m.value == "isolated" for m in narration.marked("safety", *narration.breaths[clause.breath]))


def _before_a_part(narration: Narration, mark: Mark) -> bool:
    if narration.tokens[mark.last - 1].stop:
        return False
    return any(m.first == mark.last for m in narration.named(mark.last, mark.last + 6))
