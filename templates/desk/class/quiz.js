// The class page: two charts for the projector, hands counted, then one answer after the other. It asks the server
// for nothing: all that it tells was fetched before.
import { button, el, fill, say } from '../dom.js';
import { drawing } from './drawing.js';
import { BAR, spoken, stepsOf } from './steps.js';

/** @typedef {import('./steps.js').Step} Step */
/**
 * @typedef {{
 *   contest: import('../types').Contest,
 *   charts: [import('./drawing.js').Drawn, import('./drawing.js').Drawn],
 *   letters: boolean,
 * }} Given
 */
/** @typedef {{ at: number, hands: [number, number] }} State */

const SIDES = /** @type {const} */ ([0, 1]);

/**
 * A bar of a hundred with its name and number.
 * @param {'busyness' | 'grade'} bar
 * @param {number} value
 */
const barLine = (bar, value) => {
  const full = el('span', { class: `full ${bar}` });
  full.style.width = `${Math.max(0, Math.min(100, value))}%`;
  return el(
    'p',
    { class: 'bar-line' },
    el('span', { class: 'what' }, BAR[bar]),
    el('span', { class: 'frame', 'aria-hidden': 'true' }, full),
    el('strong', { class: 'figures' }, value),
  );
};

/**
 * The buttons that count the hands for one chart.
 * @param {0 | 1} side
 * @param {(side: 0 | 1, by: number) => void} count
 */
const handsOf = (side, count) => {
  const letter = side ? 'B' : 'A';
  return {
    number: el('output', { class: 'figures', 'aria-label': `Hands for ${letter}` }, '0'),
    less: button('−', () => count(side, -1), { 'aria-label': `One hand fewer for ${letter}` }),
    more: button('+', () => count(side, 1), { 'aria-label': `One hand more for ${letter}` }),
  };
};

/**
 * One of the two charts, with its place for hands and answers.
 * @param {Given} given
 * @param {0 | 1} side
 * @param {(side: 0 | 1, by: number) => void} count
 */
const sideOf = (given, side, count) => {
  const one = given.contest.sides[side];
  const letter = side ? 'B' : 'A';
  const hands = handsOf(side, count);
  const handsBox = el(
    'div',
    { class: 'hands', role: 'group', 'aria-label': `Who says ${letter}?` },
    hands.less,
    hands.more,
    hands.number,
    el('span', { class: 'word', 'aria-hidden': 'true' }, 'hands'),
  );
  const cloth = el('div', { class: 'cloth paper' });
  const told = el('div', { class: 'told' });
  const counted = el('p', { class: 'counted' });
  const box = el(
    'section',
    { 'aria-labelledby': `side-${letter}` },
    el('h2', { id: `side-${letter}` }, el('span', { class: 'letter' }, letter), ` ${one.title}`),
    cloth,
    handsBox,
    counted,
    told,
  );
  return { box, cloth, told, counted, handsBox, hands, one, letter };
};

/**
 * @param {Given} given
 * @param {0 | 1} side
 * @param {boolean} floats
 */
const clothOf = (given, side, floats) => {
  const one = given.contest.sides[side];
  const label = `Chart ${side ? 'B' : 'A'}, ${one.title}, in its yarns${floats ? `; its longest float passes ${one.longest} stitches` : ''}`;
  return drawing(given.charts[side], label, floats ? one.floats : []);
};

/**
 * @param {number} hands
 */
const handsSaid = (hands) => (hands === 1 ? '1 hand' : `${hands} hands`);

/**
 * What is told of one chart in this step.
 * @param {Given} given
 * @param {Step} step
 * @param {0 | 1} side
 */
const toldOf = (given, step, side) => [
  ...step.bars.map((bar) => barLine(bar, given.contest.sides[side][bar])),
  ...step.lines.map((line) =>
    el('p', { class: 'fact' }, el('span', {}, line.name), el('strong', { class: 'figures' }, line.values[side])),
  ),
];

/**
 * Whole screen, where the browser lends it.
 */
const screenButton = () => {
  if (!document.fullscreenEnabled) return null;
  const made = button(
    'Full screen',
    async () => {
      const done = document.fullscreenElement
        ? document.exitFullscreen()
        : document.documentElement.requestFullscreen();
      // Where the browser will not, the page fills its window all the same.
      await done.catch(() => {});
      made.setAttribute('aria-pressed', String(!!document.fullscreenElement));
    },
    { 'aria-pressed': 'false' },
  );
  return made;
};

/**
 * What the keys do: Space and the arrows go on and back, A and B count hands (with Shift: one fewer).
 * @param {{ go: (by: number) => void, count: (side: 0 | 1, by: number) => void, letters: boolean, leave: () => void }} may
 * @returns {(event: KeyboardEvent) => void}
 */
