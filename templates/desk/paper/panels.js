// The panels under the paper.
export { coloursPanel } from './panel-yarns.js';
export { repeatPanel, shapingPanel } from './panel-marks.js';
export { blockPanel, mirrorPanel } from './panel-block.js';
export { linesPanel } from './panel-lines.js';
