import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { brief, read } from './support/read.js';

const DIALECT = `dialect: 1
time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: utc, caught: "{hour}:{minute}:{second}" }
csv: { delimiter: ";", header: [move, still, heron waits, wren waits, filter], time: move }
lines:
  - when: { still: "." }
    event: [dither-begin, dither-end]
    at: { dither-end: still }
    train: heron
    also:
      - { event: dither-ready, at: { dither-ready: heron waits } }
      - { event: dither-ready, at: { dither-ready: wren waits }, train: wren }
`;

describe('what a line reports besides ("also")', () => {
  it('has times and trains of its own, and is left out where its column is empty', async () => {
    const log = await read(
      DIALECT,
      'move;still;heron waits;wren waits;filter\n' +
        '2026-10-14 21:40:10;21:40:14;21:40:09;21:37:30;L\n' +
        '2026-10-15 00:01:10;00:01:14;;23:58:30;L\n',
    );
    expect(brief(log)).toEqual([
      '2026-10-14T21:40:10.000Z dither-begin heron',
      '2026-10-14T21:40:14.000Z dither-end heron',
      '2026-10-14T21:40:09.000Z dither-ready heron',
      '2026-10-14T21:37:30.000Z dither-ready wren',
      '2026-10-15T00:01:10.000Z dither-begin heron',
      '2026-10-15T00:01:14.000Z dither-end heron',
      '2026-10-14T23:58:30.000Z dither-ready wren',
    ]);
  });

  it('is checked as the rule is: columns, events of its own times, unknown keys', () => {
    const wrong = (from: string, to: string): string =>
      loadDialect('d.yaml', DIALECT.replace(from, to))
        .warnings.map(({ message, source }) => `${source?.line} ${message}`)
        .join(' ');
    expect(wrong('dither-ready: wren waits', 'dither-ready: wren wait')).toMatch(/^11 .*"wren wait".*"wren waits"/);
    expect(wrong('{ dither-ready: wren waits }', '{ slew-end: wren waits }')).toContain('none of the events');
    expect(wrong('train: wren', 'closes: slew-end')).toContain('"closes"');
  });
});
