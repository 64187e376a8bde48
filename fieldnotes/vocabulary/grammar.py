"""Shape of vocab/grammar.yaml: plain English that the rules lean on."""

from __future__ import annotations

from fieldnotes.vocabulary.packs import Entry

Words = frozenset[str]


class Grammar(Entry):
    """Word sets; the comments in the file say what each is for."""

    fillers: Words
    joiners: Words
    joiners_not_after: Words
    joiners_not_before: dict[str, Words]
    subjects: Words
    subjects_not_after: Words
    verbs: Words
    openers: Words
    lone_openers: Words
    determiners: Words
    articles: Words
    links: Words
    pronouns: Words
    negators: Words
    negates_nothing: Words
    presence: Words
    showing: Words
    object_words: Words
    extents: Words
    particles: Words
    acting_after: Words
    orders: Words
    prepositions: Words
    others: Words
    place_words: Words
    being: Words
    modals: Words
    also_verbs: Words
    name_ends: Words
    before_noun: Words
    part_nouns: Words
    behind_lost_is: Words
    before_single: Words
    things_besides_parts: Words
    leads: Words
    relatives: Words
    written_together: dict[str, str]
    ends_of_things: Words
    tellers: Words
    excepting: Words
    not_yet: Words
    set_against: Words
    often: Words
    rhetorical: Words
    affirming: Words
    and_heard_as_in: Words
    making: Words
    headings: Words
    misheard_headings: dict[str, str]
    misheard_closings: dict[str, str]
    misheard_sources: dict[str, str]
    lost_endings: dict[str, str]
    programmes: Words
    verb_before: Words
    verb_after: Words
    goes_with_judgement: Words
    seemings: Words
    months: Words
    seasons: Words
    days: Words
