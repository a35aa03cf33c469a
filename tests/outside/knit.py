#!/usr/bin/env python3
"""Knits the charts of a pack's handouts from what a reader hears of their PDFs, catches included.

    python3 tests/outside/knit.py SET LESSONS     (needs pdfinfo of poppler)

Nothing of the program is used: the words of every row are worked stitch by stitch, every strand is caught where the words
say, and what comes of it is held against the chart's file, against the counts in the steps, and against what the handout
promises of strands after the catches. Where a strand is first caught in a row must be where the words say so.
"""
import pathlib
import re
import subprocess
import sys

pack, lessons = map(pathlib.Path, sys.argv[1:3])
REPEATS = 4
ORDINAL = r"(\d+)(?:st|nd|rd|th)"


def heard(pdf):
    """The strings of a PDF in the order of its structure; a new block begins a new one."""
    run = ["pdfinfo", "-struct-text", str(pdf)]
    lines = subprocess.run(run, capture_output=True, text=True, check=True).stdout.splitlines()
    texts, new = [], True
    for line in lines:
        said = re.match(r'\s*"(.*)"$', line)
        if not said:
            new = new or "(block)" in line or line.strip() in ("Lbl", "Caption", "Figure")
        elif new or not texts:
            texts.append(said[1])
            new = False
        else:
            texts[-1] += said[1]
    return [" ".join(text.split()) for text in texts]


def stitches(words):
    """`2 Peat, k2tog in Peat, 1 Sand` as colours, one for each stitch on the needle after it."""
    found = []
    for item in filter(None, words.split(", ")):
        counted = re.fullmatch(r"(\d+) (.+)", item)
        shaped = re.fullmatch(r"(?:k2tog|ssk) in (.+)", item)
        assert counted or shaped, f"not understood: {item}"
        found += [counted[2]] * int(counted[1]) if counted else [shaped[1]]
    return found


def row(words):
    """What comes before the repeat, the repeat, what comes after it, what traps are set, and whether it is a way back."""
    back = words.startswith("(wrong side, purl) ")
    words = words.removeprefix("(wrong side, purl) ")
    traps = []
    if words.startswith("trap "):
        told, words = words.split(": ", 1)
        traps = told.removeprefix("trap ").split("; trap ")
    words, _, left = words.partition(". That leaves ")
    if words.startswith("all "):
        parts = [], [words.removeprefix("all ")], []
    elif "*" in words:
        before, inner, after = re.fullmatch(r"(.*?)\*(.*); repeat from \*(.*)", words).groups()
        after = re.fullmatch(r"(?: to the last (\d+) stitch(?:es)?, (.*))?", after)
        end = stitches(after[2] or "")
        assert len(end) == int(after[1] or 0), f"the last stitches: {words}"
        parts = stitches(before.rstrip(", ")), stitches(inner), end
    else:
        parts = stitches(words), [], []
    if left:
        assert int(left.split()[0]) == len(parts[1]), f"stitches left: {words}"
    return (*parts, traps, back)


def gaps(worked, colour, ring):
    """Stretches that a strand passes: where each begins and its stitches; in a round the last goes on into the first."""
    own = [i for i, each in enumerate(worked) if each == colour]
    ends = own[1:] + ([own[0] + len(worked)] if ring else [])
    found = [(a + 1, b - a - 1) for a, b in zip(own, ends)]
    return [(at, length) for at, length in found if length]


