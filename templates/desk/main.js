// Opens the desk: who may enter, which view the address asks for, what changed meanwhile.
import { attempt, enter, get, listen } from './api.js';
import { actions, byId, fill, kept, say, trouble } from './dom.js';
import { show as showClass } from './class/class.js';
import { show as showCourse } from './course/course.js';
import { show as showLesson } from './course/lesson.js';
import { show as showBring } from './bring/bring.js';
import { show as showMake } from './make/make.js';
import { show as showPaper } from './paper/paper.js';
import { show as showShelf } from './paper/shelf.js';
import { show as showPeople } from './people/people.js';
import { show as showPerson } from './people/person.js';

/**
 * What a view is given: the course as it stands, the parts of its address, and where to draw.
 * @typedef {{ root: HTMLElement, words: string[], course: import('./types').Course }} Desk
 */
/**
 * What a view may answer: what to do when it is left, when something changed elsewhere, when a pack moves on.
 * @typedef {{
 *   leave?: () => unknown,
 *   changed?: (change: import('./types').Change, course: import('./types').Course) => unknown,
 *   pack?: (pack: import('./types').Pack) => unknown,
 * }} View
 */

/** @type {Record<string, { title: string, tab: string, show: (desk: Desk) => Promise<View | void> }>} */
const views = {
  course: { title: 'Course', tab: 'course', show: showCourse },
  lesson: { title: 'Lesson', tab: 'course', show: showLesson },
  charts: { title: 'Charts', tab: 'charts', show: showShelf },
  chart: { title: 'Chart', tab: 'charts', show: showPaper },
  make: { title: 'Make something of it', tab: 'charts', show: showMake },
  bring: { title: 'Bring in', tab: 'bring', show: showBring },
  class: { title: 'Class', tab: 'class', show: showClass },
  people: { title: 'Learners', tab: 'people', show: showPeople },
  person: { title: 'Learner', tab: 'people', show: showPerson },
};

/** @type {View | void} */
let shown;
let visit = 0;

const route = async () => {
  const words = location.hash.replace(/^#\//, '').split('/').map(decodeURIComponent);
  const view = views[words[0] ?? ''] ?? views.course;
  const mine = ++visit;
  await shown?.leave?.();
  shown = undefined;
  actions();
  kept('');
  const course = await attempt(() => get('/api/course'));
  if (!course || mine !== visit || !view) return;
  const root = byId('view');
  root.className = words[0] ?? 'course';
  fill(root);
  document.title = `${view.title} – ${course.title} – Yokeward desk`;
  for (const link of document.querySelectorAll('#bar nav a')) {
    if (link.getAttribute('href') === `#/${view.tab}`) link.setAttribute('aria-current', 'page');
    else link.removeAttribute('aria-current');
  }
  document.body.classList.toggle('read-only', course.readOnly);
  const answer = await attempt(() => view.show({ root, words: words.slice(1), course }).then((v) => v ?? {}));
  if (mine !== visit) await answer?.leave?.();
  else shown = answer ?? undefined;
  if (document.activeElement === document.body) root.focus({ preventScroll: true });
};

/** Changes that the view has not been told of: strokes come quickly, and the course is worked out anew for each telling. */
/** @type {import('./types').Change | null} */
let untold = null;
const PAUSE = 250;

/** @param {import('./types').Change} change */
const gather = (change) => {
  if (!untold) window.setTimeout(tell, PAUSE);
  untold = { version: change.version, ids: [...new Set([...(untold?.ids ?? []), ...change.ids])] };
};

const tell = async () => {
  const change = untold;
  untold = null;
  if (!change || !shown?.changed) return;
  const course = await attempt(() => get('/api/course'));
  if (course) shown?.changed?.(change, course);
};

const begin = async () => {
  await attempt(enter);
  window.addEventListener('hashchange', async () => {
    say('');
    trouble(null);
    await route();
    byId('view').focus({ preventScroll: true });
    window.scrollTo(0, 0);
  });
  await route();
  listen({
    change: gather,
    pack: (pack) => shown?.pack?.(pack),
  });
};

begin();
