"""Shape of vocab/private.yaml: what stands around private words when they are spoken."""

from __future__ import annotations

from fieldnotes.vocabulary.grammar import Words
from fieldnotes.vocabulary.packs import Entry, Phrases


class PrivateCues(Entry):
    """Word sets and phrases; the comments in the file say what each is for.

    `samples` are sentences with what is private in braces, e.g. "the gate code is {code 4471}".
    """

    titles: Words
    weak_titles: Words
    name_is: Phrases
    person_before: Phrases
    place_before: Phrases
    no_name_ends: tuple[str, ...]
    person_verbs: Words
    barely: Words
    households: Words
    calls: Words
    spoken_to: Words
    spells: Phrases
    name_links: Words
    name_joints: Words
    given_names: Words
    ordinary: Words
    telephone: Phrases
    telephone_pauses: Words
    protects: Phrases
    code: Phrases
    code_at_once: Phrases
    code_beside: Phrases
    ways_in: Words
    password: Phrases
    password_for: Words
    links: Words
    card_ending: Phrases
    card_more: Phrases
    card: Phrases
    email: Phrases
    email_joints: Words
    email_ends: Words
    streets: Words
    street_words: Words
    address_before: Phrases
    not_street_before: Words
    not_in_street: Words
    numbered_streets: Words
    boxes: Phrases
    flats: Words
    flats_words: Words
    postcode: Phrases
    samples: tuple[str, ...] = ()
