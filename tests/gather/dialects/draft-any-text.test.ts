import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { draftDialect, loadDialect, readSample } from '../../../src/gather/dialects/index.js';
import { draftFor } from '../../../src/log-doctor.js';
import { seeded } from '../../support/generator/random.js';
import { inFull, runs } from '../../support/runs.js';
import { withLog } from '../lines/support/temp-log.js';
import { drafted } from './support/drafted.js';
import { anyText } from '../../support/any-text.js';

/** Pieces that logs are made of, and some that they are not. */
const PIECE = fc.oneof(
  fc.constantFrom(
    '2026-10-14 21:02:03 ',
    '2026-10-14T21:02:03.5+02:00 ',
    '14.10.2026 21:02:03 ',
    '21:02:03 ',
    '22.05.00 ',
    '1791918682 ',
    '1791918682123 ',
    '2461333.298611 ',
    '0:01:12.8 ',
    '00004000/00001234 ',
    '261027-193000.0 ',
    'martedì 20 ottobre 2026, ore 22.05.00 ',
    'started 2026-10-14 21:00:00',
    '{"t": 1791918682, "what": {"a": "open", "s": 300}}',
    '{',
    '}',
    '<pose jj="2461333.306895" moment="ouverture">',
    '</pose>',
    'key ....... value',
    'k=v a="b c" n=3',
    'a;b;c;4;5;6',
    '"x;""y""";1,5;2,5',
    'ra -0.31 dec 0.12',
    'shutter opens, 300 s, Ha, NGC 281',
    'shutter closed',
    'heron_0001.fits',
    '\t',
    '  ',
    '├ 180秒',
    '===========',
    '(?<x>',
    '[a-',
    '\\',
    '\\Q',
    "'",
    '"',
    '#',
    ': ',
    '{{',
    '\0',
    '\u2028',
    '\ud800',
    '\ufeff',
    'é',
    '￼',
  ),
  anyText({ maxLength: 12 }),
  fc.integer().map(String),
);
const LINE = fc.array(PIECE, { minLength: 0, maxLength: 8 }).map((pieces) => pieces.join(''));
/** Logs repeat themselves: a few forms of line, many times. */
const TEXT = fc.oneof(
  fc.array(LINE, { maxLength: 40 }),
  fc
    .tuple(fc.array(LINE, { minLength: 1, maxLength: 4 }), fc.integer({ min: 1, max: 60 }))
    .map(([forms, times]) => Array.from({ length: times }, (_, i) => forms[i % forms.length] ?? '')),
  fc.tuple(LINE, fc.integer({ min: 1, max: 400 })).map(([line, times]) => [line.repeat(times)]),
);

describe('a draft of any text at all', () => {
  it('is a dialect that can be used', () => {
    fc.assert(
      fc.property(TEXT, (lines) => {
        const { yaml } = drafted(lines, 'night-2026-10-14.log');
        const { dialect, warnings } = loadDialect('draft.yaml', yaml);
        expect(warnings.map(({ message }) => message).join('\n')).toBe('');
        expect(dialect).not.toBeNull();
      }),
      runs(150),
    );
  });

  it('is one where a message is longer than a pattern may be', () => {
    const words = Array.from({ length: 900 }, (_, i) => `word${String.fromCharCode(97 + (i % 26))}`).join(' ');
    const lines = Array.from(
      { length: 30 },
      (_, i) => `2026-10-14 21:${String(i + 10)}:00 exposure started, ${words}, 300 s of NGC 281`,
    );
    const { yaml, report } = drafted(lines, 'night-2026-10-14.log');
    expect(loadDialect('draft.yaml', yaml).dialect).not.toBeNull();
    expect(report.rules.map(({ events }) => events[0]?.event)).toEqual(['exposure-begin']);
  });

  it('makes nothing of what is no text, and is short', async () => {
    const random = seeded(7);
    const bytes = Buffer.from(Array.from({ length: inFull(3_000_000, 200_000) }, () => random.whole(0, 255)));
    const { yaml } = await withLog(
      bytes,
      async (root, file) => draftDialect(await readSample(root, file)),
      'night.log',
    );
    expect(loadDialect('draft.yaml', yaml).dialect).not.toBeNull();
    expect(yaml).toContain('control characters');
    expect(yaml.length).toBeLessThan(2000);
  });

  it('looks at the beginning of a log of 100 MB, and takes seconds', async () => {
    const megabytes = inFull(100, 1);
    // What tells nothing is one kind of line, and a draft of it sooner made.
    const often = inFull(1, 20);
    const said = (i: number): string =>
      i % often > 0 ? 'all is calm' : `shutter ${(i / often) % 2 === 0 ? `open ${i} s` : 'closed'}`;
    const night = Array.from(
      { length: inFull(20_000, 15_500) },
      (_, i) => `2026-10-14 ${new Date(Date.UTC(2026, 9, 14, 18) + i * 2000).toISOString().slice(11, 19)} ${said(i)}`,
    ).join('\n');
    const text = `${night}\n`.repeat(Math.ceil((megabytes * 1_000_000) / night.length));
    await withLog(
      text,
      async (root, file) => {
        // All that the command does: reading, drafting, and trying the draft on the log. One thread does it, so this
        // is what it takes by the clock, too, on a processor that has nothing else to do.
        const before = process.cpuUsage();
        const { yaml, summary } = await draftFor(join(root, file), { zone: 'UTC', nowMs: Date.UTC(2026, 9, 15) });
        const { user, system } = process.cpuUsage(before);
        expect(yaml).toContain('exposure-begin');
        expect(summary[0]).toMatch(/^30000 of \d{5,} lines looked at/);
        expect((user + system) / 1e6).toBeLessThan(inFull(5, Infinity));
      },
      'night.log',
    );
  });
});
