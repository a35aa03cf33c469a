// Elements, and what is said to those who listen.

/**
 * An element with attributes, listeners (`onclick`), properties (`.value`) and children. False and null leave out.
 * @template {keyof HTMLElementTagNameMap} T
 * @param {T} tag
 * @param {Record<string, unknown>} [attributes]
 * @param {...(Node | string | number | null | false | undefined | (Node | string | null | false)[])} children
 * @returns {HTMLElementTagNameMap[T]}
 */
export const el = (tag, attributes = {}, ...children) => {
  const made = document.createElement(tag);
  for (const [name, value] of Object.entries(attributes)) {
    if (value === false || value === null || value === undefined) continue;
    if (name.startsWith('on') && typeof value === 'function') {
      made.addEventListener(name.slice(2), /** @type {EventListener} */ (value));
    } else if (name.startsWith('.')) {
      Reflect.set(made, name.slice(1), value);
    } else {
      made.setAttribute(name, value === true ? '' : String(value));
    }
  }
  fill(made, ...children);
  return made;
};

/**
 * Gives an element these children and no others.
 * @param {Element} parent
 * @param {...(Node | string | number | null | false | undefined | (Node | string | null | false)[])} children
 */
export const fill = (parent, ...children) => {
  const kept = children
    .flat()
    .filter((child) => child !== null && child !== undefined && child !== false)
    .map((child) => (child instanceof Node ? child : String(child)));
  parent.replaceChildren(...kept);
};

/**
 * The element with this id, which the page has.
 * @param {string} id
 * @returns {HTMLElement}
 */
export const byId = (id) => {
  const found = document.getElementById(id);
  if (!found) throw new Error(`the page has no #${id}`);
  return found;
};

/** @type {string[]} */
let waiting = [];
let timer = 0;

/**
 * Says something to those who listen; what comes in quick succession is gathered.
 * @param {string} text
 */
export const say = (text) => {
  if (!text || waiting.at(-1) === text) return;
  waiting.push(text);
  clearTimeout(timer);
  timer = window.setTimeout(() => {
    byId('said').textContent = waiting.join('. ');
    waiting = [];
  }, 250);
};

/**
 * Shows trouble above the work until the next success; nothing takes it away.
 * @param {string | null} text
 */
export const trouble = (text) => {
  const place = byId('trouble');
  place.hidden = !text;
  place.textContent = text ?? '';
};

/**
 * Says in the bar whether all is kept.
 * @param {string} text
 */
export const kept = (text) => {
  const place = byId('kept');
  if (place.textContent !== text) place.textContent = text;
};

/**
 * Buttons of the view in the bar.
 * @param {...Node} buttons
 */
export const actions = (...buttons) => fill(byId('actions'), ...buttons);

/**
 * A button.
 * @param {string} words
 * @param {() => unknown} act
 * @param {Record<string, unknown>} [attributes]
 */
export const button = (words, act, attributes = {}) =>
  el('button', { type: 'button', onclick: () => act(), ...attributes }, words);
