// How far what was done is kept, for charts and for texts alike.

/**
 * @typedef {{
 *   away: boolean, halted: boolean, unwilling?: boolean,
 *   waiting: { length: number }, file: import('./types').File,
 * }} Keeper
 */

/** In a few words for the bar. @param {Keeper} keeper */
export const keptWords = ({ away, halted, unwilling, waiting, file }) => {
  if (away) return 'Not kept yet: the desk is away';
  if (halted) return 'Not kept yet: changed in another window';
  if (unwilling) return 'Not kept: the desk refused it';
  if (waiting.length) return 'Not kept yet';
  if (file.fresh) return 'All changes kept, no file yet';
  return file.changed ? 'All changes kept, not saved to the file' : 'All changes kept and saved';
};

/** Waits until all is kept, but not for ever. @param {Keeper} keeper */
export const allKept = async (keeper) => {
  const end = performance.now() + 3000;
  while (keeper.waiting.length && !keeper.away && !keeper.halted && performance.now() < end) {
    await new Promise((go) => setTimeout(go, 20));
  }
};
