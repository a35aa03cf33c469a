#!/usr/bin/env python3
"""Compiles library and program as one crate in which everything is private, so that the compiler sees what nobody uses.

    python3 tests/outside/unused.py [TARGET]

A library's public items are never unused in the compiler's eyes, and the tests of this one need most of them public.
"""
import json
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

# What only tests and other programs ask for.
KEPT = {
    "TECHNIQUES": "the names of all drawings of techniques, for the tests",
    "counted": "a spread counted stitch by stitch, for the tests",
    "gaps": "a spread gap by gap, for the tests",
    "holds": "whether a count fits, for the tests",
    "id": "a lesson of the plan by its id, for the tests",
    "pack": "the library's front door",
    "pages": "laid-out pages, for the tests",
    "titles": "the charts of a question, for the tests",
    "width": "how wide words are set, for the tests",
}


def main():
    work = pathlib.Path(tempfile.mkdtemp(prefix="unused-"))
    try:
        for name in ["src", "templates", "Cargo.lock"]:
            copy = shutil.copytree if pathlib.Path(name).is_dir() else shutil.copy
            copy(name, work / name)
        manifest = pathlib.Path("Cargo.toml").read_text()
        for section in [r"\[lib\]", r"\[\[test\]\]", r"\[\[bench\]\]"]:
            manifest = re.sub(section + r"\n(?:[^\[\n].*\n)+", "", manifest)
        (work / "Cargo.toml").write_text(manifest)
        library = (work / "src/lib.rs").read_text()
        rooms = "".join(f"mod {room};\n" for room in re.findall(r"^pub mod (\w+);", library, re.M))
        (work / "src/lib.rs").unlink()
        main_file = work / "src/main.rs"
        docs, code = main_file.read_text().replace("yokeward::", "").split("\n\n", 1)
        main_file.write_text(f"{docs}\n\n{rooms}\n{code}")
        target = sys.argv[1] if len(sys.argv) > 1 else str(work / "target")
        check = ["cargo", "check", "--quiet", "--message-format=json"]
        done = subprocess.run(check, cwd=work, env=dict(os.environ, CARGO_TARGET_DIR=target), capture_output=True, text=True)
        seen, unused = set(), []
        for line in done.stdout.splitlines():
            message = json.loads(line).get("message") or {}
            if message.get("level") == "error":
                sys.exit(message["rendered"])
            if (message.get("code") or {}).get("code") != "dead_code":
                continue
            for name in re.findall(r"`(\w+)`", message["message"]):
                seen.add(name)
                if name not in KEPT:
                    unused.append(message["rendered"])
        if unused:
            sys.exit("nobody uses:\n" + "\n".join(dict.fromkeys(unused)))
        if seen != set(KEPT):
            sys.exit(f"used after all, or gone: {sorted(set(KEPT) - seen)}")
        print(f"nothing is unused but {len(seen)} names kept for tests and the library")
    finally:
        shutil.rmtree(work)


main()
