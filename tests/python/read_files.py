"""Reads the files that the project writes by programs of others.

Usage: python read_files.py FOLDER

The folder holds, for each tune, NAME.musicxml, NAME.mxl, NAME.mid and NAME.json with what a
reader must find. Scores are checked against the official schema (musicxml_4_0.xsd, which ships
in the Python package musicxml; nothing else of that package is used) and read by music21; MIDI
files are read by mido. Prints one JSON object with counts; ends with status 1 on a difference.
"""

import importlib.util
import json
import sys
from fractions import Fraction
from pathlib import Path

import mido
from lxml import etree
from music21 import converter, harmony, key

# The schema imports two others from the network: these are the attributes that it uses of them.
XML = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
  targetNamespace="http://www.w3.org/XML/1998/namespace">
  <xs:attribute name="lang" type="xs:language"/>
  <xs:attribute name="space"><xs:simpleType><xs:restriction base="xs:NCName">
    <xs:enumeration value="default"/><xs:enumeration value="preserve"/>
  </xs:restriction></xs:simpleType></xs:attribute>
</xs:schema>"""
XLINK = """<xs:schema xmlns:xs="http://www.w3.org/2001/XMLSchema"
  targetNamespace="http://www.w3.org/1999/xlink">
  <xs:attribute name="href" type="xs:anyURI"/><xs:attribute name="type" type="xs:string"/>
  <xs:attribute name="role" type="xs:token"/><xs:attribute name="title" type="xs:token"/>
  <xs:attribute name="show" type="xs:string"/><xs:attribute name="actuate" type="xs:string"/>
</xs:schema>"""


class Local(etree.Resolver):
    """Answers for the two schemas, so that nothing is fetched."""

    def resolve(self, url, public_id, context):
        if url.endswith("xlink.xsd"):
            return self.resolve_string(XLINK, context)
        if url.endswith("xml.xsd"):
            return self.resolve_string(XML, context)
        return None


def schema():
    package = importlib.util.find_spec("musicxml").submodule_search_locations[0]
    parser = etree.XMLParser(no_network=True)
    parser.resolvers.add(Local())
    path = Path(package) / "generate_classes" / "musicxml_4_0.xsd"
    return etree.XMLSchema(etree.parse(str(path), parser))


def length(value):
    """A length in crotchets, as exact as it can be."""
    return Fraction(value).limit_denominator(1000)


def score(path):
    """Notes, the row under them, key and pickup as music21 reads them."""
    part = converter.parse(str(path), forceSource=True).parts[0]
    notes = []
    row = []
    for element in part.recurse().notesAndRests:
        if isinstance(element, harmony.Harmony) or element.duration.isGrace:
            continue
        row.extend(lyric.text for lyric in element.lyrics if lyric.identifier == "place")
        if element.isRest:
            # A lone rest of a semibreve or a breve is stretched to the bar by music21, whatever
            # its duration says.
            stretched = element.fullMeasure is True
            notes.append([None, None if stretched else str(length(element.quarterLength)), False])
            continue
        top = max(element.pitches, key=lambda pitch: pitch.ps)
        tied = element.tie is not None and element.tie.type in ("start", "continue")
        name = top.nameWithOctave.replace("-", "b")
        notes.append([name, str(length(element.quarterLength)), tied])
    signature = next(iter(part.recurse().getElementsByClass(key.KeySignature)), None)
    named = isinstance(signature, key.Key)
    return {
        "notes": notes,
        "row": row,
        "fifths": signature.sharps if signature is not None else None,
        "home": signature.tonic.name.replace("-", "b") if named else None,
        "mode": signature.mode if named else None,
        "pickup": part.getElementsByClass("Measure").first().number == 0,
    }


def by_height(note):
    """Notes by their beginnings, then from low to high."""
    start, _, height = note
    return start, height


def heard(path):
    """Notes as mido reads them: height, beginning after the first, length; in crotchets."""
    file = mido.MidiFile(str(path))
    notes = []
    for track in file.tracks:
        now, open_notes = 0, {}
        for message in track:
            now += message.time
            if message.type == "note_on" and message.velocity > 0:
                open_notes[message.note] = now
            elif message.type in ("note_off", "note_on"):
                start = open_notes.pop(message.note)
                notes.append((start, now - start, message.note))
    # Of a chord the top note is the melody; it is the last of those that begin together.
    notes = list({note[0]: note for note in sorted(notes, key=by_height)}.values())
    first = notes[0][0] if notes else 0
    per = file.ticks_per_beat
    return [[k, str(Fraction(s - first, per)), str(Fraction(l, per))] for s, l, k in notes]


def with_stretched(wanted, found):
    """Rests that music21 stretches have the length that is wanted, if a rest is."""
    pairs = zip(found, wanted + [None] * len(found))
    return [w if f[1] is None and w is not None and w[0] is None else f for f, w in pairs]


def compare(name, what, wanted, found):
    if wanted == found:
        return 0
    if isinstance(wanted, list):
        pairs = zip(wanted, found)
        place = next((i for i, (a, b) in enumerate(pairs) if a != b), min(len(wanted), len(found)))
        wanted, found = wanted[place : place + 2], found[place : place + 2]
        what = f"{what} from {place}"
    print(f"{name}: {what}: {found} where {wanted} should be", file=sys.stderr)
    return 1


def main(folder):
    official = schema()
    tunes = differences = invalid = 0
    for path in sorted(Path(folder).glob("*.json")):
        wanted = json.loads(path.read_text())
        name = path.stem
        tunes += 1
        if not official.validate(etree.parse(str(path.with_suffix(".musicxml")))):
            invalid += 1
            print(f"{name}: {official.error_log[0]}", file=sys.stderr)
        found = score(path.with_suffix(".musicxml"))
        found["notes"] = with_stretched(wanted["notes"], found["notes"])
        for what in ("notes", "row", "fifths", "home", "mode", "pickup"):
            differences += compare(name, what, wanted[what], found[what])
        if tunes <= 20:
            packed = score(path.with_suffix(".mxl"))
            packed = with_stretched(wanted["notes"], packed["notes"])
            differences += compare(name, "packed notes", wanted["notes"], packed)
        differences += compare(name, "heard", wanted["heard"], heard(path.with_suffix(".mid")))
    print(json.dumps({"tunes": tunes, "differences": differences, "invalid": invalid}))
    return 1 if differences or invalid or not tunes else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1]))
