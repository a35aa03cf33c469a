// What the desk's server answers, as types: the one description of its JSON. Every answer says
// `"format": "yokeward/desk/1"`. All numbers come from the engine; the page only shows them. Rows and stitches are
// counted from 1, row 1 at the bottom, stitch 1 at the right, as drawn.
//
// A request that is refused answers `{ "message": …, "help"?: … }` with status 400 (what was sent makes no sense), 403
// (no ticket, a foreign page, or a desk that only reads), 404 (no such thing), 409 (changed meanwhile; `file` holds how
// it stands now), 413 (too large), 422 (cannot be done; says why and what would), 503 or 507 (the disk).

/** POST /api/enter { token } gives the cookie. All else needs it. */

/** GET /api/course */
export interface Course {
  format: 'yokeward/desk/1';
  /** Grows with every change of anything. */
  version: number;
  /** Whether this desk only reads (`--read-only`): hide or disable what writes. */
  readOnly: boolean;
  id: string;
  title: string;
  guild: string | null;
  terms: 'uk' | 'us';
  units: 'metric' | 'imperial' | 'both';
  budget: { step: number; doorstep: number; techniques: number };
  /** In the order of the ladder, the first first. */
  lessons: Rung[];
  /** By id. */
  charts: Shelf[];
  /** All faults of the course, as `proof` finds them. */
  faults: Fault[];
  /** Steps over the budget, without remedies (GET /api/gaps looks for them and may take seconds). */
  gaps: Gap[];
  sizes: { id: string; label: string }[];
  /** What a lesson may make. */
  makes: string[];
  /** All that is not saved. Lessons without a file are not among `lessons`, in no order and in no pack. */
  drafts: { id: string; kind: 'chart' | 'lesson' | 'course'; title: string; fresh: boolean }[];
  /** Learners with a log: id and name. */
  people: { id: string; name: string }[];
}

/** A lesson on the ladder. */
export interface Rung {
  id: string;
  title: string;
  makes: string;
  craft: string;
  grade: number;
  level: string;
  busyness: number;
  /** Points of each part, in the order floats, colours, reading, relief, handling. */
  points: Record<PartName, number>;
  step: number;
  newTechniques: string[];
  /** Weight × growth of the parts that grew. */
  raised: Partial<Record<PartName, number>>;
  needs: string[];
  charts: string[];
  sizes: string[];
  hours: [number, number];
  /** Whether the draft differs from the file. */
  changed: boolean;
}
export type PartName = 'floats' | 'colours' | 'reading' | 'relief' | 'handling';

/** A chart on the shelf. */
export interface Shelf {
  id: string;
  title: string;
  stitches: number;
  rows: number;
  colours: number;
  grade: number;
  level: string;
  busyness: number;
  longest: number;
  rights: Rights;
  /** May it be printed and shown? (`reference-only` may not.) */
  mayPrint: boolean;
  usedBy: string[];
  changed: boolean;
}
export type Rights = 'own' | 'public-domain' | 'permission' | 'reference-only';

export interface Fault {
  code: string;
  severity: 'error' | 'warning';
  /** Id of the chart or lesson; `course` for course.yaml; null for other files. */
  id: string | null;
  kind: 'chart' | 'lesson' | 'course' | null;
  file: string;
  line: number;
  column: number;
  message: string;
  help: string | null;
}
export interface Gap {
  id: string;
  step: number;
  cause: string;
  remedies: Remedy[];
  /** There, and true, where not all was tried for the time it would take. */
  not_searched_further?: true;
}
/** As `order --json` has it; `text` says it in words; `take` is there for those that POST /api/remedy can take. */
export interface Remedy {
  kind: 'between' | 'tame' | 'needs';
  closes: boolean;
  text: string;
  steps: number[];
  take: { gap: string; remedy: number } | null;
}

/**
 * GET /api/file/ID: a chart, a lesson, or `course`. The draft: the file's text with all that was done to it and not
 * saved yet. It is kept on the disk with every step, so undo, redo and reload lose nothing.
 */
