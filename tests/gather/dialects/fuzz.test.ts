import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkDialect, formatCheck, loadDialect, readDialectLog } from '../../../src/gather/dialects/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { dialect } from './support/read.js';
import { runs } from '../../support/runs.js';

const HEADS = [
  'time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}", zone: Europe/Madrid }',
  'time: { pattern: "{hour}:{minute}", date: session, carry: true }',
  'time: { pattern: ["{epoch} ", "{elapsed} "], at: anywhere, zone: utc }\nsections: [{ begin: "base (?<time>.+)", base: "{year}-{month}-{day} {hour}:{minute}", end: over }]',
  'time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: { header: "day (?<date>.+)", pattern: "{day}.{month}.{year}" } }\nentries: stamp',
  'time: { pattern: "{epoch}" }\ncsv: { delimiter: ";", header: [t, what], time: t }\nguiding: { ra: t, dec: what }',
];
const WHENS = [
  'open (?<seconds>.*)',
  'clos(?<took>\\w+)',
  '(?<train>\\w+) x',
  'a.*b.*c',
  '[0-9]+',
  '(?i)É',
  '\\bstar\\b',
  '(a|ab)(c|bcd)(?<why>d*)',
  '^$|x',
];
const RULES = fc.array(
  fc.record({
    when: fc.constantFrom(...WHENS),
    event: fc.constantFrom('exposure-begin', 'exposure-end', 'note', 'hold-begin', 'dither-end'),
  }),
  { minLength: 1, maxLength: 6 },
);

const LINE = fc
  .array(
    fc.oneof(
      fc.constantFrom(
        '2026-10-25 02:30:00',
        '21:00',
        '1792012500 ',
        '12.5 ',
        'base 2026-10-14 21:00',
        'over',
        'day 14.10.2026',
        't;what',
        'open 3',
        'close',
        'heron x',
        'a',
        'b',
        'c',
        ';',
        '"',
        '\t',
        'É',
        '\0',
        '\r',
      ),
      fc.string({ maxLength: 5 }),
    ),
    { maxLength: 8 },
  )
  .map((parts) => parts.join(' '));

describe('a dialect on a log it was not made for', () => {
  it('never throws, never hangs, and accounts for every line', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.constantFrom(...HEADS),
        RULES,
        fc.array(LINE, { maxLength: 40 }),
        fc.constantFrom('\n', '\r\n'),
        async (head, rules, lines, ending) => {
          const yaml = `dialect: 1\n${head}\nlines: ${JSON.stringify(rules)}\n`;
          const loaded = loadDialect('fuzz.yaml', yaml);
          if (loaded.dialect === null) {
            expect(loaded.warnings.length).toBeGreaterThan(0);
            return;
          }
          const tern = loaded.dialect;
          await withLog(lines.join(ending), async (root, name) => {
            const read = await readDialectLog(root, name, tern, { zone: 'Europe/Madrid', sessionDate: '2026-10-14' });
            expect(read.understood).toBeLessThanOrEqual(read.lines);
            expect(read.events.every((event) => Number.isSafeInteger(event.atMs))).toBe(true);
            const report = await checkDialect(root, name, tern, { zone: 'Europe/Madrid', sessionDate: '2026-10-14' });
            expect(report.read.events).toEqual(read.events);
            expect(formatCheck(report).length).toBeGreaterThan(0);
          });
        },
      ),
      runs(250),
    );
  });

  it('never throws on bytes', async () => {
    const tern = dialect(`dialect: 1\n${HEADS[0] ?? ''}\nlines: [{ when: "a", event: note }]\n`);
    await fc.assert(
      fc.asyncProperty(fc.uint8Array({ maxLength: 2000 }), async (bytes) => {
        const read = await withLog(bytes, (root, name) => readDialectLog(root, name, tern));
        expect(read.understood).toBeLessThanOrEqual(read.lines);
      }),
      runs(100),
    );
  });
});

describe('a long log', () => {
  const CHATTER = Array.from(
    { length: 1000 },
    (_, i) => `2026-10-14 21:00:00 chatter about nothing in particular, number ${i}\n`,
  ).join('');
  const TERN = dialect(
    `dialect: 1\n${HEADS[0] ?? ''}\nlines: [{ when: "shutter opens (?<target>.+)", event: exposure-begin }]\n`,
  );

  it('leaves nothing behind but its events', async () => {
    await withLog('', async (root, name) => {
      writeFileSync(
        join(root, name),
        `${CHATTER.repeat(150)}2026-10-14 21:00:01 shutter opens at dusk\n${CHATTER.repeat(150)}`,
      );
      const read = await readDialectLog(root, name, TERN);
      expect(read.lines).toBe(300_001);
      expect(read.events).toMatchObject([{ event: 'exposure-begin', target: 'at dusk', source: { line: 150_001 } }]);
      expect(JSON.stringify({ ...read, sha256: '' }).length).toBeLessThan(400);
    });
  });

  it('that is wrong on every line costs a handful of warnings', async () => {
    const read = await withLog('x shutter opens now\n'.repeat(100_000), (root, name) =>
      readDialectLog(root, name, TERN),
    );
    expect(read.events).toEqual([]);
    expect(read.warnings.length).toBeLessThan(6);
    expect(read.warnings.reduce((sum, warning) => sum + (warning.count ?? 1), 0)).toBe(100_000);
  });

  it('in one line of 10 MB, made to hang a backtracking engine, is left out with a warning', async () => {
    const hostile = dialect(
      `dialect: 1\n${HEADS[0] ?? ''}\nlines: [{ when: "(a+)+b", event: note }, { when: "a.*a.*a.*c", event: note }]\n`,
    );
    const read = await withLog(`${'a'.repeat(10_000_000)}\n2026-10-14 21:00:00 ${'a'.repeat(60_000)}\n`, (root, name) =>
      readDialectLog(root, name, hostile),
    );
    expect(read.events).toEqual([]);
    expect(read.warnings.map((warning) => warning.code)).toEqual(['nothing-matched', 'long-line']);
  });
});
