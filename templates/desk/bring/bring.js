// Three ways to bring a chart in: a picture, letters, a copy.
import { el, fill, trouble } from '../dom.js';
import { copying } from './copy.js';
import { onPicture } from './picture.js';
import { pasting } from './text.js';
import { workOn } from './work.js';

/** @type {import('./work.js').Work | null} */
let work = null;

/**
 * The first picture among what was chosen, dropped or pasted.
 * @param {FileList | undefined | null} files
 */
const pictureOf = (files) => [...(files ?? [])].find((file) => file.type.startsWith('image/') || !file.type) ?? null;

/**
 * The way in for a picture.
 * @param {(file: File) => void} take
 */
const choosing = (take) => {
  const input = el('input', {
    type: 'file',
    accept: 'image/png,image/jpeg,image/webp,image/gif',
    onchange: () => {
      const file = pictureOf(input.files);
      if (file) take(file);
    },
  });
  return el(
    'section',
    { class: 'picture', 'aria-labelledby': 'picture' },
    el('h2', { id: 'picture' }, 'A picture of a chart'),
    el(
      'p',
      { class: 'note' },
      'Squared paper, a scan, a photograph, a drawing. Choose it, drop it on this page, or paste it.',
    ),
    el('label', {}, 'Picture', input),
  );
};

/**
 * Pictures that are dropped on the page or pasted into it. Answers how to stop.
 * @param {(file: File) => void} take
 */
const catching = (take) => {
  const over = (/** @type {DragEvent} */ event) => {
    if (event.dataTransfer?.types.includes('Files')) event.preventDefault();
  };
  const dropped = (/** @type {DragEvent} */ event) => {
    const file = pictureOf(event.dataTransfer?.files);
    if (!event.dataTransfer?.files.length) return;
    event.preventDefault();
    if (file) take(file);
  };
  const pasted = (/** @type {ClipboardEvent} */ event) => {
    const file = pictureOf(event.clipboardData?.files);
    if (!file) return;
    event.preventDefault();
    take(file);
  };
  document.addEventListener('dragover', over);
  document.addEventListener('drop', dropped);
  document.addEventListener('paste', pasted);
  return () => {
    document.removeEventListener('dragover', over);
    document.removeEventListener('drop', dropped);
    document.removeEventListener('paste', pasted);
  };
};

/**
 * @param {import('../main.js').Desk} desk
 * @returns {Promise<import('../main.js').View | void>}
 */
export async function show(desk) {
  const { root, course } = desk;
  if (course.readOnly) {
    fill(root, el('h1', {}, 'Bring a chart in'), el('p', {}, 'This desk only reads: nothing can be brought in.'));
    return;
  }
  let stop = () => {};
  const take = async (/** @type {File} */ file) => {
    const next = await workOn(file, file.name);
    if (!next) {
      trouble('This browser cannot show that picture. PNG, JPEG, WebP and GIF will do.');
      return;
    }
    trouble(null);
    work = next;
    draw();
    root.focus({ preventScroll: true });
    window.scrollTo(0, 0);
  };
  const forget = () => void (work = null);
  const draw = () => {
    stop();
    stop = () => {};
    if (work) {
      stop = onPicture(desk, root, work, {
        another: () => {
          forget();
          draw();
          root.focus({ preventScroll: true });
        },
        done: forget,
      });
      return;
    }
    fill(
      root,
      el('h1', {}, 'Bring a chart in'),
      el('div', { class: 'ways' }, choosing(take), pasting(course), copying(course)),
    );
  };
  const uncatch = catching(take);
  draw();
  return {
    leave: () => {
      stop();
      uncatch();
    },
  };
}
