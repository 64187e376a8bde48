"""An apostrophe that was not heard: "lint screens clean" is "lint screen's clean", a plural without a verb is none."""

from __future__ import annotations

from collections.abc import Sequence

from fieldnotes.tidy.text import TidyText, Token
from fieldnotes.understand.words.nouns import Mention
from fieldnotes.understand.words.parting import parted
from fieldnotes.vocabulary.load import Vocabulary
from fieldnotes.vocabulary.phrase_net import PhraseNet


class Possessives:
    """Puts "'s" in place of a plural that stands where a verb is missing. Built once for a vocabulary."""

    def __init__(self, vocabulary: Vocabulary, nouns: frozenset[str]) -> None:
        self._grammar = vocabulary.grammar
        self._codes = vocabulary.trade.code_words  # "codes okay" tells of several
        self._nouns = nouns | self._grammar.things_besides_parts
        describing = [
            rule
            for rule in vocabulary.rules
            if rule.label == "outcome" and rule.value != "none" and rule.strength not in ("verb", "noun")
        ]
        self._describing = PhraseNet(
            (n, phrase) for n, rule in enumerate(describing) for phrase in rule.phrases
        )

    def mended(self, text: TidyText, named: Sequence[Sequence[Mention]]) -> TidyText:
        """The text with each such plural as two tokens, of which the first keeps the word as heard.

        `named`: all that is named in the text, as NounFinder finds it.
        """
        starts: dict[int, int] = {}  # of the longest name that ends at a word
        for group in named:
            if group[0].name.sort in ("part", "kind"):
                end = group[0].last - 1
                starts[end] = min(starts.get(end, end), group[0].first)
        words = [token.text for token in text.tokens]
        described = {
            first for _, first, last in self._describing.find(words, {}, frozenset()) if last == first + 1
        }
        plurals = {
            n: single
            for n, token in enumerate(text.tokens)
            if (single := self._singular(token))
            and self._lacks_verb(text.tokens, starts.get(n, n), n, single, described)
        }
        return parted(text, {n: (single, "'s") for n, single in plurals.items()})

    def _singular(self, token: Token) -> str | None:
        """The singular of a name's last word; None where it is no plural or a stop follows."""
        word = token.text
        if token.stop or not token.heard or not word.endswith("s") or word in self._codes:
            return None
        endings = (("ies", "y"), ("es", ""), ("s", ""))
        return next(
            (
                single
                for ending, instead in endings
                if word.endswith(ending) and (single := word.removesuffix(ending) + instead) in self._nouns
            ),
            None,
        )

    def _lacks_verb(
        self, tokens: Sequence[Token], first: int, at: int, single: str, described: set[int]
    ) -> bool:
        """Whether a name [first, at] opens its clause and what it is or does follows without a verb."""
        after = at + 1
        if (
            after >= len(tokens)
            or tokens[after].breath != tokens[at].breath
            or not self._opens(tokens, first)
        ):
            return False
        grammar, word = self._grammar, tokens[after].text
        if tokens[at].text in grammar.verbs:
            return False
        if word in grammar.behind_lost_is:
            return True
        does = grammar.also_verbs | grammar.orders
        if first == at and not self._article(tokens, at) and single in does:
            return word.endswith("ing")  # "drains fine", "pulls in", but "bakes pulling eleven amps"
        if word in grammar.particles:
            behind = tokens[after + 1].text if after + 1 < len(tokens) else ""
            stopped = bool(tokens[after].stop) or not behind
            return stopped or behind in grammar.particles | grammar.prepositions  # "back up on its hook"
        if word.endswith("ing") and not word.endswith("thing") and word not in self._nouns:
            return True
        return after in described and word not in grammar.verbs and not word.endswith(("s", "ed"))

    def _article(self, tokens: Sequence[Token], at: int) -> bool:
        """Whether a word that goes with a noun stands right before one."""
        before = tokens[at - 1] if at else None
        return before is not None and not before.stop and before.text in self._grammar.before_single

    def _opens(self, tokens: Sequence[Token], first: int) -> bool:
        """Whether only openers and an article that goes with one thing stand before a name in its clause."""
        grammar = self._grammar
        at = first
        while at > 0 and tokens[at - 1].breath == tokens[first].breath and not tokens[at - 1].stop:
            word = tokens[at - 1].text
            if word in grammar.relatives:
                return False  # "which ties up with the chart"
            if word in grammar.joiners or word in grammar.openers:
                return True
            if word not in grammar.before_single:
                return False
            at -= 1
        return True
