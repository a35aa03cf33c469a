"""What is fed to the program to hurt it: each input made, run, timed, its memory read.

    python3 tests/bench/hostile.py target/release/yokeward [NAME …]

Prints a line an input: seconds (of the clock, or of the processor where other work stood in the way), the most memory held, the bytes printed, the exit code and the last line said. Ends with 1
where an input takes 500 MB or more, more than 5 s, is killed, or panics.
"""

import json
import os
import pathlib
import random
import subprocess
import sys
import tempfile
import threading
import time

PROGRAM = os.path.abspath(sys.argv[1])
WANTED = sys.argv[2:]
MOST_SECONDS, MOST_MB, GIVEN_UP = 5, 500, 30

YARN = 'gauge: { colourwork: { stitches: 24, rows: 28 }, plain: { stitches: 24, rows: 32 } }\n'
HEX = ["#3b2f2a", "#f2ead8", "#a33a2a", "#2a5aa3", "#3aa36b", "#d9b13b"]
ROLES = ["ground", "motif", "third", "fourth", "fifth", "sixth"]


def colours(count):
    named = [f'  {ROLES[i]}: {{ name: Yarn {i + 1}, hex: "{HEX[i]}" }}\n' for i in range(count)]
    return "colours:\n" + "".join(named)


def chart(rows, count=2, letters=".xoabc", extra="rights: own\n"):
    named = ", ".join(f'"{letters[i]}": {ROLES[i]}' for i in range(count))
    return f"title: Test\ncolours: {{ {named} }}\n{extra}rows: |\n" + "".join(f"  {row}\n" for row in rows)


def noise(width, height, count, seed=1):
    dice = random.Random(seed)
    return ["".join(dice.choice(".xoabc"[:count]) for _ in range(width)) for _ in range(height)]


def lesson(bands, count=2, makes="swatch", more=""):
    return f"title: Test lesson\nmakes: {makes}\n{YARN}{colours(count)}{more}bands:\n{bands}"


def write(folder, files):
    for name, text in files.items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text if isinstance(text, bytes) else text.encode())


def course(files):
    return {"course.yaml": "title: Hostile\n", **files}


SIMPLE = chart(["..x.", "...."])
BAND = "  - chart: c\n"
HAT = "sizes: [adult-medium]\n"


def plain(count, rows):
    return "".join(f"  - plain: {{ rows: {rows}, colour: {ROLES[i % 2]} }}\n" for i in range(count))


def unsorted_needs(count):
    files = {"charts/c.yaml": SIMPLE}
    for i in range(count):
        need = f"needs: [l{i - 1}]\n" if i else ""
        files[f"{i + 1:04}-l{i}.yaml"] = lesson(BAND, more=need)
    return course(files)


def over_budget(count):
    """A chain of needs in which a hard chart stands in front."""
    files = unsorted_needs(count)
    hard = noise(24, 40, 2)
    files["charts/hard.yaml"] = chart(hard)
    files["0001-l0.yaml"] = lesson("  - chart: hard\n")
    return files


