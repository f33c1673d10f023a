import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';
import { minuteNight, minuteSheet, MINUTE_SHEETS } from './support/minute-sheets.js';

const BETWEEN = `dialect: 1
time: { pattern: "{hour}:{minute}", zone: utc, date: session }
csv: { delimiter: ",", header: [at, heron, mount], each: [heron, mount], between: ";", time: at }
lines:
  - { when: { heron: '^open (?<filter>\\S+)$' }, event: exposure-begin, train: heron }
  - { when: { heron: '^shut$' }, event: exposure-end, train: heron }
  - { when: { mount: '^dither$' }, event: dither-begin }
`;

describe('several messages in a cell', () => {
  it('are rows of their own in their order', async () => {
    const log = await read(BETWEEN, 'at,heron,mount\n20:00,open L,\n20:05, shut ; ; open R,dither\n', {
      sessionDate: '2026-10-14',
    });
    expect(brief(log)).toEqual([
      '2026-10-14T20:00:00.000Z exposure-begin heron {"filter":"L"}',
      '2026-10-14T20:05:00.000Z exposure-end heron',
      '2026-10-14T20:05:00.000Z exposure-begin heron {"filter":"R"}',
      '2026-10-14T20:05:00.000Z dither-begin',
    ]);
  });

  it('need columns in whose cells they are', () => {
    const { warnings } = loadDialect('tern.yaml', BETWEEN.replace('each: [heron, mount], ', ''));
    expect(warnings.map(({ message }) => message).join('\n')).toContain('name under "each"');
  });

  it.each(MINUTE_SHEETS.slice(1, 2))('are drafted: $language, $mark', async (sheet) => {
    const lines = minuteSheet(sheet);
    const { yaml } = drafted(lines, 'night.txt');
    const { events } = await read(yaml, `${lines.join('\n')}\n`, { zone: 'UTC' });
    const said = events.map(({ atMs, event, train = '' }) =>
      `${new Date(atMs).toISOString()} ${event} ${train}`.trim(),
    );
    expect(said.sort(), yaml).toEqual(minuteNight());
  });
});
