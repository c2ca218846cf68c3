#!/usr/bin/env python3
"""Makes music21-moves.json, an outside check of transposing whole tunes.

    pip install music21==10.5.1
    python make_music21_moves.py TUNE.json

TUNE.json holds the notes of tunes as this project reads them, from `cargo bench --bench transpose
-- notes FILE…`; music21's own ABC reader is not used. music21 (BSD-3-Clause) moves each note by
each interval and spells it. The file is written beside this script and is the same to the byte
on every run.
"""

import json
import sys
from pathlib import Path

import music21
from music21 import interval, pitch

WANTED = "10.5.1"
# One interval for each number of semitones up to an octave, and some of them down.
MOVES = "m2 M2 m3 M3 P4 A4 P5 m6 M6 m7 M7 P8 -m2 -M2 -m3 -M3 -P4 -P5".split()


def theirs(name):
    """Our spelling in music21's: "Eb4" is "E-4"."""
    return name[0] + name[1:].replace("b", "-")


def ours(found):
    return found.nameWithOctave[0] + found.nameWithOctave[1:].replace("-", "b")


def main():
    assert music21.__version__ == WANTED, music21.__version__
    tunes = json.loads(Path(sys.argv[1]).read_text())
    made = []
    for tune in tunes:
        names = sorted(set(tune["notes"].split()))
        moved = {}
        for move in MOVES:
            by = interval.Interval(move)
            moved[move] = {name: ours(pitch.Pitch(theirs(name)).transpose(by)) for name in names}
        made.append(
            {
                "title": tune["title"],
                "notes": tune["notes"],
                "moves": {
                    move: " ".join(moved[move][name] for name in tune["notes"].split())
                    for move in MOVES
                },
            }
        )
    out = {
        "about": "Notes of invented tunes, and the same after each interval. Made by "
        "make_music21_moves.py; the notes are ours, the moves and their spelling music21's.",
        "music21": WANTED,
        "licence": "made with music21, BSD-3-Clause; the values are facts",
        "tunes": made,
    }
    path = Path(__file__).with_name("music21-moves.json")
    path.write_text(json.dumps(out, indent=1) + "\n")


main()
