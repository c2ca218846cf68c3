"""Compares stems, beams and accidentals of our sheets with those of verovio, note by note.

Usage: python compare_engraver.py MODEWRIGHT TUNE.abc...

verovio beams as the source is spaced, we beam as the
metre has it, so give tunes that are spaced by the beat. Prints every note that differs and ends
with 1 where any does.
"""

import re
import subprocess
import sys
import xml.etree.ElementTree as ET

import verovio

SVG = "{http://www.w3.org/2000/svg}"


def numbers(text):
    return [float(n) for n in re.findall(r"-?\d+(?:\.\d+)?", text)]


def ours(program, path):
    command = [program, "lesson", path, "--print", "svg", "--rows", "count"]
    root = ET.fromstring(subprocess.run(command, capture_output=True, check=True).stdout)
    # Kinds of signs by the size of their outlines: see names in crates/glyphs/src/outlines.rs.
    order = re.findall(r"^        Self::(\w+),$", open("crates/glyphs/src/outlines.rs").read(), re.M)
    notes, beams = {}, []
    for group in root.iter(f"{SVG}g"):
        kind = group.get("class")
        if kind == "note":
            uses = [(order[int(u.get("href")[4:])], u) for u in group.findall(f"{SVG}use")]
            heads = [float(u.get("y")) for name, u in uses if name.startswith("Head") and u.get("y")]
            if not heads:
                continue
            signs = [n for n, u in uses if n in ("Sharp", "Flat", "Natural") and u.get("y")]
            stems = [numbers(p.get("d")) for p in group.findall(f"{SVG}path")]
            stems = [s for s in stems if s[2] == 120]
            up = None
            if stems:
                middle = stems[0][1] + stems[0][3] / 2
                up = middle < heads[0]
            notes[int(group.get("data-i"))] = [up, len(signs)]
        if kind == "span" and group.get("data-from"):
            shapes = [p.get("d") for p in group.findall(f"{SVG}path")]
            if any("L" in d and "C" not in d for d in shapes):
                beams.append((int(group.get("data-from")), int(group.get("data-to"))))
    indices = sorted(notes)
    result = []
    for i in indices:
        joined = any(a < i <= b for a, b in beams)
        result.append((notes[i][0], joined, notes[i][1]))
    return result


def theirs(path):
    tool = verovio.toolkit()
    # It warns of fields that say nothing of stems and beams.
    verovio.enableLog(verovio.LOG_OFF)
    tool.setOptions({"pageHeight": 60000, "pageWidth": 2100, "footer": "none", "header": "none"})
    tool.loadData(open(path).read())
    result = []
    for page in range(1, tool.getPageCount() + 1):
        root = ET.fromstring(tool.renderToSVG(page))
        walk(root, None, result)
    return result


def walk(node, beam, result):
    kind = (node.get("class") or "").split(" ")[0]
    if kind == "beam":
        beam = {"first": True}
    if kind == "note":
        head = next(g for g in node.iter(f"{SVG}g") if (g.get("class") or "").startswith("notehead"))
        use = next(head.iter(f"{SVG}use"))
        y = numbers(use.get("transform"))[1] if use.get("transform") else float(use.get("y"))
        stem = next((g for g in node.iter(f"{SVG}g") if (g.get("class") or "") == "stem"), None)
        path = stem.find(f"{SVG}path") if stem is not None else None
        up = None
        if path is not None:
            ends = numbers(path.get("d"))
            up = (ends[1] + ends[3]) / 2 < y
        signs = [g for g in node.iter(f"{SVG}g") if (g.get("class") or "").startswith("accid")]
        signs = [g for g in signs if next(g.iter(f"{SVG}use"), None) is not None]
        joined = beam is not None and not beam.pop("first", False)
        result.append((up, joined, len(signs)))
        return
    for child in node:
        walk(child, beam, result)


def main():
    program, differ = sys.argv[1], 0
    for path in sys.argv[2:]:
        a, b = ours(program, path), theirs(path)
        if len(a) != len(b):
            print(f"{path}: {len(a)} notes here, {len(b)} there")
            differ += 1
        wrong = [(i, x, y) for i, (x, y) in enumerate(zip(a, b)) if x != y]
        print(f"{path}: {len(a)} notes, {len(wrong)} differ")
        for i, x, y in wrong[:12]:
            print(f"  note {i}: stem up, joined, signs: {x} here, {y} there")
        differ += len(wrong)
    sys.exit(1 if differ else 0)


main()
