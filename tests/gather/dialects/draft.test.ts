import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  draftDialect,
  loadDialect,
  readDialectLog,
  readSample,
  type Draft,
  type LogSample,
} from '../../../src/gather/dialects/index.js';
import { readEventLog } from '../../../src/gather/event-log/index.js';
import type { EventFields, LogEvent } from '../../../src/model/index.js';
import { withLog } from '../lines/support/temp-log.js';
import { HELD_OUT, KNOWN, type LogFormat } from './support/corpus.js';
import { score, type Score } from './support/score.js';
import { inFull, runs, some } from '../../support/runs.js';

const CORPUS = join(dirname(fileURLToPath(import.meta.url)), 'corpus');

/** Stamps without a fraction of a second lose up to a second, derived beginnings a little more. */
const TOLERANCE_MS = 1100;

function sampleOf(text: string, file = 'night.log'): LogSample {
  const lines = text.split('\n');
  return {
    file,
    lines,
    totalLines: lines.filter((line) => line !== '').length,
    encoding: 'utf-8',
    lineEnding: 'LF',
    warnings: [],
  };
}

/** Of the formats that the draft was made with, a few; all of those that it was not changed for. */
const FORMATS = [...inFull(KNOWN, some(KNOWN, 5)), ...HELD_OUT];

const scores = new Map<string, Promise<Score>>();

/** How a draft of each format does; every format is tried once. */
function tried(format: LogFormat): Promise<Score> {
  const known = scores.get(format.name) ?? tryOut(format);
  scores.set(format.name, known);
  return known;
}

/** Drafts a dialect for a log of the corpus and reads the log by it, without an edit. */
async function tryOut(format: LogFormat): Promise<Score> {
  const file = `${format.name}.log`;
  const { yaml } = draftDialect(await readSample(CORPUS, file));
  const loaded = loadDialect('draft.yaml', yaml);
  expect(loaded.warnings).toEqual([]);
  if (loaded.dialect === null) throw new Error('the draft does not load');
  const found = await readDialectLog(CORPUS, file, loaded.dialect, { sessionDate: '2026-10-14', ...format.options });
  const truth = await readEventLog(CORPUS, `${format.name}.truth.jsonl`);
  expect(truth.warnings).toEqual([]);
  return score(truth.events, found.events, TOLERANCE_MS);
}

describe('a draft, used without an edit', () => {
  it.each(FORMATS.map((format) => [format.name, format] as const))(
    'finds four of five true events in %s, and invents few',
    async (_, format) => {
      const { truth, matched, found } = await tried(format);
      expect(truth).toBeGreaterThan(150);
      expect(matched / truth).toBeGreaterThanOrEqual(0.8);
      expect(matched / found).toBeGreaterThanOrEqual(0.9);
    },
  );

  it('finds nine of ten over the formats it was not made with', async () => {
    const all = await Promise.all(HELD_OUT.map(tried));
    const sum = (value: (one: Score) => number): number => all.reduce((total, one) => total + value(one), 0);
    expect(sum((one) => one.matched) / sum((one) => one.truth)).toBeGreaterThanOrEqual(0.9);
  });

  it('catches the facts of exposures and saved frames', async () => {
    const all = await Promise.all(FORMATS.map(tried));
    const share = (event: LogEvent['event'], field: 'seconds' | 'filter' | 'target' | 'file'): number => {
      const pairs = all
        .flatMap((one) => one.pairs)
        .filter(([truth, found]) => truth.event === event && found.event === event)
        .map(([truth, found]): [EventFields, EventFields] => [truth, found])
        .filter(([truth]) => truth[field] !== undefined);
      return pairs.filter(([truth, found]) => truth[field] === found[field]).length / pairs.length;
    };
    expect(share('frame-saved', 'file')).toBeGreaterThanOrEqual(0.95);
    expect(share('exposure-begin', 'seconds')).toBeGreaterThanOrEqual(inFull(0.8, 0.75));
    expect(share('exposure-begin', 'filter')).toBeGreaterThanOrEqual(0.8);
  });
});

