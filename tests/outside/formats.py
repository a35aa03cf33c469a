#!/usr/bin/env python3
"""Holds every JSON of the goldens, and what the program prints now, against the schemas that the program gives of them.

    python3 tests/outside/formats.py YOKEWARD LESSONS     (needs jsonschema from the Python package index)
"""
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema

yokeward, lessons = sys.argv[1:3]
root = pathlib.Path(__file__).resolve().parents[2]


def run(*arguments, text=""):
    return subprocess.run([yokeward, *arguments], capture_output=True, text=True, input=text).stdout


validators = {}


def check(answer, where):
    name = answer["format"].split("/")[1]
    if name not in validators:
        schema = json.loads(run("schema", "--of", name))
        jsonschema.Draft7Validator.check_schema(schema)
        validators[name] = jsonschema.Draft7Validator(schema)
    for error in validators[name].iter_errors(answer):
        sys.exit(f"{where}: {error.json_path}: {error.message}")


checked = 0
for snap in sorted((root / "tests/suite/snapshots").glob("*json__*.snap")):
    text = snap.read_text().split("---\n", 2)[2]
    body = text[text.index("{") :]
    check(json.loads(body), snap.name)
    checked += 1
chart = '{"id":"dot","rows":".x\\nx.","colours":{".":"ground","x":"motif"}}'
for line in (run("measure", "-", "--rows", text=f"{chart}\n{{\n") + run("measure", "-", text=chart)).splitlines():
    check(json.loads(line), "measure -")
    checked += 1
for command in ("measure", "grade", "order", "proof"):
    check(json.loads(run(command, "--json", lessons)), command)
    checked += 1
with tempfile.TemporaryDirectory() as folder:
    run("pack", lessons, "--to", folder)
    check(json.loads(next(pathlib.Path(folder).glob("*/pack.json")).read_text()), "pack.json")
    checked += 1
    picture = f"{folder}/pebble.png"
    run("trace", "--back", f"{lessons}/charts/pebble.yaml", "--to", picture)
    check(json.loads(run("trace", "--json", picture)), "trace")
    checked += 1
# A check that cannot fail is none.
broken = json.loads(run("grade", "--json", lessons))
broken["lessons"][0]["mark"] = broken["lessons"][0].pop("grade")
try:
    check(broken, "planted")
except SystemExit:
    print(f"{checked} answers keep to {len(validators)} schemas; a renamed key is found")
else:
    sys.exit("a renamed key was not found")
