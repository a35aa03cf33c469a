"""Third-party notices: what the program is built from, under which licences, with their texts.

    python3 tests/outside/notices.py            writes templates/notices.txt
    python3 tests/outside/notices.py --check    fails where it is not what would be written

Reads the dependencies of Cargo.lock from cargo, and the licence files that their sources hold. Of licences by choice one
suffices: MIT where it is offered, else the first whose text is there. Equal texts stand once.
"""

import json
import pathlib
import re
import subprocess
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
TARGET = ROOT / "templates/notices.txt"


def dependencies():
    metadata = json.loads(subprocess.run(["cargo", "metadata", "--format-version=1", "--locked"], cwd=ROOT, check=True, capture_output=True).stdout)
    packages = {package["id"]: package for package in metadata["packages"]}
    nodes = {node["id"]: node for node in metadata["resolve"]["nodes"]}
    root = metadata["resolve"]["root"]
    wanted, open_ids = set(), [root]
    while open_ids:
        for dep in nodes[open_ids.pop()]["deps"]:
            kinds = {kind["kind"] for kind in dep["dep_kinds"]}
            # What only tests or builds need is not in the program.
            if kinds & {None} and dep["pkg"] not in wanted:
                wanted.add(dep["pkg"])
                open_ids.append(dep["pkg"])
    return sorted((packages[id] for id in wanted), key=lambda package: (package["name"], package["version"]))


def text_of(package):
    folder = pathlib.Path(package["manifest_path"]).parent
    files = sorted(path for path in folder.iterdir() if path.is_file() and re.match(r"(?i)(un)?licen[sc]e|copying|copyright", path.name))
    for wanted in ("mit", "", "apache"):
        for path in files:
            name = path.name.lower()
            if wanted in name and not (wanted == "" and "apache" in name):
                return "\n".join(line.rstrip() for line in path.read_text(errors="replace").strip().splitlines())
    return None


def notices():
    groups, without = {}, []
    packages = dependencies()
    for package in packages:
        name = f"{package['name']} {package['version']} ({package['license'] or 'see its licence file'})"
        text = text_of(package)
        if text is None:
            without.append(name)
        else:
            groups.setdefault(text, []).append(name)
    out = ["Yokeward is built from these works of others. Each is used under a licence that its authors offer; their texts follow.", ""]
    for text, names in sorted(groups.items(), key=lambda item: item[1]):
        out += ["-" * 80, *names, "", text, ""]
    if without:
        out += ["-" * 80, "Without a licence file of their own; the names of their licences say which text holds:", *without, ""]
    for font in sorted((ROOT / "templates/fonts").glob("*")):
        if re.search(r"(?i)licen|ofl", font.name):
            out += ["-" * 80, f"Typefaces: {font.name}", "", font.read_text(errors="replace").strip(), ""]
    return "\n".join(out), len(packages), len(without)


text, count, without = notices()
if "--check" in sys.argv:
    if not TARGET.exists() or TARGET.read_text() != text:
        sys.exit("templates/notices.txt is not what is built: python3 tests/outside/notices.py")
    print(f"the notices name {count} works, {without} of them without a text of their own")
else:
    TARGET.write_text(text)
    print(f"{count} works, {without} without a text, {len(text)} bytes")
