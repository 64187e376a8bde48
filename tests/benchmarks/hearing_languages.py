"""Is speech in another language noticed and left out, and English with an accent or in noise kept?

    python -m tests.benchmarks.hearing_languages --speaker VENV/bin/python [--noise spin --level 5]

First whole narrations in English voices, of which nothing must be called foreign; then the same voices with a
customer's turn in another language in the middle. Nothing is decoded: only languages are told.
"""

from __future__ import annotations

import argparse
import subprocess
import zlib
from pathlib import Path

import numpy as np
import soundfile  # type: ignore[import-untyped]

from fieldnotes.hear import Unwatched
from fieldnotes.hear.languages import Foreign, foreign_turns
from fieldnotes.hear.pieces import pieces_of
from fieldnotes.hear.sound import Sound
from fieldnotes.hear.weights import find_weights
from fieldnotes.hear.whisper import Whisper
from fieldnotes.places import USER_CACHE
from tests.benchmarks.hearing_sounds import NOISES, RATE, SPEAK, loudness, spoken

VOICES = (
    *("joe", "hibari-us", "flite:slt", "flite:rms", "flite:awb", "espeak:en-us", "espeak:en-us-nyc"),
    *("espeak:en-gb", "espeak:en-gb-scotland", "espeak:en-gb-x-gbclan", "espeak:en-gb-x-gbcwmd"),
)
NARRATIONS = ("p01", "q01")
CUSTOMERS = {
    "es": "Hola, mire, la lavadora hace un ruido muy fuerte cuando empieza a centrifugar, y luego se para.\n"
    "Mi marido cree que es la correa, pero yo no lo sé, ya tiene doce años.\n"
    "Ayer salió mucha agua por debajo de la puerta y tuve que secar todo el suelo.\n"
    "No quiero gastar mucho dinero en una máquina tan vieja.\n",
    "de": "Guten Tag, die Waschmaschine macht beim Schleudern einen furchtbaren Lärm, dann bleibt sie stehen.\n"
    "Mein Mann glaubt, dass es der Riemen ist, aber ich weiß es nicht, sie ist schon zwölf Jahre alt.\n"
    "Gestern ist viel Wasser unter der Tür herausgelaufen, und ich musste den ganzen Boden wischen.\n"
    "Ich möchte nicht so viel Geld für eine alte Maschine ausgeben.\n",
    "fr": "Bonjour, la machine à laver fait un bruit terrible quand elle commence à essorer, puis elle s'arrête.\n"
    "Mon mari pense que c'est la courroie, mais moi je ne sais pas, elle a déjà douze ans.\n"
    "Hier il y avait beaucoup d'eau sous la porte et j'ai dû essuyer tout le sol de la cuisine.\n"
    "Je ne veux pas dépenser trop d'argent pour une vieille machine.\n",
    "it": "Buongiorno, la lavatrice fa un rumore terribile quando comincia a centrifugare, e poi si ferma.\n"
    "Mio marito pensa che sia la cinghia, ma io non lo so, ha già dodici anni.\n"
    "Ieri è uscita molta acqua da sotto la porta e ho dovuto asciugare tutto il pavimento.\n"
    "Non voglio spendere troppi soldi per una macchina vecchia.\n",
    "pl": "Dzień dobry, pralka strasznie hałasuje, kiedy zaczyna wirować, a potem się zatrzymuje.\n"
    "Mój mąż uważa, że to pasek, ale ja nie wiem, ona ma już dwanaście lat.\n"
    "Wczoraj dużo wody wyciekło spod drzwi i musiałam wytrzeć całą podłogę.\n"
    "Nie chcę wydawać tyle pieniędzy na starą maszynę.\n",
    "pt-br": "Olá, a máquina de lavar faz um barulho muito forte quando começa a centrifugar, e depois ela para.\n"
    "Meu marido acha que é a correia, mas eu não sei, ela já tem doze anos.\n"
    "Ontem saiu muita água por baixo da porta e eu tive que secar o chão todo.\n"
    "Eu não quero gastar muito dinheiro com uma máquina velha.\n",
}


