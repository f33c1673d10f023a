import { describe, expect, it } from 'vitest';
import { draftDialect, readSample } from '../../../src/gather/dialects/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { brief, read } from './support/read.js';

const DIALECT = (level: number): string => `dialect: 1
time: { pattern: "{year}-{month}-{day}T{hour}:{minute}:{second}Z" }
entries: { objects: ${level} }
records: { as: json, time: t }
lines:
  - { when: { what: '^open$' }, event: exposure-begin, fields: { filter: "{with.filter}", seconds: "{with.s}" } }
  - { when: { what: '^shut$' }, event: exposure-end }
`;
const OPEN =
  '{"t":"2026-10-14T21:00:00Z","what":"open","with":{"filter":"Ha","s":300,"steps":[1,2]},"say":"a, b [c] \\"}"}';
const SHUT = '{"t":"2026-10-14T21:05:00Z","what":"shut"}';
const EVENTS = [
  '2026-10-14T21:00:00.000Z exposure-begin {"filter":"Ha","seconds":300}',
  '2026-10-14T21:05:00.000Z exposure-end',
];

describe('a JSON document on one line', () => {
  it.each([
    ['a list', 1, `[${OPEN},${SHUT}]`],
    ['a list in an object, spread over lines', 1, `{"night":"x","list":[ ${OPEN} ,\n${SHUT.replace(',', ',\n')}\n]}\n`],
    ['lists in a list', 2, `[{"night":1,"rows":[${OPEN},${SHUT}]},{"night":2,"rows":[]}]`],
  ])('is read object by object: %s', async (_, level, text) => {
    expect(brief(await read(DIALECT(level), text))).toEqual(EVENTS);
  });

  it('is drafted so, and the draft reads it', async () => {
    const two = (value: number): string => String(value).padStart(2, '0');
    const objects = Array.from({ length: 60 }, (_, i) => {
      const t = `2026-10-14T${two(18 + Math.floor(i / 12))}:${two((i % 12) * 5)}:${i % 2 === 0 ? '05' : '04'}Z`;
      return i % 2 === 0
        ? { t, device: 'shutter', state: 'opened', seconds: 299, filter: 'Ha' }
        : { t, device: 'shutter', state: 'closed' };
    });
    const text = JSON.stringify({ site: 'Cierzo Hill', entries: objects.slice(0, 40) });
    const { yaml } = await withLog(
      text,
      async (root, file) => draftDialect(await readSample(root, file)),
      'night.json',
    );
    expect(yaml).toContain('entries: { objects: 1 }');
    const log = await read(yaml, text);
    expect(log.events.filter(({ event }) => event === 'exposure-begin')).toHaveLength(20);
    expect(log.events.filter(({ event }) => event === 'exposure-end')).toHaveLength(20);
  });

  it('is no log of an object a line', async () => {
    const text = Array.from({ length: 30 }, (_, i) => `{"t":${1_792_000_000 + i * 60},"list":[{"a":1},{"a":2}]}`).join(
      '\n',
    );
    const { objects } = await withLog(text, (root, file) => readSample(root, file), 'night.jsonl');
    expect(objects).toBeUndefined();
  });
});