# name -> (files of a course folder, arguments, what goes down the pipe); made only in a child, so that this process stays
# small: what it holds would count as the program's.
CASES = {
    "a hat of random cells in four colours, put in order": lambda: (
        course({"charts/c.yaml": chart(noise(24, 60, 4), 4), "01-hat.yaml": lesson(BAND, 4, "hat", HAT)}), ["order", "."], None),
    "the same in six colours": lambda: (
        course({"charts/c.yaml": chart(noise(24, 60, 6), 6), "01-hat.yaml": lesson(BAND, 6, "hat", HAT)}), ["order", "."], None),
    "random cells tamed to floats of three in six colours": lambda: (
        {"c.yaml": chart(noise(60, 60, 6), 6)}, ["tame", "c.yaml", "--longest", "8", "--to", "t.yaml"], None),
    "a chain of 500 needs": lambda: (over_budget(500), ["order", "."], None),
    "200 lessons that all need one another": lambda: (
        course({"charts/c.yaml": SIMPLE, **{f"{i:03}-l{i}.yaml": lesson(BAND, more=f"needs: [{', '.join(f'l{j}' for j in range(200) if j != i)}]\n") for i in range(200)}}),
        ["order", "."], None),
    "5,000 plain bands of 1,000 rows": lambda: (course({"01-plain.yaml": lesson(plain(5000, 1000))}), ["pack", "."], None),
    "400 plain bands of 50 rows": lambda: (course({"01-plain.yaml": lesson(plain(400, 50))}), ["pack", "."], None),
    "ten charts a thousand times": lambda: (
        course({"charts/c.yaml": chart(noise(24, 24, 2)), "01-l.yaml": lesson("  - chart: { id: c, times: 1000 }\n" * 10)}), ["pack", "."], None),
    "a chart of 400 kB": lambda: (course({"charts/c.yaml": chart(noise(640, 640, 2)), "01-l.yaml": lesson(BAND)}), ["pack", "."], None),
    "a chart of a million cells measured": lambda: ({"c.yaml": chart(noise(1000, 1000, 4), 4)}, ["measure", "c.yaml"], None),
    "a chart of a million cells in one row": lambda: ({"c.yaml": chart(noise(1_000_000, 1, 2))}, ["measure", "c.yaml"], None),
    "a chart of a million rows of one cell": lambda: ({"c.yaml": chart(["."] * 1_000_000)}, ["measure", "c.yaml"], None),
    "a footer of 200 kB": lambda: (
        {**course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND)}), "course.yaml": "title: T\nfooter: " + "may be copied " * 15000 + "\n"},
        ["pack", "."], None),
    "titles of 200 kB": lambda: (
        {"course.yaml": "title: " + "shore " * 33000 + "\n", "charts/c.yaml": SIMPLE.replace("Test", "T" * 200000), "01-l.yaml": lesson(BAND).replace("Test lesson", "L" * 200000)},
        ["pack", "."], None),
    "600 nested fences and quotations": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="text: |\n" + "  " + "> " * 600 + "x\n" + "".join("  " + "  " * i + "- a\n" for i in range(600)))}), ["pack", "."], None),
    "fences nested 600 deep in a template": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": "".join("`" * (603 - i) + "small\n" for i in range(600)) + "x\n" + "".join("`" * (4 + i) + "\n" for i in range(600))}), ["pack", "."], None),
    "a width of a hundred million stitches": lambda: (course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="width: 100000000 stitches\n")}), ["pack", "."], None),
    "the finest gauge for the largest body": lambda: (
        {**course({"charts/c.yaml": chart(noise(24, 24, 2)), "01-l.yaml": lesson(BAND, 2, "hat", "sizes: [giant]\n").replace("stitches: 24, rows: 28", "stitches: 400, rows: 400").replace("stitches: 24, rows: 32", "stitches: 400, rows: 400")}),
         "course.yaml": "title: T\nbodies: { giant: { head: 600 cm } }\n"}, ["pack", "."], None),
    "250,000 cells in one lesson": lambda: (course({"charts/c.yaml": chart(noise(500, 500, 2)), "01-l.yaml": lesson(BAND)}), ["pack", "."], None),
    "2,000 rows of a chart of two stitches": lambda: (course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson("  - chart: { id: c, times: 1000 }\n")}), ["pack", "."], None),
    "600 nested directives in a template": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": ":" * 3 + "".join(f" {':' * (3 + i)}{{.note}}\n" for i in range(600)) + "x\n"}), ["pack", "."], None),
    "600 nested side boxes in a template": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": "::: box\n" * 600 + "x\n" + ":::\n" * 600}), ["pack", "."], None),
    "a template that loops ten million times": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": "{% for a in range(end=10000000) %}x{% endfor %}\n"}), ["pack", "."], None),
    "a template of loops in loops": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": "{% for a in range(end=9000) %}" * 4 + "x" + "{% endfor %}" * 4}), ["pack", "."], None),
    "a template that doubles a string forty times": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": '{% set s = "aaaaaaaa" %}' + "{% set s = s ~ s %}" * 40 + "{{ s }}\n"}), ["pack", "."], None),
    "a template that includes itself": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND), "templates/handout.md": '{% include "handout.md" %}\n'}), ["pack", "."], None),
    "a card that loops": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="techniques: [t]\n"), "techniques/t.md": "{% for a in range(end=90000000) %}x{% endfor %}\n"}), ["pack", "."], None),
    "one bad line of 1 MB down the pipe": lambda: ({}, ["measure", "-"], json.dumps({"id": "c", "rows": "y" * 1_000_000, "colours": {".": "ground"}}) + "\n"),
    "a line of a million rows down the pipe": lambda: ({}, ["measure", "-"], json.dumps({"id": "c", "rows": ".\n" * 1_000_000, "colours": {".": "ground"}}) + "\n"),
    "a line without an end down the pipe": lambda: ({}, ["measure", "-"], "x" * 60_000_000),
    "2,000 ragged lines of unknown letters": lambda: ({"c.yaml": chart(["y" * (i % 90 + 1) for i in range(2000)])}, ["proof", "c.yaml"], None),
    "20,000 ragged rows": lambda: ({"c.yaml": chart(["." * (i % 3 + 4) for i in range(20000)])}, ["proof", "c.yaml"], None),
    "300 × 300 cells of a letter that is not named": lambda: ({"c.yaml": chart(["z" * 300] * 300)}, ["proof", "c.yaml"], None),
    "20,000 different unknown letters": lambda: ({"c.yaml": chart(["".join(chr(0x4E00 + i * 100 + j) for j in range(100)) for i in range(200)])}, ["proof", "c.yaml"], None),
    "100,000 unknown keys": lambda: (
        {"course.yaml": "title: T\n" + "".join(f"k{i}: 1\n" for i in range(100000)), "charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND)}, ["proof", "."], None),
    "100,000 keys of colours": lambda: ({"c.yaml": "title: T\ncolours:\n" + "".join(f"  k{i}: ground\n" for i in range(100000)) + "rows: |\n  ..\n"}, ["proof", "c.yaml"], None),
    "100,000 equal keys": lambda: ({"c.yaml": "title: T\n" * 100000}, ["proof", "c.yaml"], None),
    "120,000 bands that are none": lambda: (course({"01-l.yaml": lesson("  - nothing: 1\n" * 120000)}), ["proof", "."], None),
    "2,000 lessons with a fault each": lambda: (
        course({f"{i:04}-l{i}.yaml": lesson("  - chart: nowhere\n") for i in range(2000)}), ["proof", "."], None),
    "values nested 10,000 deep": lambda: ({"c.yaml": "rows: " + "[" * 10000 + "\n"}, ["proof", "c.yaml"], None),
    "a file of 60 MB": lambda: ({"c.yaml": "rows: |\n" + "  ....\n" * 9_000_000}, ["proof", "c.yaml"], None),
    "64 colours in random cells": lambda: (
        {"c.yaml": "title: T\nrights: own\ncolours:\n" + "".join(f'  "{chr(0x4E00 + i)}": r{i}\n' for i in range(64)) + "rows: |\n"
         + "".join("  " + "".join(chr(0x4E00 + random.Random(i * 1000 + j).randrange(64)) for j in range(120)) + "\n" for i in range(120))},
        ["measure", "c.yaml"], None),
    "a gauge of a thousand stitches to a millimetre": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, 2, "yoke", HAT).replace("stitches: 24, rows: 28", "stitches: 1000, rows: 1000, over: 0.001 mm")}), ["pack", "."], None),
    "a jersey for a giant": lambda: (
        {**course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, 2, "yoke", "sizes: [giant]\n")}),
         "course.yaml": "title: T\nbodies: { giant: { head: 9000 cm, hand: 9000 cm, chest: 9000 cm, armhole: 900 cm, sleeve: 9000 cm, upper-arm: 9000 cm, neck: 9000 cm } }\n"},
        ["pack", "."], None),
    "heights of a hundred metres": lambda: (course({"01-l.yaml": lesson("  - plain: { height: 100 m, colour: ground }\n".replace("100 m", "10000 cm") * 40)}), ["pack", "."], None),
    "a thousand sizes": lambda: (
        {**course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, 2, "hat", "sizes: [" + ", ".join(f"s{i}" for i in range(1000)) + "]\n")}),
         "course.yaml": "title: T\nbodies:\n" + "".join(f"  s{i}: {{ head: {40 + i * 0.02:.2f} cm }}\n" for i in range(1000))}, ["pack", "."], None),
    "two thousand colours of a lesson": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND).replace("colours:\n", "colours:\n" + "".join(f'  r{i}: {{ name: N, hex: "#000000" }}\n' for i in range(2000)))}), ["proof", "."], None),
    "ten thousand learners": lambda: (
        {**course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, 2, "hat", HAT)}),
         "course.yaml": "title: T\nsessions:\n  learners:\n" + "".join(f"    - {{ name: P{i}, size: adult-medium }}\n" for i in range(10000))}, ["pack", ".", "--for-all"], None),
    "a lesson of a megabyte of words": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="text: |\n" + "  The tide comes in and goes out *again*.\n\n" * 25000)}), ["pack", "."], None),
    "a word without end": lambda: (course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="text: |\n  " + "a" * 1_000_000 + "\n")}), ["pack", "."], None),
    "stars and brackets without end": lambda: (
        course({"charts/c.yaml": SIMPLE, "01-l.yaml": lesson(BAND, more="text: |\n  " + "*a **b [c](" * 50000 + "\n")}), ["pack", "."], None),
}


