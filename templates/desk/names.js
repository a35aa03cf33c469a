// Ids of names, and which are taken.

/**
 * All ids of a course, drafts without a file among them.
 * @param {import('./types').Course} course
 */
export const taken = (course) => new Set(['course', ...[...course.charts, ...course.lessons, ...course.drafts].map(({ id }) => id)]);

/**
 * An id of a name: small letters, digits, hyphens; one that is not taken.
 * @param {string} name
 * @param {Iterable<string>} [others]
 * @param {string} [without] of a name without letters
 */
export const idOf = (name, others = [], without = 'new') => {
  const plain = name.normalize('NFKD').replace(/[\u0300-\u036f]/g, '').toLowerCase().replace(/ß/g, 'ss');
  const stem = plain.replace(/[^a-z0-9]+/g, '-').replace(/^-+|-+$/g, '') || without;
  const known = new Set(others);
  let id = stem;
  for (let n = 2; known.has(id); n += 1) id = `${stem}-${n}`;
  return id;
};