export interface File {
  format: 'yokeward/desk/1';
  id: string;
  kind: 'chart' | 'lesson' | 'course';
  /** The whole file as it would be saved. */
  text: string;
  /** The number of this state; sent with every change, so that two windows do not undo each other's work. */
  at: number;
  /** Differs from the file. */
  changed: boolean;
  /** There is no file yet. */
  fresh: boolean;
  undo: boolean;
  redo: boolean;
  /** The file's text, when somebody changed it beside the desk since the draft began: show both, keep either. */
  elsewhere: string | null;
  faults: Fault[];
  chart: Chart | null;
  lesson: Lesson | null;
}

/** What the draft of a chart says. `rows` are there even while the chart has faults; `measured` only without errors. */
export interface Chart {
  title: string;
  worked: 'round' | 'flat';
  rights: Rights;
  /** Who permitted it, and what for, where `rights` is `permission`. */
  from: string | null;
  scope: string | null;
  source: string;
  /** Top line first, one letter a stitch. */
  rows: string[];
  /** The same shape: `.` plain, `/` `\` decreases, `^` three to one, `+` make one, `-` purl, `#` no stitch. */
  shaping: string[] | null;
  /** The yarns: letter, role, and how the lesson (or, without one, the desk) shows it. */
  colours: { letter: string; role: string; name: string; hex: string }[];
  /** As written in the file, e.g. `1-4`; null where not declared. */
  repeat: { stitches: string | null; rows: string | null };
  /** What is repeated, from 1, both ends included, declared or not. */
  repeats: { stitches: [number, number]; rows: [number, number] };
  reflect: string | null;
  /** The lesson in whose yarns and gauge it is shown (the first that uses it, or the one of `?lesson=`); null without one. */
  lesson: { id: string; title: string } | null;
  /** Height of a stitch ÷ its width. */
  aspect: number;
  /** Stitches that may float uncaught. */
  limit: number;
  /** Live stitches after each row, row 1 first; empty while rows are ragged. */
  live: number[];
  measured: Measured | null;
  /** Faults that lie on a row or a stitch of the paper. */
  marks: { row: number; stitch: number | null; code: string; message: string }[];
  /** Yarns that meet in a row and will not read apart: letters, and a sentence. */
  clashes: { letters: [string, string]; text: string }[];
}

/** How hard, and why. `measure` is an entry of `measure --json` (a bare chart, or the lesson as worked). */
export interface Measured {
  grade: number;
  level: string;
  busyness: number;
  /** Said in a few words beside the grade, e.g. “kinder than it looks”. */
  looks: string;
  parts: Record<PartName, { title: string; value: number; points: number; cause: string; row: number | null; met: number | null }>;
  techniques: string[];
  measure: Entry;
  /** Each row on its own line. */
  perRow: RowFacts[];
  /** Where it would stand: steps from what was met before. Null for a chart that no lesson uses. */
  step: number | null;
}
/** An entry of `measure --json`; see `yokeward schema measure`. */
export interface Entry {
  id: string;
  stitches: number;
  rows: number;
  repeats: number;
  gauge: number;
  floats: { longest: number; longest_mm: number; mean: number; limit: number; rows_over: number; catches: number };
  colours: { total: number; most: number; mean: number };
  reading: { looks_mean: number; looks_16: number; looks_most: number };
  relief: { rows: number; share: number; stretch: number };
  [more: string]: unknown;
}
export interface RowFacts {
  row: number;
  colours: number;
  /** Longest float of the row; 0 in a plain row. */
  longest: number;
  over: boolean;
  looks: number;
  plain: boolean;
  /** Every float longer than the limit: where it lies (start: first stitch floated over, then to the left) and in which yarn. */
  long: { letter: string; start: number; stitches: number }[];
  catches: { letter: string; stitch: number }[];
}

/** What the draft of a lesson says. */
export interface Lesson {
  title: string;
  makes: string;
  craft: string;
  needs: string[];
  charts: string[];
  measured: Measured | null;
  /** Every size in numbers: one line a measure, one value a size. Empty while there are no counts. */
  sizes: { labels: string[]; lines: { name: string; values: string[] }[] };
  /** Why a size has no counts, and what would help. */
  lacking: { text: string; help: string }[];
  /** Whether the handout can be made. */
  ready: boolean;
  /** Changes with everything that the pictures and the handout show: put it behind their addresses as `?v=`. */
  version: string;
}

