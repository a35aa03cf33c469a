"""A guild's course of a hundred lessons, made of the demo course over and over, packed with all outputs.

    python3 tests/bench/guild.py target/release/yokeward lessons

Prints seconds and the most memory that the program held.
"""

import pathlib
import resource
import re
import subprocess
import sys
import tempfile
import time

program, demo = sys.argv[1], pathlib.Path(sys.argv[2])
with tempfile.TemporaryDirectory() as folder:
    course = pathlib.Path(folder) / "course"
    (course / "charts").mkdir(parents=True)
    for chart in sorted((demo / "charts").glob("*.yaml")):
        (course / "charts" / chart.name).write_bytes(chart.read_bytes())
    (course / "course.yaml").write_bytes((demo / "course.yaml").read_bytes())
    lessons = sorted(demo.glob("[0-9]*.yaml"))
    for number in range(100):
        lesson = lessons[number % len(lessons)]
        turn = number // len(lessons)
        text = lesson.read_text()
        name = lesson.stem[3:]
        if turn:
            text = re.sub(r"(?m)^(title: .*?)\s*$", rf"\g<1> {turn}", text)
            name = f"{name}-{turn}"
        (course / f"{number + 1:03}-{name}.yaml").write_text(text)
    start = time.monotonic()
    command = [program, "pack", course, "--booklet", "--to", f"{folder}/out"]
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    seconds = time.monotonic() - start
    memory = resource.getrusage(resource.RUSAGE_CHILDREN).ru_maxrss / 1000
    files = sum(1 for path in pathlib.Path(folder, "out").rglob("*") if path.is_file())
    print(f"a course of 100 lessons, {files} files: {seconds:.1f} s, {memory:.0f} MB")