def run(name):
    with tempfile.TemporaryDirectory() as folder:
        folder = pathlib.Path(folder)
        if (child := os.fork()) == 0:
            files, arguments, piped = CASES[name]()
            write(folder, files)
            (folder / ".arguments").write_text(json.dumps(arguments))
            (folder / ".piped").write_text(piped or "")
            os._exit(0)
        os.waitpid(child, 0)
        arguments = json.loads((folder / ".arguments").read_text())
        if arguments[0] == "pack":
            arguments = [*arguments, "--to", "made"]
        begun = time.monotonic()
        process = subprocess.Popen(
            [PROGRAM, *arguments], cwd=folder, stdin=(folder / ".piped").open(), stdout=subprocess.PIPE, stderr=subprocess.PIPE)
        said = []

        def listen():
            for line in process.stderr:
                said.append(line)

        printed = []
        hearing = threading.Thread(target=listen)
        reading = threading.Thread(target=lambda: printed.append(sum(map(len, iter(lambda: process.stdout.read(1 << 16), b"")))))
        hearing.start()
        reading.start()
        timer = threading.Timer(GIVEN_UP, process.kill)
        timer.start()
        _, status, used = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        # What it takes on an idle machine: of two cores at work the clock tells, beside other work the processor.
        seconds = min(time.monotonic() - begun, max(used.ru_utime + used.ru_stime, 0.01))
        if process.returncode < 0:
            seconds = time.monotonic() - begun
        timer.cancel()
        hearing.join()
        reading.join()
    megabytes = used.ru_maxrss / 1000
    words = b"".join(said)
    last = said[-1].decode(errors="replace").strip()[:90] if said else ""
    code = process.returncode
    bad = []
    if megabytes >= MOST_MB:
        bad.append("memory")
    if seconds > MOST_SECONDS:
        bad.append("time")
    if code not in (0, 1, 2):
        bad.append(f"ended with {code}")
    if b"panicked" in words:
        bad.append("panic")
    size = printed[0] + len(words)
    if size > 2_000_000 and arguments[0] != "measure":
        bad.append("words")
    print(f"{seconds:7.2f} s {megabytes:7.0f} MB {size / 1000:8.0f} kB  {code:2} {'FAILS: ' + ', '.join(bad) if bad else 'fine':12} {name}: {last}", flush=True)
    return bad, seconds, megabytes


worst_time, worst_memory, failed = (0, ""), (0, ""), 0
for name in CASES:
    if WANTED and not any(word in name for word in WANTED):
        continue
    bad, seconds, megabytes = run(name)
    failed += bool(bad)
    worst_time = max(worst_time, (seconds, name))
    worst_memory = max(worst_memory, (megabytes, name))
print(f"{len(CASES)} hostile inputs, {failed} fail; slowest {worst_time[0]:.1f} s ({worst_time[1]}), "
      f"most memory {worst_memory[0]:.0f} MB ({worst_memory[1]})")
sys.exit(1 if failed else 0)
