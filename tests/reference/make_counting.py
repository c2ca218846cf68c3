#!/usr/bin/env python3
"""Makes counting/music21.json, an outside check of the count in modewright-core.

    pip install music21==10.5.1
    python make_counting.py

Tunes are built note by note; music21 says on which beat each note falls. The file is the same to
the byte on every run.
"""

import json
import random
from fractions import Fraction
from pathlib import Path

import music21
from music21 import meter, note, stream

WANTED = "10.5.1"
# Each metre with the rhythms that its beats are filled with, as fractions of a semibreve.
SIMPLE = ["1", "1/2 1/2", "3/4 1/4", "1/4 3/4", "1/4 1/4 1/2", "1/2 1/4 1/4", "1/3 1/3 1/3",
          "2/3 1/3", "1/4 1/4 1/4 1/4", "1/4 1/2 1/4"]
COMPOUND = ["1", "2/3 1/3", "1/3 2/3", "1/3 1/3 1/3", "1/2 1/6 1/3", "1/2 1/2",
            "1/6 1/6 1/6 1/6 1/6 1/6", "1/3 1/6 1/6 1/3"]
METRES = {
    "2/4": SIMPLE, "3/4": SIMPLE, "4/4": SIMPLE, "2/2": SIMPLE, "3/2": SIMPLE, "3/8": SIMPLE,
    "6/8": COMPOUND, "9/8": COMPOUND, "12/8": COMPOUND, "6/4": COMPOUND,
    "3+2+2/8": None, "2+2+3/8": None, "3+2/8": None, "2+3/8": None, "3+3+2/8": None,
}
BARS = 24


def beats(name):
    """The lengths of the beats of a bar, in semibreves."""
    top, bottom = name.split("/")
    groups = [int(part) for part in top.split("+")]
    unit = Fraction(1, int(bottom))
    if len(groups) > 1:
        return [group * unit for group in groups]
    if groups[0] % 3 == 0 and groups[0] > 3:
        return [3 * unit] * (groups[0] // 3)
    return [unit] * groups[0]


def bar(name, rhythms, chance):
    """The lengths of a bar; neighbours are joined now and then, so that beats are held."""
    lengths = []
    for beat in beats(name):
        own = rhythms or (COMPOUND if beat.numerator == 3 else SIMPLE)
        # Of five and more parts no group is made: threes are compound, the others simple.
        lengths += [beat * Fraction(part) for part in chance.choice(own).split()]
    joined = []
    for length in lengths:
        if joined and chance.random() < 0.2:
            joined[-1] += length
        else:
            joined.append(length)
    return joined


def told(name, bars):
    """Bar by bar, what music21 says of each note: the number of its beat and how far into it."""
    part = stream.Part()
    part.append(meter.TimeSignature(name))
    for number, lengths in enumerate(bars, 1):
        measure = stream.Measure(number=number)
        for length in lengths:
            measure.append(note.Note("A4", quarterLength=length * 4))
        part.append(measure)
    rows = []
    for measure, lengths in zip(part.getElementsByClass(stream.Measure), bars):
        row = []
        for element, length in zip(measure.notes, lengths):
            beat = Fraction(element.beat).limit_denominator(1000)
            whole = int(beat)
            row.append([str(length), whole, str(beat - whole)])
        rows.append(row)
    return rows


def main():
    """Writes the file."""
    assert music21.__version__ == WANTED, f"music21 {music21.__version__} is not {WANTED}"
    chance = random.Random(21)
    tunes = {}
    for name, rhythms in METRES.items():
        tunes[name] = told(name, [bar(name, rhythms, chance) for _ in range(BARS)])
    parts = {
        "source": "music21, beats of notes in streams that were built note by note",
        "version": WANTED,
        "licence": "BSD-3-Clause",
        "made_by": "make_counting.py",
        "shape": "metre: list of bars; bar: list of [length in semibreves, beat from 1, "
        "fraction of that beat]",
    }
    lines = [f" {json.dumps(key)}: {json.dumps(value)}" for key, value in parts.items()]
    body = []
    for name, bars in tunes.items():
        rows = ",\n".join("   " + json.dumps(row, separators=(",", ":")) for row in bars)
        body.append(f"  {json.dumps(name)}: [\n{rows}\n  ]")
    lines.append(' "tunes": {\n' + ",\n".join(body) + "\n }")
    text = "{\n" + ",\n".join(lines) + "\n}\n"
    json.loads(text)
    path = Path(__file__).parent / "counting" / "music21.json"
    path.write_text(text, encoding="ascii", newline="\n")


if __name__ == "__main__":
    main()
