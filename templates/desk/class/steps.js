// What the class page tells, one thing at a time: from how the charts look to which is harder.

/** @typedef {import('../types').Contest} Contest */
/**
 * One step: what is asked, a line or two for either chart, and what else is shown.
 * @typedef {{
 *   title: string,
 *   next: string,
 *   lines: { name: string, values: [string, string] }[],
 *   bars: ('busyness' | 'grade')[],
 *   floats: boolean,
 *   last: boolean,
 * }} Step
 */

/** In the order in which they are told; a measure belongs to the first group that knows its name. */
const GROUPS = [
  { key: 'busy', known: /busy/i, title: 'How busy does each look?', next: 'How busy each looks' },
  { key: 'floats', known: /float|catch|over \d/i, title: 'How long are the floats?', next: 'The longest floats' },
  { key: 'colours', known: /^colou?rs/i, title: 'How many yarns at a time?', next: 'The yarns' },
  { key: 'looks', known: /^looks/i, title: 'How often do you look at the chart?', next: 'The looks' },
  { key: 'rest', known: /plain|relief/i, title: 'When is there a rest?', next: 'The rests' },
  { key: 'more', known: /^(?!.*how hard)/i, title: 'What else was measured?', next: 'What else was measured' },
  { key: 'grade', known: /how hard/i, title: 'How hard is each?', next: 'How hard each is' },
];

/**
 * All steps of a contest, the question first, the verdict last.
 * @param {Contest} contest
 * @returns {Step[]}
 */
export const stepsOf = (contest) => {
  const left = [...contest.measures];
  const told = GROUPS.map((group) => {
    const lines = left.filter((line) => group.known.test(line.name));
    for (const line of lines) left.splice(left.indexOf(line), 1);
    return { ...group, lines };
  });
  const steps = told
    .filter(({ key, lines }) => lines.length || key === 'busy' || key === 'grade')
    .map(({ key, title, next, lines }) => ({
      title,
      next,
      lines: key === 'busy' || key === 'grade' ? [] : lines,
      bars: /** @type {Step['bars']} */ (key === 'busy' ? ['busyness'] : key === 'grade' ? ['busyness', 'grade'] : []),
      floats: key === 'floats',
      last: false,
    }));
  const ask = { title: 'Which is harder?', next: '', lines: [], bars: [], floats: false, last: false };
  const verdict = {
    title: contest.verdict,
    next: 'Which is harder',
    lines: [],
    bars: /** @type {Step['bars']} */ (['busyness', 'grade']),
    floats: false,
    last: true,
  };
  return [ask, ...steps, verdict];
};

/**
 * What a step says of one chart, for those who listen.
 * @param {Step} step
 * @param {Contest} contest
 * @param {0 | 1} side
 */
export const spoken = (step, contest, side) => {
  const one = contest.sides[side];
  const parts = [
    ...step.bars.map((bar) => `${BAR[bar]} ${one[bar]} of 100`),
    ...step.lines.map((line) => `${line.name}: ${line.values[side]}`),
  ];
  return parts.length ? `${side ? 'B' : 'A'}: ${parts.join(', ')}` : '';
};

/** What the two bars are called. */
export const BAR = { busyness: 'looks busy', grade: 'is hard' };