/**
 * POST /api/file/ID  { at, edits } or { at, text }  → File (409 with `file` when `at` is old).
 * Edits change values in place; comments and order of the file stay. Exactly one of block, text, value, remove.
 */
export interface Edit {
  /** Keys and places from the top, e.g. ["rows"] or ["gauge", "colourwork", "stitches"] or ["bands", 1, "chart"]. */
  at: (string | number)[];
  /** Lines, written as a block (`rows`, `shaping`, `text`). */
  block?: string;
  /** A single value as text; quoted where YAML needs it. */
  text?: string;
  /** Anything, written on one line: 5, true, [a, b], { stitches: "1-4" }. */
  value?: unknown;
  remove?: true;
}
/* POST /api/file/ID/undo | redo | drop   { at }         → File; `drop` gives the draft up for what the file says. */
/* POST /api/file/ID/save { at, over? }   → File; 409 with `file` (whose `elsewhere` is set) if the file was changed
   beside the desk; `over: true` then writes the draft over it (drop keeps theirs). */
/* POST /api/new { kind: 'chart', id, title, stitches, rows, colours?: number }
        { kind: 'chart', id, title, lines: string[], colours: { letter, role }[] }   (a picture or pasted text)
        { kind: 'chart', id, copy: ID }                                              (a copy inherits rights and source)
   → File, fresh. Ids: small letters, digits, hyphens. A new chart of a picture or a paste is `reference-only`. */
/* POST /api/pasted { text } → { lines: string[], colours: { letter, role }[] } or 422: a text chart read. */

/** GET /api/kinder/ID[?lesson=ID]: proposals for a chart, the best first. */
export interface Kinder {
  format: 'yokeward/desk/1';
  now: { grade: number; step: number | null; longest: number };
  proposals: {
    kind: 'recolour' | 'plain' | 'catch';
    /** e.g. “Paint 3 stitches: no float over 4” */
    title: string;
    why: string;
    /** What the rows would be (top first); null for a catch plan. */
    rows: string[] | null;
    cells: { row: number; stitch: number; from: string; to: string }[];
    catches: { row: number; letter: string; stitch: number }[];
    /** What to POST to take it (rows, and the repeat and shaping that go with them); empty for a catch plan. */
    edits: Edit[];
    after: { grade: number; step: number | null; longest: number };
  }[];
}
/* GET /api/fabric/ID.svg[?lesson=ID] : the draft of a chart as worked fabric, tiled. GET /api/piece/LESSON.svg : the piece
   with its bands in place. GET /api/handout/LESSON.html|.pdf[?large&black&left&size=ID&letter] : as it will print.
   GET /api/schema : the JSON Schema of the files (help for every key). */

/** POST /api/trace?stitches=&rows=&corners=x,y,x,y,x,y,x,y&colours=  with the bytes of a picture → Traced or 422 */
export interface Traced {
  format: 'yokeward/desk/1';
  /** Size of the picture as read, upright. */
  width: number;
  height: number;
  stitches: number;
  rows: number;
  /** Clockwise from top left, in pixels of the picture. */
  corners: [number, number][];
  /** Top line first. */
  lines: string[];
  colours: { letter: string; hex: string; cells: number }[];
  uncertain: { row: number; stitch: number; letter: string; instead: string; certainty: number }[];
}

