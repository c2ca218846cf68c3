"""Writes files that are made to take all memory or all time: `hostile_files.py FOLDER`.

Each is near the largest that is read at all, and hurts in its own way.
"""

import struct
import sys
import zipfile
from pathlib import Path

HEAD = (
    '<?xml version="1.0"?><score-partwise version="4.0"><part-list>'
    '<score-part id="P1"><part-name>M</part-name></score-part></part-list>'
    '<part id="P1"><measure number="1">'
)
TAIL = "</measure></part></score-partwise>"
MOST = 31 << 20
REST = "<note><rest/><duration>1</duration></note>"
NOTE = "<note><pitch><step>C</step><octave>4</octave></pitch><duration>1</duration>"


def within(text, each=""):
    """As many as there is room for."""
    return HEAD + text * (MOST // len(text)) + each + TAIL


def midi(track, ticks=96):
    head = b"MThd" + struct.pack(">IHHH", 6, 0, 1, ticks)
    return head + b"MTrk" + struct.pack(">I", len(track)) + track


def scores():
    yield "elements.xml", within("<a/>")
    yield "bar-of-a-million-notes.xml", within(REST)
    yield "deep.xml", HEAD + "<a>" * (MOST // 3)
    yield "attributes.xml", HEAD + "<a " + " ".join(f'b{i}=""' for i in range(2_700_000)) + "/>"
    yield "many-long-tags.xml", within("<a " + " ".join(f'b{i}=""' for i in range(190)) + "/>")
    spaces = "".join(f'<a xmlns:b{i}="u{i}">' for i in range(99))
    yield "namespaces.xml", HEAD + spaces + "<a/>" * (MOST // 5)
    yield "lyrics.xml", HEAD + NOTE + "<lyric><text>a</text></lyric>" * (MOST // 30) + "</note>"
    yield "voices.xml", HEAD + "".join(
        REST.replace("</note>", f"<voice>{i}</voice></note>") for i in range(450_000)
    ) + TAIL
    words = "<direction><direction-type><words>D.C.</words></direction-type></direction>"
    yield "da-capo.xml", within(words, REST)
    yield "doctype.xml", "<!DOCTYPE s [" + "<!ELEMENT a ANY>" * (MOST // 17) + "]>" + HEAD + TAIL
    entities = "".join(f'<!ENTITY b{i} "{"&a;" * 1000}">' for i in range(1000))
    yield "entities.xml", f"<!DOCTYPE s [{entities}]>" + HEAD + "&b999;" + TAIL
    part = "".join(f'<part id="P{i}"/>' for i in range(100_000))
    yield "timewise.xml", "<score-timewise>" + f"<measure>{part}</measure>" * 15 + "</score-timewise>"


def tunes():
    yield "never-ending.mid", midi(b"".join(bytes([0, 0x90, i % 128, 64]) for i in range(4_000_000)))
    yield "running.mid", midi(bytes([0, 0x90, 60, 64]) + b"\x60\x3c\0\0\x3c\x40" * 2_600_000)
    yield "tempos.mid", midi(b"\0\xff\x51\x03\x01\x02\x03" * 2_300_000 + b"\0\x90\x3c\x40\x60\x3c\0")
    yield "metres.mid", midi(
        b"\x01\xff\x58\x04\x04\x02\x18\x08" * 2_000_000 + b"\0\x90\x3c\x40\x60\x3c\0"
    )
    yield "ticks.mid", midi(b"\xff\xff\xff\x7f\x90\x3c\x40\x01\x3c\0" * 1_500_000, ticks=1)


def main(folder):
    for name, text in scores():
        (folder / name).write_text(text, encoding="utf-8")
    wide = "\ufeff" + HEAD + REST * (MOST // len(REST) // 2) + TAIL
    (folder / "wide.xml").write_bytes(wide.encode("utf-16-le"))
    for name, data in tunes():
        (folder / name).write_bytes(data)
    with zipfile.ZipFile(folder / "bomb.mxl", "w", zipfile.ZIP_DEFLATED) as package:
        package.writestr(
            "META-INF/container.xml",
            '<container><rootfiles><rootfile full-path="s.xml"/></rootfiles></container>',
        )
        package.writestr("s.xml", b" " * (1 << 30))


if __name__ == "__main__":
    main(Path(sys.argv[1]))