describe('the stamp of a log', () => {
  const first = (lines: string[], file?: string): Draft['report'] =>
    draftDialect(sampleOf(lines.join('\n'), file)).report;

  it.each([
    [
      'day first, determined by a day beyond the twelfth',
      ['13/10/2026 21:00:00 a', '14/10/2026 01:00:00 b'],
      '{day}/{month}/{year} {hour}:{minute}:{second}',
      false,
    ],
    [
      'month first, determined by a day beyond the twelfth',
      ['10/13/2026 9:00:00 PM a', '10/14/2026 1:00:00 AM b'],
      '{month}/{day}/{year} {hour12}:{minute}:{second} {am-pm}',
      false,
    ],
    ['day first, assumed', ['03/04/2026 21:00 a', '03/04/2026 22:00 b'], '{day}/{month}/{year} {hour}:{minute}', true],
    [
      'in brackets',
      ['[2026-10-14T21:00:00.5Z] a', '[2026-10-14T21:00:01.5Z] b'],
      '[{year}-{month}-{day}T{hour}:{minute}:{second}{offset}]',
      false,
    ],
    ['compact', ['20261014_210000 a', '20261014_210001 b'], '{year}{month}{day}_{hour}{minute}{second}', false],
    [
      'with the month by name',
      ['14 octubre 2026, 21:00:00 a', '14 octubre 2026, 21:00:01 b'],
      '{day} {month-name} {year}, {hour}:{minute}:{second}',
      false,
    ],
    ['of seconds since the epoch', ['1792012500.25 a', '1792012501.25 b'], '{epoch}', false],
    ['of milliseconds since the epoch', ['1792012500250;a', '1792012501250;b'], '{epoch-ms};', false],
  ])('is found: %s', (_, lines, pattern, assumed) => {
    expect(first(lines).stamp).toMatchObject({ pattern, dayFirstAssumed: assumed, coverage: 1 });
  });

  it("has its date from the header line, else the file's name, else the night", () => {
    const lines = ['21:00:00 a', '21:00:01 b'];
    expect(first(['Night of 14.10.2026', ...lines]).date).toMatchObject({
      from: 'header',
      pattern: '{day}.{month}.{year}',
      line: 1,
    });
    expect(first(lines, 'logs/heron_2026-10-14.log').date).toMatchObject({
      from: 'file',
      pattern: '{year}-{month}-{day}',
    });
    expect(first(lines).date).toEqual({ from: 'session' });
  });

  it('is read as UTC where the beginning of the log says so', () => {
    expect(first(['all times UTC', '2026-10-14 21:00:00 a', '2026-10-14 21:00:01 b']).zone).toBe('utc');
    expect(first(['2026-10-14 21:00:00 a', '2026-10-14 21:00:01 b']).zone).toBe('site');
  });
});

describe('a draft', () => {
  it('derives the ends of exposures of which only the beginning is logged', () => {
    const { yaml } = draftDialect(
      sampleOf(Array.from({ length: 5 }, (_, i) => `2026-10-14 21:0${i}:00 exposing 30 s with Ha`).join('\n')),
    );
    expect(yaml).toContain('lasts: seconds');
  });

  it('derives them where some are cut short and the ends of other things are logged', () => {
    const round = (h: number): string[] => [
      `2026-10-14 2${h}:00:00 filter wheel turns to Ha`,
      `2026-10-14 2${h}:00:05 filter Ha in place`,
      ...[1, 6, 11].map((m) => `2026-10-14 2${h}:${String(m).padStart(2, '0')}:00 exposing 280 s with Ha`),
    ];
    const log = [...round(1), '2026-10-14 21:12:30 exposure aborted', ...round(2), ...round(3)];
    const { yaml } = draftDialect(sampleOf(log.join('\n')));
    expect(yaml).toContain('event: exposure-abort');
    expect(yaml).toContain('lasts: seconds');
  });

  it('tells encoding, line endings and what it did not use', async () => {
    const text =
      '2026-10-14 21:00:00 señal débil\r\n2026-10-14 21:00:01 guiding started\r\n2026-10-14 21:00:02 señal débil\r\n';
    await withLog(Buffer.from(text, 'latin1'), async (root, name) => {
      const { report, yaml } = draftDialect(await readSample(root, name));
      expect(report).toMatchObject({ encoding: 'windows-1252', lineEnding: 'CRLF', totalLines: 3, warnings: [] });
      expect(report.unused).toMatchObject([{ template: 'señal débil', count: 2, firstLine: 1 }]);
      expect(yaml).toContain('encoding: windows-1252');
    });
  });

  it('of a log without times or words still loads, and says what to do', () => {
    for (const text of ['', 'one\ntwo\n', '2026-10-14 21:00:00 x\n']) {
      const { yaml } = draftDialect(sampleOf(text));
      expect(loadDialect('draft.yaml', yaml).warnings).toEqual([]);
    }
  });

  it('loads whatever the log holds', () => {
    const word = fc.constantFrom(
      'exposure',
      'started',
      'took',
      '12.5',
      's',
      'NGC 281',
      'filter',
      'Ha',
      'frames/a.fits',
      "'",
      '"',
      '{x}',
      '(',
      '[',
      '\\',
      '|',
      '#',
      '&',
      '*',
      ':',
      '%',
      '\t',
      'é',
      '😀',
      '2026-10-14',
      '21:00:00',
      '§',
      '-',
      '!',
      '\u0085',
    );
    const line = fc
      .tuple(
        fc.constantFrom('', '2026-10-14 21:00:00 ', '[1792012500] ', '{21:00:00} ', '+12.5 '),
        fc.array(fc.oneof(word, fc.string({ maxLength: 6 })), { maxLength: 9 }),
      )
      .map(([stamp, words]) => stamp + words.join(' ').replace(/[\r\n]/g, ' '));
    fc.assert(
      fc.property(fc.array(line, { maxLength: 30 }), (lines) => {
        const { yaml } = draftDialect(sampleOf(lines.join('\n')));
        expect(loadDialect('draft.yaml', yaml).warnings).toEqual([]);
      }),
      runs(100),
    );
  });
});