/** POST /api/make → File of kind lesson (fresh, unsaved; asked again with the same id it replaces the draft). */
export interface Make {
  id: string;
  title: string;
  chart: string;
  makes: string;
  /** Null: not known; the hat is knitted as the swatch, and says so. */
  gauge: { stitches: number; rows: number } | null;
  /** Yarn weight category 0 to 7, or null. */
  weight: number | null;
  sizes: string[];
  /** Her own measures in mm (head, hand, chest …): adds a size of her own. */
  own: { name: string; measures: Record<string, number> } | null;
  /** How often the chart is worked upwards. */
  times: number;
  /** Plain rows beneath and above the band. */
  below: number;
  above: number;
  /** Yarns by role. */
  colours: Record<string, { name: string; hex: string }>;
}
/** GET /api/make/CHART: what can be made of it, and a first proposal. */
export interface Making {
  format: 'yokeward/desk/1';
  first: Make;
  makes: { id: string; name: string; parts: string[] }[];
  weights: { category: number; name: string; gauge: [number, number] }[];
  sizes: { id: string; label: string }[];
}

/** POST /api/along { ids } : what the ladder would be in this order. */
export interface Along {
  format: 'yokeward/desk/1';
  lessons: { id: string; step: number; newTechniques: string[]; over: boolean; /** Lessons it needs that stand above it. */ forbidden: string[] }[];
  largest: number;
}
/* POST /api/along/keep { ids, moved } → Course: writes the fewest `needs` that make it so into the drafts; 422 says what forbids it. */
/* POST /api/remedy { gap, remedy } → Course */

/** GET /api/pack ; POST /api/pack {} starts one. Progress comes by events. */
export interface Pack {
  format: 'yokeward/desk/1';
  state: 'none' | 'working' | 'done' | 'failed';
  done: number;
  of: number;
  message: string;
  /** GET /api/pack/N opens it. */
  files: { n: number; path: string; size: number }[];
}

/** GET /api/class?a=ID&b=ID : all that the class page shows, at once. Only charts that may be shown. */
export interface Contest {
  format: 'yokeward/desk/1';
  sides: [Side, Side];
  measures: { name: string; values: [string, string] }[];
  /** 1, 2 or null: alike. */
  harder: number | null;
  verdict: string;
  why: string;
}
export interface Side {
  id: string;
  title: string;
  rows: string[];
  colours: { letter: string; hex: string; name: string }[];
  aspect: number;
  grade: number;
  busyness: number;
  limit: number;
  /** Every float to draw when floats are shown: the longest of each row. */
  floats: { row: number; letter: string; start: number; stitches: number }[];
  longest: number;
  /** What is repeated, from 1, both ends included; `up`: whether it repeats upwards, too. */
  repeats: { stitches: [number, number]; rows: [number, number]; up: boolean };
}

/** GET /api/register */
export interface Register {
  format: 'yokeward/desk/1';
  at: number;
  learners: { name: string; size: string; colours: string; done: string[] }[];
  /** The next lesson of each, by the order of the course; null when all are done. */
  next: (string | null)[];
}
/* POST /api/register { at, learners } → Register; kept at once in people/register.yaml, never in a handout. */

/** GET /api/person/ID : a learner's log (people/ID.yaml, the form that `record` writes). */
export interface Person {
  format: 'yokeward/desk/1';
  id: string;
  name: string;
  done: { made: string; title: string; went: 'easy' | 'right' | 'hard'; on: string | null; note: string | null }[];
  aim: string;
  /** The next three, with reasons. */
  next: { id: string; title: string; kind: string; grade: number; step: number; reasons: string[]; hours: [number, number] | null }[];
}
/* POST /api/person { id, name } → Person; POST /api/person/ID/done { made, went, on?, note?, gauge?: [stitches, rows] } → Person */
/** GET /api/person/ID/way?to=LESSON */
export interface Way {
  format: 'yokeward/desk/1';
  largest: number;
  lessons: { id: string; title: string; grade: number; step: number; again: boolean; newTechniques: string[] }[];
}
/** GET /api/fit/LESSON?gauge=21.5 or ?stitches=96&girth=540 */
export interface Fit {
  format: 'yokeward/desk/1';
  /** What it comes to, in sentences. */
  lines: string[];
  table: { head: string[]; rows: string[][] } | null;
}

/**
 * GET /api/events (server-sent): `change` { version, ids } after anything changed, here or beside; `pack` is a Pack.
 * When it breaks, say so and try again: the drafts are safe on the disk.
 */
export interface Change {
  version: number;
  ids: string[];
}