def trap(told, worked, period, ring):
    """Where one trap's words catch: places in the row, from 0; in a round modulo its stitches."""
    told, _, first = re.fullmatch(r"(.*?)(, first on stitch(?:es)? ([\d, and]+))?", told).groups()
    last_part = 0
    colour, spec = re.fullmatch(r"(.+?)(?: |, )((?:on the|in each repeat) .*)", told).groups()
    passed = gaps(worked, colour, ring)
    places = []

    def kind(length, over):
        fits = [(at, n) for at, n in passed if n == int(length)]
        for at, n in fits:
            over_ = {worked[i % len(worked)] for i in range(at, at + n)}
            assert over == "stitches it passes" or over_ == {over}, f"{told}: passes {over_}"
        assert fits, f"no stretch of {length}: {told}"
        return fits

    def catch(stretch, numbers):
        for number in re.findall(ORDINAL, numbers):
            assert int(number) <= stretch[1], told
            places.append(stretch[0] + int(number) - 1)

    numbers = rf"{ORDINAL}(?:(?:, | and ){ORDINAL})*"
    varied = re.compile(
        rf"in each repeat(?P<but> but the last)? on the (?P<one>{numbers}) of the first (?P<n>\d+) (?P<over>[^,]+)"
        rf"(?P<more>(?:, the {numbers} of the next)+)"
        rf"(?:, at the end on the (?P<end>{numbers}) of the \d+ [^,]+)?"
    )
    alike = re.compile(
        rf"on the (?P<one>{numbers}) of (?P<each>each|the) (?P<n>\d+) (?P<over>[^,]+)"
        rf"(?:, at the end on the (?P<end>{numbers}) of the \d+ [^,]+)?"
    )
    while spec:
        last_part = len(places)
        said = varied.match(spec) or alike.match(spec)
        assert said, f"not understood: {spec}"
        fits = kind(said["n"], said["over"])
        if said.re is alike:
            body = fits[:-1] if said["end"] else fits
            assert said["each"] == "each" or len(body) == 1, f"one of several: {told}"
            for stretch in body:
                catch(stretch, said["one"])
            if said["end"]:
                catch(fits[-1], said["end"])
        else:
            ways = [said["one"]] + [part for part in said["more"].split(", the ") if part]
            last = said["end"]
            body = fits[:-1] if last else fits
            assert len(body) % len(ways) == 0, f"stretches do not come out: {told}"
            for i, stretch in enumerate(body):
                catch(stretch, ways[i % len(ways)].split(" of the next")[0])
            if last:
                catch(fits[-1], last)
        spec = spec[said.end() :].removeprefix(", ")
    if first:
        # Of the stretches named last, the one within which the row begins.
        begun = sorted(place % len(worked) + 1 for place in places[last_part:])
        first = list(map(int, re.findall(r"\d+", first)))
        assert begun[: len(first)] == first, f"first on {begun[:3]}: {told}, first on {first}"
    return colour, {place % len(worked) for place in places}


def free(worked, colour, caught, ring):
    """The longest stretch of a strand that nothing holds."""
    held = [i for i, each in enumerate(worked) if each == colour or i in caught]
    ends = held[1:] + ([held[0] + len(worked)] if ring else [])
    return max((b - a - 1 for a, b in zip(held, ends)), default=0)


def chart(title):
    """The rows of a chart's file, the first one worked first, in the order of the picture's columns; and its repeat."""
    for path in sorted((lessons / "charts").glob("*.yaml")):
        text = path.read_text()
        if f"title: {title}\n" not in text:
            continue
        block = lambda key: re.search(rf"^{key}: \|\n((?:  .*\n)+)", text, re.M)
        lines = lambda found: [line.strip() for line in found[1].splitlines()][::-1] if found else None
        rows, marks = lines(block("rows")), lines(block("shaping"))
        from_, to = map(int, re.search(r"stitches: (\d+)-(\d+)", text).groups())
        stand = lambda y, x: not marks or marks[y][x] != "#"
        kept = [[(c, from_ <= x + 1 <= to) for x, c in enumerate(line) if stand(y, x)] for y, line in enumerate(rows)]
        return kept
    raise AssertionError(f"no chart of the title {title}")


