import type { DraftReport } from './report.js';
import { quoted } from './yaml-text.js';

/** The state rows of a draft, as YAML lines. */
export function statesText({
  states: columns,
  keyed,
  stateLines,
}: Pick<DraftReport, 'states' | 'keyed' | 'stateLines'>): string[] {
  if (stateLines !== null)
    return [
      '',
      '# Messages that name a device and the state that it has come to become "device  before → now" for the rules.',
      `states: { when: ${quoted(stateLines)} }`,
    ];
  if (keyed !== null)
    return [
      '',
      '# Each row names a device and the state that it has come to: rules ask for what it was before, too.',
      `states: { of: ${quoted(keyed.of)}, state: ${quoted(keyed.state)} }`,
    ];
  if (columns.length === 0) return [];
  return [
    '',
    '# Each row states these, whatever has changed: rules ask for what differs from the row above.',
    `states: [${columns.map(quoted).join(', ')}]`,
  ];
}