def customer(language: str, folder: Path, speaker: str) -> Sound:
    """About half a minute in another language. Kept in `folder` once made."""
    path = folder / f"customer-{language}.flac"
    if not path.is_file():
        text = path.with_suffix(".txt")
        text.write_text(CUSTOMERS[language], encoding="utf-8")
        command = [
            speaker,
            str(SPEAK),
            str(text),
            "--voice",
            f"espeak:{language}",
            "--gap",
            "0.7",
            "--out",
            str(path),
        ]
        subprocess.run(command, check=True, stdout=subprocess.DEVNULL)
    return soundfile.read(path, dtype="float32")[0]  # type: ignore[no-any-return]


def turns_in(engine: Whisper, sound: Sound) -> tuple[list[Foreign], list[float]]:
    """The foreign turns, and how likely each piece is English."""
    pieces = pieces_of(engine.speech(sound), len(sound) / RATE)
    english = [(engine.languages(sound, piece) or {}).get("en", 0.0) for piece in pieces]
    found = foreign_turns(
        list(zip(pieces, english, strict=True)), lambda piece: engine.languages(sound, piece) or {}
    )
    return found, english


def noisy(sound: Sound, noise: str, level_db: float) -> Sound:
    if noise == "clean":
        return sound
    rng = np.random.default_rng(zlib.crc32(noise.encode()))
    loud = loudness(sound[np.abs(sound) > 0.01])
    return (sound + NOISES[noise](rng, len(sound)) * loud / 10 ** (level_db / 20)).astype(np.float32)


def main() -> None:
    parser = argparse.ArgumentParser(
        description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter
    )
    parser.add_argument("--speaker", default="python", help="a Python that has the voices' packages")
    parser.add_argument("--folder", type=Path, default=Path("spoken"), help="where sound is kept")
    parser.add_argument("--noise", choices=["clean", *NOISES], default="clean")
    parser.add_argument("--level", type=float, default=10, help="dB of the speech over the noise")
    parser.add_argument("--lines", type=int, default=8, help="of each narration")
    args = parser.parse_args()
    weights = find_weights(None, joined=USER_CACHE / "weights", progress=Unwatched())
    engine = Whisper(weights.folder())
    wrong = caught = english_s = 0.0
    for voice in VOICES:
        for name in NARRATIONS:
            said = spoken(name, voice, args.lines, args.folder, args.speaker).sound.astype(np.float32)
            found, english = turns_in(engine, noisy(said, args.noise, args.level))
            lost = sum(turn.end - turn.start for turn in found)
            wrong, english_s = wrong + lost, english_s + len(said) / RATE
            print(f"{voice:22} {name} least English piece {min(english):.3f}, {lost:4.1f} s called foreign")
    for voice in VOICES[:5]:
        said = spoken(NARRATIONS[0], voice, args.lines, args.folder, args.speaker).sound.astype(np.float32)
        for language in CUSTOMERS:
            guest = customer(language, args.folder, args.speaker)
            found, _ = turns_in(engine, noisy(np.concatenate([said, guest, said]), args.noise, args.level))
            a, b = len(said) / RATE, (len(said) + len(guest)) / RATE
            inside = sum(max(0.0, min(t.end, b) - max(t.start, a)) for t in found) / (b - a)
            outside = sum(t.end - t.start for t in found) - inside * (b - a)
            caught += inside
            names = ", ".join(sorted({turn.language for turn in found}))
            print(
                f"{voice:10} {language:6} {inside:4.0%} of the turn noticed as {names or '-':8},"
                f" {outside:4.1f} s of English besides"
            )
    print(f"English called foreign: {wrong:.1f} s of {english_s:.0f} s")
    print(f"foreign turns noticed: {caught / (5 * len(CUSTOMERS)):.0%}")


if __name__ == "__main__":
    main()
