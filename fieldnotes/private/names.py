"""Names of people: behind a title or a phrase that calls for one, and the same name wherever else it stands."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Sequence

from fieldnotes.private.cues import Found, plain_words, table
from fieldnotes.private.digits import digits_at
from fieldnotes.private.tokens import Token
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.words import split_words

MOST_WORDS = 3  # "Mary Ann Tilling"


def names_in(tokens: Sequence[Token], vocabulary: Vocabulary) -> Iterator[Found]:
    """Names behind titles and phrases, and given names that are nothing else."""
    cues = vocabulary.private
    cased = any(token.capital and not token.opens and token.text != "i" for token in tokens)
    for at, token in enumerate(tokens):
        if token.text in cues.titles or token.text in cues.weak_titles:
            weak = token.text in cues.weak_titles
            first = _past_initials(tokens, at + 1)
            last = _name_end(tokens, first, vocabulary, cased, sure=not weak)
            if last > first:
                yield Found("name", at, last)
        elif (
            token.text in cues.given_names
            and (token.capital or not cased)
            and not _spells(tokens, at, vocabulary)
        ):
            yield Found("name", at, max(at + 1, _name_end(tokens, at, vocabulary, cased, sure=False)))
        elif (last := _acting(tokens, at, vocabulary, cased)) > at or _called(tokens, at, vocabulary):
            yield Found("name", at, max(last, at + 1))
    yield from _households(tokens, vocabulary)
    for name in ("name_is", "person_before", *(("place_before",) if cased else ())):
        for _, after in table(vocabulary, name).ends(tokens):
            if tokens[after - 1].stop in (".", "?", "!"):
                continue
            first = _past_links(tokens, after, vocabulary)
            last = _name_end(tokens, first, vocabulary, cased, sure=False, named=name == "name_is")
            if last > first:
                yield Found("name", first, last)


def same_names(tokens: Sequence[Token], names: Iterable[str], vocabulary: Vocabulary) -> Iterator[Found]:
    """Where words of known names stand, with a title before them; also "the Tillings", and "T I L L I N G".

    A name that is a plain word too ("Mark") counts only with a capital inside a sentence, and none does that only
    spells a letter.
    """
    known = {word for name in names for word in split_words(name)}
    plain, cues = plain_words(vocabulary), vocabulary.private
    known -= cues.titles | cues.weak_titles | cues.name_joints | {"'s"}
    for at, token in enumerate(tokens):
        if len(token.text) == 1 and (last := _spelt_out(tokens, at, known)):
            yield Found("name", at, last)
        family = token.text.endswith("s") and token.text[:-1] in known and token.text not in plain
        if not (family or token.text in known) or len(token.text) < 2 or token.text.isdigit():
            continue
        if token.text in plain and (not token.capital or token.opens):
            continue
        if _spells(tokens, at, vocabulary):
            continue
        titled = at > 0 and tokens[at - 1].text in cues.titles | cues.weak_titles and not _ended(tokens, at)
        yield Found("name", at - titled, at + 1)


def _acting(tokens: Sequence[Token], at: int, vocabulary: Vocabulary, cased: bool) -> int:
    """The end of a word that nobody knows before what only people do ("Ottoline reckons"); `at` where it is none."""
    cues, plain, token = vocabulary.private, plain_words(vocabulary), tokens[at]
    before = (
        tokens[at - 1] if at and tokens[at - 1].breath == token.breath and not tokens[at - 1].stop else None
    )
    if before is not None and before.text not in vocabulary.grammar.joiners | vocabulary.grammar.openers:
        return at
    if token.stop or token.text in plain or (cased and not token.capital) or at + 1 >= len(tokens):
        return at
    if not _is_name(token, vocabulary, cased, sure=True, named=False):
        return at
    verb = at + 1 + (tokens[at + 1].text in cues.barely)
    acts = (
        verb < len(tokens) and tokens[verb].breath == token.breath and tokens[verb].text in cues.person_verbs
    )
    return at + 1 if acts else at


def _called(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> bool:
    """Whether somebody is spoken to: "Right Tobias, gas range", "on your sheet, Lorcan, you put", "now, Ciara?"."""
    token, cues = tokens[at], vocabulary.private
    if at == 0 or tokens[at - 1].breath != token.breath or token.stop not in (",", "?"):
        return False
    if token.opens or not token.capital or not _is_name(token, vocabulary, True, sure=True, named=False):
        return False
    before, after = tokens[at - 1], tokens[at + 1].text if at + 1 < len(tokens) else ""
    if token.text in plain_words(vocabulary):
        return False
    if token.stop == "?":
        return before.stop == ","
    if before.text in cues.calls and (before.opens or before.stop == ","):
        return True
    return before.stop == "," and after in cues.spoken_to


def _households(tokens: Sequence[Token], vocabulary: Vocabulary) -> Iterator[Found]:
    """ "The Oakhanger place": a word with a capital that nobody knows, and where its bearers live."""
    for at in range(1, len(tokens) - 1):
        token, plain = tokens[at], plain_words(vocabulary)
        named = token.capital and not token.stop and token.text not in plain
        if named and tokens[at - 1].text == "the" and tokens[at + 1].text in vocabulary.private.households:
            yield Found("name", at, at + 1)


def _past_initials(tokens: Sequence[Token], at: int) -> int:
    """ "Mr. T. Tilling": where the name itself begins."""
    while (
        at + 1 < len(tokens)
        and len(tokens[at].text) == 1
        and tokens[at].capital
        and tokens[at].stop in ("", ".")
    ):
        at += 1
    return at


def _spelt_out(tokens: Sequence[Token], at: int, known: set[str]) -> int | None:
    """The end of single letters from `at` that make a known name."""
    for name in known:
        letters = [token.text for token in tokens[at : at + len(name)]]
        if len(name) > 2 and letters == list(name):
            return at + len(name)
    return None


def _spells(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> bool:
    """Whether the name only spells its first letter: "N for Nancy", "Victor Victor four"."""
    code_words = {word for words in vocabulary.measures.spelling.code_words.values() for word in words}
    if tokens[at].text in code_words:
        for beside in (at - 1, at + 1):
            if 0 <= beside < len(tokens) and tokens[beside].breath == tokens[at].breath:
                text = tokens[beside].text
                digits = digits_at(tokens, beside, vocabulary.measures)
                if digits is not None or text in code_words or (len(text) == 1 and text not in ("a", "i")):
                    return True
    for back in (2, 3):
        before = at - back
        if before >= 0 and tokens[before].text == tokens[at].text[0]:
            return table(vocabulary, "spells").at(tokens, before + 1) == at
    return False


def _ended(tokens: Sequence[Token], at: int) -> bool:
    return tokens[at - 1].stop not in ("", ".")


def _past_links(tokens: Sequence[Token], at: int, vocabulary: Vocabulary) -> int:
    links = vocabulary.private.name_links
    while at < len(tokens) and tokens[at].text in links and not tokens[at].stop:
        at += 1
    return at


def _name_end(
    tokens: Sequence[Token], at: int, vocabulary: Vocabulary, cased: bool, *, sure: bool, named: bool = False
) -> int:
    """The token after a name that begins at `at`; `at` where none does.

    `sure`: behind a title, where any word but a function word is a name. `named`: behind "name is", where a
    word without a capital is one too.
    """
    joints, last = vocabulary.private.name_joints, at
    while last < len(tokens) and last - at < MOST_WORDS * 2:
        token = tokens[last]
        begun = last > at
        if begun and token.breath != tokens[last - 1].breath:
            break
        if begun and token.text in joints and last + 1 < len(tokens) and not tokens[last - 1].stop:
            joined = _is_name(tokens[last + 1], vocabulary, cased, sure=False, named=False)
            if not joined or (token.text in ("and", "or") and cased and not tokens[last + 1].capital):
                break
            last += 2
        elif _is_name(token, vocabulary, cased, sure=sure and not begun, named=named and not begun):
            same_word = begun and (tokens[last - 1].breath, tokens[last - 1].word) == (
                token.breath,
                token.word,
            )
            if begun and not same_word and not cased and last - at > 1:
                break  # without capitals a name has two words at most
            last += 1
        else:
            break
        if tokens[last - 1].stop not in ("", "-"):
            break
    return last


def _is_name(token: Token, vocabulary: Vocabulary, cased: bool, *, sure: bool, named: bool) -> bool:
    text, cues, plain = token.text, vocabulary.private, plain_words(vocabulary)
    if token.mark or not re.fullmatch(r"[^\W\d_]+(?:['’][^\W\d_]+)*", text) or len(text) < 2:
        return False
    grammar = vocabulary.grammar
    if (
        text in cues.ordinary
        or text in grammar.pronouns | grammar.determiners | grammar.prepositions | grammar.being
    ):
        return False
    if sure:
        return token.capital or text not in plain or not cased
    if token.capital and not token.opens:
        return True
    if not token.capital and not named and text not in cues.given_names and text.endswith(cues.no_name_ends):
        return False
    return text not in plain and (not cased or named or token.opens or text in cues.given_names)