def knit(texts):
    free_most = 0
    promised = None
    rows = catches = 0
    title, number = None, None
    names = {}
    for text in texts:
        if text.startswith("Chart: "):
            title, names = text.removeprefix("Chart: "), {}
        kept = re.search(r"no strand within a (?:round|row) is free for more than (\d+) stitch", text)
        promised = int(kept[1]) if kept else promised
        steps = re.search(r"of chart “(.+?)”.*?: ([\d (),]+) repeats in each \w+, ([\d (),]+) stitches", text)
        if steps:
            each = [list(map(int, re.findall(r"\d+", part))) for part in steps.groups()[1:]]
            line = chart(steps[1])[0]
            within = sum(inside for _, inside in line)
            for repeats, count in zip(*each, strict=True):
                assert repeats * within + len(line) - within == count, f"{repeats} repeats, {count} stitches: {text}"
        label = re.fullmatch(r"(?:Round|Row)s? ([\d to]+(?:, \d+)*(?: and \d+)?)", text)
        if label:
            number = [int(n) for n in re.findall(r"\d+", label[1])]
            number = range(number[0], number[1] + 1) if " to " in label[1] else number
            continue
        if number is None or title is None:
            continue
        before, inner, after, traps, back = row(text)
        for n in number:
            drawn = chart(title)[n - 1]
            flat = any(not inside for _, inside in drawn)
            order = drawn if back else drawn[::-1]
            once = [c for c, inside in order if inside or flat]
            copies, rest = divmod(len(once) - len(before) - len(after), len(inner)) if inner else (1, 0)
            assert rest == 0, f"{title}, {n}: {len(inner)} stitches into {len(once)}"
            said = before + inner * copies + after
            for letter, colour in zip(once, said, strict=True):
                assert names.setdefault(letter, colour) == colour, f"{title}, {n}: {letter} is {names[letter]}, not {colour}"
            rows += 1
        assert len(set(names.values())) == len(names), f"{title}: two letters of one colour"
        times = 3 * sum(inside for _, inside in drawn) // max(1, len(inner)) if flat else REPEATS
        worked = before + inner * times + after
        ring = not flat
        held = dict.fromkeys(set(worked), frozenset())
        for told in traps:
            colour, places = trap(told, worked, len(inner), ring)
            held[colour] |= places
            catches += len(places)
        if len(held) > 1:
            free_most = max(free_most, *(free(worked, c, p, ring) for c, p in held.items()))
        number = None
    assert promised is None or free_most == promised, f"free for {free_most}, promised {promised}"
    return rows, catches


# Slips of the tongue, each in one place of one handout: knitting has to notice every one.
PLANTED = [
    ("on the 3rd of each 5 Fleece", "on the 5th of each 5 Fleece"),
    ("first on stitch 1:", "first on stitch 2:"),
    ("*2 Fleece, 3 Peat, 1 Fleece;", "*3 Fleece, 2 Peat, 1 Fleece;"),
    ("free for more than 3 stitches", "free for more than 2 stitches"),
    ("16 (17, 17, 18, 19) repeats", "16 (17, 18, 18, 19) repeats"),
]
total = [0, 0]
wrong = []
spoken = heard(pack / "lessons/06-pebble-hat/handout.pdf")
for right, slip in PLANTED:
    at = next((i for i, text in enumerate(spoken) if right in text), None)
    assert at is not None, f"nothing to plant a slip in: {right}"
    try:
        knit([*spoken[:at], spoken[at].replace(right, slip), *spoken[at + 1 :]])
        wrong.append(f"planted and not noticed: {slip}")
    except AssertionError:
        pass
for pdf in sorted(pack.glob("lessons/*/handout.pdf")):
    try:
        found = knit(heard(pdf))
    except AssertionError as error:
        wrong.append(f"{pdf.parent.name}: {error}")
        continue
    total = [a + b for a, b in zip(total, found)]
for line in wrong:
    print(line, file=sys.stderr)
if wrong or total[0] < 100 or total[1] < 100:
    sys.exit(f"knitted {total[0]} rows with {total[1]} catches")
print(f"knitted from what is heard: {total[0]} rows of the charts, {total[1]} catches; {len(PLANTED)} planted slips noticed")