const keysOf = (may) => (event) => {
  if (event.ctrlKey || event.metaKey || event.altKey) return;
  const onControl = event.target instanceof HTMLElement && event.target.closest('button, a');
  const key = event.key.length === 1 ? event.key.toLowerCase() : event.key;
  if (key === 'Escape') may.leave();
  else if (key === 'ArrowRight' || key === 'PageDown' || (key === ' ' && !onControl)) may.go(1);
  else if (key === 'ArrowLeft' || key === 'PageUp') may.go(-1);
  else if (may.letters && (key === 'a' || key === 'b')) may.count(key === 'a' ? 0 : 1, event.shiftKey ? -1 : 1);
  else return;
  event.preventDefault();
};

/**
 * The buttons under the charts.
 * @param {(by: number) => void} go
 */
const movesOf = (go) => ({
  back: button('Back', () => go(-1)),
  next: button('', () => go(1), { class: 'main next' }),
  place: el('p', { class: 'place figures' }),
  again: el('a', { class: 'button main next', href: '#/class' }, 'Another two charts'),
});

/**
 * Shows the class page in this place; answers how to leave it.
 * @param {HTMLElement} root
 * @param {Given} given
 * @returns {() => void}
 */
export const quiz = (root, given) => {
  const steps = stepsOf(given.contest);
  /** @type {State} */
  const state = { at: 0, hands: [0, 0] };
  const count = (/** @type {0 | 1} */ side, /** @type {number} */ by) => {
    if (state.at > 0) return;
    state.hands[side] = Math.max(0, state.hands[side] + by);
    sides[side].hands.number.textContent = String(state.hands[side]);
    say(`${handsSaid(state.hands[side])} for ${side ? 'B' : 'A'}`);
  };
  const go = (/** @type {number} */ by) => {
    const to = state.at + by;
    if (to < 0 || to >= steps.length) return;
    state.at = to;
    draw(true);
  };
  const leave = () => void (location.hash = '#/class');
  /** @type {[ReturnType<typeof sideOf>, ReturnType<typeof sideOf>]} */
  const sides = [sideOf(given, 0, count), sideOf(given, 1, count)];
  const moves = movesOf(go);
  const title = el('h1', {});
  const both = el(
    'div',
    { class: 'sides' },
    sides.map(({ box }) => box),
  );
  const why = el('p', { class: 'why' });
  const draw = (/** @type {boolean} */ aloud) => show({ given, steps, state, sides, both, moves, title, why, aloud });
  const keys = keysOf({ go, count, letters: given.letters, leave });
  fill(
    root,
    el('div', { class: 'top' }, title, el('div', { class: 'out' }, screenButton(), button('Leave', leave))),
    both,
    why,
    el('div', { class: 'moves' }, moves.back, moves.place, moves.next, moves.again),
  );
  document.body.classList.add('showing');
  document.addEventListener('keydown', keys);
  draw(false);
  return () => {
    document.body.classList.remove('showing');
    document.removeEventListener('keydown', keys);
    if (document.fullscreenElement) document.exitFullscreen().catch(() => {});
  };
};

/**
 * @typedef {{
 *   given: Given, steps: Step[], state: State, sides: [ReturnType<typeof sideOf>, ReturnType<typeof sideOf>], moves: ReturnType<typeof movesOf>,
 *   title: HTMLElement, both: HTMLElement, why: HTMLElement, aloud: boolean,
 * }} Page
 */

/**
 * Draws the step that the page is at.
 * @param {Page} page
 */
const show = ({ given, steps, state, sides, both, moves, title, why, aloud }) => {
  const step = steps[state.at];
  if (!step) return;
  title.textContent = step.title;
  both.classList.toggle('last', step.last);
  for (const side of SIDES) {
    const box = sides[side];
    fill(box.cloth, clothOf(given, side, step.floats));
    fill(box.told, ...toldOf(given, step, side));
    box.handsBox.hidden = state.at > 0;
    box.counted.hidden = state.at === 0 || state.hands[0] + state.hands[1] === 0;
    box.counted.textContent = `${handsSaid(state.hands[side])} for ${box.letter}`;
    box.box.classList.toggle('harder', step.last && given.contest.harder === side + 1);
  }
  why.hidden = !step.last;
  why.textContent = step.last ? given.contest.why : '';
  showMoves(steps, state, moves);
  if (aloud)
    say(
      [step.title, spoken(step, given.contest, 0), spoken(step, given.contest, 1), why.textContent]
        .filter(Boolean)
        .join('. '),
    );
};

/**
 * @param {Step[]} steps
 * @param {State} state
 * @param {ReturnType<typeof movesOf>} moves
 */
const showMoves = (steps, state, moves) => {
  const next = steps[state.at + 1];
  const held = document.activeElement;
  moves.back.disabled = state.at === 0;
  moves.place.textContent = `${state.at + 1} of ${steps.length}`;
  moves.next.textContent = next ? next.next : '';
  moves.next.hidden = !next;
  moves.again.hidden = !!next;
  if (held === moves.next && !next) moves.again.focus();
  if (held === moves.again && next) moves.next.focus();
  if (held === moves.back && moves.back.disabled) moves.next.focus();
};
