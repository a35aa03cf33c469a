// The register as it is kept: one change at a time, each at once on the disk. A change is told as what to do to the
// learners, so that it can be done again on what somebody else kept meanwhile.
import { Away, Refused, get, post } from '../api.js';
import { say, trouble } from '../dom.js';

/** @typedef {import('../types').Register} Register */
/** @typedef {Register['learners'][number]} Learner */
/**
 * What to do to the learners; null where it cannot be done any more.
 * @typedef {(learners: Learner[]) => Learner[] | null} Change
 */

/**
 * Where somebody stands in the list; -1 if no longer.
 * @param {Learner[]} learners
 * @param {string} name
 */
const indexOf = (learners, name) => learners.findIndex((learner) => learner.name === name);

/**
 * Gives one learner other values.
 * @param {string} name
 * @param {(learner: Learner) => Partial<Learner>} values
 * @returns {Change}
 */
export const alter = (name, values) => (learners) => {
  if (indexOf(learners, name) < 0) return null;
  return learners.map((learner) => (learner.name === name ? { ...learner, ...values(learner) } : learner));
};

/**
 * @param {string} name
 * @param {string} lesson
 * @param {boolean} done
 */
export const tick = (name, lesson, done) =>
  alter(name, (learner) => {
    const others = learner.done.filter((id) => id !== lesson);
    return { done: done ? [...others, lesson] : others };
  });

/**
 * @param {Learner} learner
 * @param {number} [at] where in the list; at its end without
 * @returns {Change}
 */
export const add = (learner, at) => (learners) =>
  indexOf(learners, learner.name) >= 0 ? null : learners.toSpliced(at ?? learners.length, 0, learner);

/**
 * @param {string} name
 * @returns {Change}
 */
export const remove = (name) => (learners) => {
  const at = indexOf(learners, name);
  return at < 0 ? null : learners.toSpliced(at, 1);
};

/**
 * The register, and how to change it. Changes wait for each other.
 * @param {(register: Register) => void} shown called with every new state
 */
export const keeping = (shown) => {
  /** @type {Register | null} */
  let register = null;
  /** @type {Promise<unknown>} */
  let last = Promise.resolve();
  const take = (/** @type {Register} */ now) => {
    register = now;
    shown(now);
  };
  const load = async () => take(await get('/api/register'));

  const send = async (/** @type {Change} */ change, /** @type {string} */ told) => {
    const learners = register && change(register.learners);
    if (!learners) {
      if (register) shown(register);
      trouble('That cannot be done any more: the register was changed meanwhile. It is shown as it stands now.');
      return false;
    }
    take(await post('/api/register', { at: register?.at, learners }));
    say(told);
    return true;
  };

  const attemptTwice = async (/** @type {Change} */ change, /** @type {string} */ told) => {
    try {
      const done = await send(change, told);
      if (done) trouble(null);
      return done;
    } catch (error) {
      if (!(error instanceof Refused) || error.status !== 409) throw error;
    }
    await load();
    const done = await send(change, `The register was changed in another window meanwhile; it was read again. ${told}`);
    if (done) trouble(null);
    return done;
  };

  /**
   * Keeps a change; says what was done, or why not.
   * @param {Change} change
   * @param {string} told
   * @returns {Promise<boolean>}
   */
  const keep = (change, told) => {
    const mine = last
      .then(() => attemptTwice(change, told))
      .catch((error) => {
        if (!(error instanceof Refused || error instanceof Away)) throw error;
        trouble(error.message);
        return false;
      });
    last = mine;
    return mine;
  };
  const reload = () => (last = last.then(load).catch(() => {}));
  return { load, reload, keep, now: () => register };
};
