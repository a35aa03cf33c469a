// Numbers as they are shown: grades whole, steps with their sign and one decimal.

/** As the engine rounds it: whole numbers without a nought behind. @param {number} n */
export const figure = (n) => String(Math.round(n));
/** @param {number} n */
export const signed = (n) => `${n < 0 ? '−' : '+'}${Math.abs(n).toFixed(1)}`;
