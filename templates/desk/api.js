// Speaks with the desk's server. What it answers is described in types.d.ts.
import { trouble } from './dom.js';

/** What the server would not do, and why. */
export class Refused extends Error {
  /**
   * @param {number} status
   * @param {{ message?: string, help?: string, file?: import('./types').File }} body
   */
  constructor(status, body) {
    super(body.help ? `${body.message} (${body.help})` : (body.message ?? `the desk answered ${status}`));
    this.status = status;
    this.file = body.file ?? null;
  }
}

/** The server does not answer: it was closed, or the computer slept. */
export class Away extends Error {
  constructor() {
    super('The desk does not answer. All that was kept is safe on the disk; start it again and reload this page.');
  }
}

/**
 * @param {string} path
 * @param {RequestInit} [options]
 */
const ask = async (path, options) => {
  let response;
  try {
    response = await fetch(path, { credentials: 'same-origin', cache: 'no-store', ...options });
  } catch {
    throw new Away();
  }
  if (response.status === 204) return null;
  const body = await response.json().catch(() => ({}));
  if (!response.ok) throw new Refused(response.status, body);
  return body;
};

/**
 * @template T
 * @param {string} path
 * @returns {Promise<T>}
 */
export const get = (path) => ask(path);

/**
 * @template T
 * @param {string} path
 * @param {unknown} body JSON, or the bytes of a picture
 * @returns {Promise<T>}
 */
export const post = (path, body) =>
  body instanceof Blob
    ? ask(path, { method: 'POST', body, headers: { 'content-type': 'application/octet-stream' } })
    : ask(path, {
        method: 'POST',
        body: JSON.stringify(body ?? {}),
        headers: { 'content-type': 'application/json' },
      });

/**
 * Does something that may be refused; shows why where it is. Returns null then.
 * @template T
 * @param {() => Promise<T>} act
 * @returns {Promise<T | null>}
 */
export const attempt = async (act) => {
  try {
    const done = await act();
    trouble(null);
    return done;
  } catch (error) {
    if (!(error instanceof Refused || error instanceof Away)) throw error;
    trouble(error.message);
    return null;
  }
};

/** Hands the token of the opened link in, once, and takes it out of the address. */
export const enter = async () => {
  const token = /^#token=([0-9a-f]+)$/.exec(location.hash)?.[1];
  if (!token) return;
  history.replaceState(null, '', '/#/course');
  await post('/api/enter', { token });
};

/**
 * Listens to what changes on the desk and beside it.
 * @param {{ change: (change: import('./types').Change) => void, pack: (pack: import('./types').Pack) => void }} to
 */
export const listen = (to) => {
  const events = new EventSource('/api/events');
  let lost = false;
  events.addEventListener('open', () => {
    if (lost) trouble(null);
    lost = false;
  });
  events.addEventListener('change', (event) => to.change(JSON.parse(event.data)));
  events.addEventListener('pack', (event) => to.pack(JSON.parse(event.data)));
  events.addEventListener('error', () => {
    lost = true;
    trouble(new Away().message);
    // A refused stream is not tried again by itself.
    if (events.readyState === EventSource.CLOSED) window.setTimeout(() => listen(to), 3000);
  });
};
