// Dragging a lesson by its handle, with mouse, pen or finger. A click without a drag opens what the keyboard has, too.
/** How far a pointer moves before it drags. */
const SLACK = 5;

/**
 * @param {HTMLElement} list lessons, the last first
 * @param {import('./trial.js').Trial} trial
 * @param {boolean} readOnly
 */
export const drags = (list, trial, readOnly) => {
  if (readOnly) return;
  /** @type {{ id: string, y: number, pointer: number, dragging: boolean } | null} */
  let held = null;

  /** The place under the pointer, counted from 0 at the bottom. @param {number} y */
  const placeAt = (y) => {
    const lines = [...list.children];
    const found = lines.findIndex((line) => y < line.getBoundingClientRect().bottom);
    return lines.length - 1 - (found < 0 ? lines.length - 1 : found);
  };

  list.addEventListener('pointerdown', (event) => {
    const handle = event.target instanceof Element ? event.target.closest('.handle') : null;
    const id = handle instanceof HTMLElement ? handle.dataset.id : undefined;
    if (!id || event.button !== 0) return;
    event.preventDefault();
    if (handle instanceof HTMLElement) handle.focus();
    // The list holds the pointer: its lines are drawn anew while one is dragged.
    list.setPointerCapture(event.pointerId);
    held = { id, y: event.clientY, pointer: event.pointerId, dragging: false };
  });
  list.addEventListener('pointermove', (event) => {
    if (!held || held.pointer !== event.pointerId) return;
    if (!held.dragging && Math.abs(event.clientY - held.y) < SLACK) return;
    if (!held.dragging) {
      held.dragging = true;
      list.classList.add('dragging');
      if (trial.moved !== held.id) trial.begin(held.id);
    }
    const edge = 60;
    if (event.clientY < edge) window.scrollBy(0, -12);
    if (event.clientY > window.innerHeight - edge) window.scrollBy(0, 12);
    trial.to(placeAt(event.clientY));
  });
  /** @param {PointerEvent} event */
  const end = (event) => {
    if (!held || held.pointer !== event.pointerId) return;
    const { id, dragging } = held;
    held = null;
    list.classList.remove('dragging');
    if (event.type === 'pointercancel') trial.back();
    else if (!dragging) toggle(id);
  };
  /** @param {string} id */
  const toggle = (id) => {
    if (trial.moved !== id) trial.begin(id);
    else if (!trial.elsewhere) trial.back();
  };
  list.addEventListener('pointerup', end);
  list.addEventListener('pointercancel', end);
  // The keyboard's click; a pointer's was ended above, and has a detail.
  list.addEventListener('click', (event) => {
    const handle = event.target instanceof Element ? event.target.closest('.handle') : null;
    const id = handle instanceof HTMLElement ? handle.dataset.id : undefined;
    if (id && event.detail === 0) toggle(id);
  });
};
