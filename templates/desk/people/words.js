// Small things that the register and the logs share: words that differ by country, days.

/**
 * The trade's words of this course.
 * @param {import('../types').Course} course
 */
export const wordsOf = (course) => {
  const us = course.terms === 'us';
  const inches = course.units === 'imperial';
  return {
    gauge: us ? 'gauge' : 'tension',
    colours: us ? 'Colors' : 'Colours',
    /** What stitches and rows are counted over. */
    over: inches ? '4 in' : '10 cm',
    /** What is counted over that, as stitches or rows to 10 cm. */
    toTen: (/** @type {string} */ counted) =>
      inches ? Math.round((Number(counted) / 1.016) * 100) / 100 : Number(counted),
    /** A length of a piece: what it is asked in, and millimetres to one of it. */
    length: inches ? { unit: 'in', mm: 25.4 } : { unit: 'cm', mm: 10 },
  };
};

/**
 * The first letter large.
 * @param {string} text
 */
export const capital = (text) => text.charAt(0).toUpperCase() + text.slice(1);

/**
 * As a sentence.
 * @param {string} text
 */
export const sentence = (text) => capital(text).replace(/[^.!?]$/, '$&.');

/**
 * A day as people write it; as it stands if it is none.
 * @param {string} day
 */
export const dayOf = (day) => {
  const date = new Date(`${day}T12:00:00`);
  return Number.isNaN(date.getTime())
    ? day
    : date.toLocaleDateString('en-GB', { day: 'numeric', month: 'short', year: 'numeric' });
};

/**
 * Hours as a range.
 * @param {[number, number]} hours
 */
export const hoursOf = ([from, to]) => (from === to ? `${from} hours` : `${from} to ${to} hours`);
