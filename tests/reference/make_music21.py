#!/usr/bin/env python3
"""Makes music21.json, an outside check of the theory in modewright-core.

    pip install music21==10.5.1
    python make_music21.py

music21 is licensed under BSD-3-Clause; its version is recorded in the file. The file is
written beside this script and is the same to the byte on every run.

Only names of pitches, intervals, keys and degrees are taken from music21. Its ABC reader is
not used.
"""

import json
from pathlib import Path

import music21
from music21 import interval, key, pitch

WANTED = "10.5.1"
LETTERS = "CDEFGAB"
# music21 writes a flat as "-".
ACCIDENTALS = ["--", "-", "", "#", "##"]
MODES = ["ionian", "dorian", "phrygian", "lydian", "mixolydian", "aeolian", "locrian"]
# Intervals that tunes and instruments move by, and the augmented and diminished ones beside them.
MOVES = (
    "A1 m2 M2 A2 d3 m3 M3 d4 P4 A4 d5 P5 A5 m6 M6 A6 d7 m7 M7 P8 m9 M9 M10 P12"
).split()
SPELLINGS = [letter + accidental for letter in LETTERS for accidental in ACCIDENTALS]


def ours(name):
    """A name of music21 in our spelling: "E-4" is "Eb4"."""
    return name[0] + name[1:].replace("-", "b")


def scales():
    """All 105 pairs of signature and mode."""
    rows = []
    for fifths in range(7, -8, -1):
        for mode in MODES:
            found = key.KeySignature(fifths).asKey(mode)
            assert found.sharps == fifths and found.mode == mode, (found, fifths, mode)
            notes = list(found.pitches)[:7]
            by_letter = sorted(notes, key=lambda note: LETTERS.index(note.step))
            rows.append(
                [
                    fifths,
                    ours(found.tonic.name),
                    mode,
                    " ".join(ours(note.name) for note in notes),
                    [found.getScaleDegreeFromPitch(note.name) for note in by_letter],
                ]
            )
    return rows


def named(low, high):
    """Name, steps and semitones from one pitch up to another; None where the name is not sound.

    Beyond four alterations music21 has no names: it raises, or it wraps round to a wrong one
    (B##4 to Fbb5 comes out as AAAA5). A name that does not lead back to its own semitones is
    left out.
    """
    try:
        found = interval.Interval(low, high)
        name = found.name
        semitones = int(found.chromatic.semitones)
        steps = high.diatonicNoteNum - low.diatonicNoteNum
        if abs(int(interval.Interval(name).semitones)) != abs(semitones):
            return None
    except interval.IntervalException:
        return None
    return [ours(high.nameWithOctave), name, steps, semitones]


def intervals():
    """From each of 35 spellings in octave 4 to the next two of each of 35 above it."""
    rows, left_out = [], 0
    for low_name in SPELLINGS:
        low = pitch.Pitch(low_name + "4")
        to = []
        for more in (0, 1):
            for high_name in SPELLINGS:
                above = LETTERS.index(high_name[0]) > LETTERS.index(low_name[0])
                high = pitch.Pitch(f"{high_name}{(4 if above else 5) + more}")
                row = named(low, high)
                if row is None:
                    left_out += 1
                else:
                    to.append(row)
        rows.append([ours(low.nameWithOctave), to])
    return rows, left_out


def moved(low, name):
    """Where an interval leads; None beyond triple accidentals."""
    try:
        found = interval.Interval(name).transposePitch(low, maxAccidental=None)
    except (interval.IntervalException, pitch.AccidentalException):
        return None
    accidental = found.accidental
    if accidental is not None and abs(accidental.alter) > 3:
        return None
    return ours(found.nameWithOctave)


def transpositions():
    """Each of 35 spellings in octave 4 moved up and down by each of the moves."""
    rows = []
    for name in SPELLINGS:
        low = pitch.Pitch(name + "4")
        up = [moved(low, move) for move in MOVES]
        down = [moved(low, "-" + move) for move in MOVES]
        rows.append([ours(low.nameWithOctave), up, down])
    return rows


def relatives():
    """Relative and parallel of the major and minor keys; music21 knows no others."""
    rows = []
    for fifths in range(7, -8, -1):
        for mode in ("major", "minor"):
            found = key.KeySignature(fifths).asKey(mode)
            relative, parallel = found.relative, found.parallel
            rows.append(
                [
                    ours(found.tonic.name),
                    mode,
                    fifths,
                    ours(relative.tonic.name),
                    relative.mode,
                    # Beyond seven sharps or flats there is no such key.
                    parallel.sharps if abs(parallel.sharps) <= 7 else None,
                ]
            )
    return rows


def main():
    """Writes the file."""
    assert music21.__version__ == WANTED, f"music21 {music21.__version__} is not {WANTED}"
    interval_rows, left_out = intervals()
    parts = {
        "source": "music21, modules key, scale, interval and pitch",
        "version": WANTED,
        "licence": "BSD-3-Clause",
        "made_by": "make_music21.py",
        "shape": {
            "scales": "fifths, tonic, mode, notes from the tonic up, "
            "degree of the scale's notes on the letters C D E F G A B",
            "intervals": "low pitch, list of [higher pitch, name, steps, semitones]",
            "moves": "names of the intervals that the columns of transpositions stand for",
            "transpositions": "pitch, list moved up, list moved down; "
            "null beyond triple accidentals",
            "relatives": "tonic, mode, fifths, tonic of the relative, its mode, "
            "fifths of the parallel or null beyond seven",
        },
        "intervals_left_out": left_out,
        "moves": MOVES,
    }
    tables = {
        "scales": scales(),
        "intervals": interval_rows,
        "transpositions": transpositions(),
        "relatives": relatives(),
    }
    lines = [f" {json.dumps(name)}: {json.dumps(value)}" for name, value in parts.items()]
    for name, rows in tables.items():
        body = ",\n".join("  " + json.dumps(row, separators=(",", ":")) for row in rows)
        lines.append(f" {json.dumps(name)}: [\n{body}\n ]")
    text = "{\n" + ",\n".join(lines) + "\n}\n"
    json.loads(text)
    Path(__file__).with_name("music21.json").write_text(text, encoding="ascii", newline="\n")


if __name__ == "__main__":
    main()
