"""Shape of vocab/trade.yaml: words of the trade that the code asks for by name."""

from __future__ import annotations

from fieldnotes.vocabulary.grammar import Words
from fieldnotes.vocabulary.measures import UnitName
from fieldnotes.vocabulary.packs import Entry, Phrases


class TradeWords(Entry):
    """Words and phrases; the comments in the file say what each is for."""

    gases: Words
    bystanders: Words
    strangers: Words
    no_trouble_before: Words
    other_speakers: Words
    given_anew: Words
    around_the_plate: Words
    periods: Words
    ago: Words
    aged: Words
    other_dates: Words
    other_numbers: Words
    escaping: frozenset[UnitName]
    gas_words: Words
    drawing: Words
    spinning: Words
    thermometers: Words
    swinging: Words
    deviating: Words
    several_windings: Words
    insulation_testers: Words
    run_deeds: Words
    run_out: Words
    run_verbs: Words
    programme_verbs: Words
    cut_short: Words
    cleaning_tools: Words
    levelled_parts: Words
    foreign_matter: Words
    heat_settings: Words
    code_words: Words
    wiping: Words
    erasing: Words
    picked_out: Words
    poured_off: Words
    emptied: Words
    dirt_places: Words
    openings: Words
    blocked: Words
    fastened: Words
    driven: Words
    lowered: Words
    put_back: Words
    sideways: Words
    resettable: Words
    washed_off: Words
    bites: Words
    sellers: Words
    switched_at: Words
    under_way: Words
    stand_ins: Words
    by_length: Words
    plugged_parts: Words
    vessels: Words
    listened_for: Phrases
    opened: Words
    pieces_of: dict[str, Words]
    also_deeds: Words
    done_by_hand: Words
    turns: Words
