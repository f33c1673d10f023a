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
      '# Messages that name a device and its new state become "device  before → now" for the rules.',
      `states: { when: ${quoted(stateLines)} }`,
    ];
  if (keyed !== null)
    return [
      '',
      '# Each row names a device and its new state: rules can also use the previous state.',
      `states: { of: ${quoted(keyed.of)}, state: ${quoted(keyed.state)} }`,
    ];
  if (columns.length === 0) return [];
  return [
    '',
    '# Each row states these, changed or not: rules use the differences from the row above.',
    `states: [${columns.map(quoted).join(', ')}]`,
  ];
}
