import { readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { loadDialect, readDialectLog } from '../../../src/gather/dialects/index.js';
import { TIME_TOKENS } from '../../../src/gather/dialects/time/stamp.js';
import { readEventLog } from '../../../src/gather/event-log/index.js';
import { readGuidingCsv } from '../../../src/gather/guiding-log/index.js';
import { EVENT_NAMES, FIELD_NAMES, hasField, saidBy, type LogEvent } from '../../../src/model/index.js';
import { withLog } from '../lines/support/temp-log.js';

const page = (name: string): string =>
  readFileSync(fileURLToPath(new URL(`../../../docs/${name}`, import.meta.url)), 'utf8');

interface Fence {
  readonly kind: string;
  readonly text: string;
  readonly line: number;
}

function fencesOf(markdown: string): Fence[] {
  return Array.from(markdown.matchAll(/^```(\w+)\n([\s\S]*?)^```$/gm), (match) => ({
    kind: match[1] ?? '',
    text: match[2] ?? '',
    line: markdown.slice(0, match.index).split('\n').length,
  }));
}

/** A part of a dialect made whole by what it leaves out. */
function completed(part: string): string {
  const has = (key: string): boolean => new RegExp(`^${key}:`, 'm').test(part);
  return [
    ...(has('dialect') ? [] : ['dialect: 1']),
    part.trimEnd(),
    ...(has('time') ? [] : ['time: { pattern: "{epoch} " }']),
    ...(has('lines') || has('guiding') ? [] : ['lines: [{ when: "words", event: note }]']),
    '',
  ].join('\n');
}

const bare = (events: readonly LogEvent[]): unknown[] => events.map(saidBy);

describe.each([
  { name: 'dialects.md', rules: 10, logs: 1 },
  { name: 'dialect-examples.md', rules: 3, logs: 3 },
])('docs/$name', ({ name, rules, logs }) => {
  const fences = fencesOf(page(name));
  const dialects = fences.filter((fence) => fence.kind === 'yaml');

  it('has its examples', () => {
    expect(dialects.length).toBeGreaterThanOrEqual(rules);
    expect(fences.filter((fence) => fence.kind === 'log').length).toBeGreaterThanOrEqual(logs);
  });

  it.each(dialects.map((fence) => [fence.line, fence] as const))('line %i: the example loads', (_, { text }) => {
    expect(loadDialect('example.yaml', completed(text)).warnings).toEqual([]);
  });

  const worked = fences.flatMap((fence, i) => {
    if (fence.kind !== 'log') return [];
    const dialect = fences
      .slice(0, i)
      .reverse()
      .find((before) => before.kind === 'yaml');
    const results = fences.slice(i + 1);
    const next = results.findIndex((after) => after.kind === 'log' || after.kind === 'yaml');
    return [{ log: fence, dialect, results: next < 0 ? results : results.slice(0, next) }];
  });

  it.each(worked.map((one) => [one.log.line, one] as const))(
    'line %i: the example log gives what the page says',
    async (_, { log, dialect, results }) => {
      const loaded = loadDialect('example.yaml', dialect?.text ?? '');
      if (loaded.dialect === null) throw new Error('the example does not load');
      const tern = loaded.dialect;
      const read = await withLog(log.text, (root, file) =>
        readDialectLog(root, file, tern, { zone: 'Europe/Madrid', sessionDate: '2026-10-14' }),
      );
      expect(read.warnings).toEqual([]);
      expect(read.understood).toBe(read.lines);
      const events = results.find((fence) => fence.kind === 'jsonl');
      const samples = results.find((fence) => fence.kind === 'csv');
      expect(events ?? samples).toBeDefined();
      if (events !== undefined) {
        const expected = await withLog(events.text, (root, file) => readEventLog(root, file));
        expect(expected.warnings).toEqual([]);
        expect(bare(read.events)).toEqual(bare(expected.events));
      }
      if (samples !== undefined) {
        const expected = await withLog(samples.text, readGuidingCsv);
        const { sources: _sources, ...columns } = expected.series ?? { sources: [] };
        expect(read.guiding).toMatchObject(columns);
      }
    },
  );
});

describe('the time patterns of docs/dialects.md', () => {
  it('are explained, every placeholder of them', () => {
    expect(TIME_TOKENS.filter((token) => !page('dialects.md').includes(`{${token}}`))).toEqual([]);
  });
});

describe('docs/event-log.md', () => {
  const text = page('event-log.md');

  it('names every event and every field', () => {
    expect([...EVENT_NAMES, ...FIELD_NAMES].filter((name) => !text.includes(`\`${name}\``))).toEqual([]);
  });

  it.each(EVENT_NAMES)('lists the fields of %s as the vocabulary has them', (name) => {
    const rows = text
      .split('\n')
      .map((line) => line.split('|').map((cell): string[] => [...(cell.match(/`[^`]+`/g) ?? [])]));
    const fields = rows.filter((cells) => cells[1]?.includes(`\`${name}\``) === true)[0]?.[2] ?? [];
    expect(fields.toSorted()).toEqual(
      FIELD_NAMES.filter((field) => hasField(name, field))
        .map((field) => `\`${field}\``)
        .toSorted(),
    );
  });

  it('has examples that are read without a warning', async () => {
    const fences = fencesOf(text);
    const log = await withLog(fences.find((fence) => fence.kind === 'jsonl')?.text ?? '', (root, name) =>
      readEventLog(root, name),
    );
    expect(log).toMatchObject({ lines: 6, understood: 6, warnings: [] });
    const guiding = await withLog(fences.find((fence) => fence.kind === 'csv')?.text ?? '', readGuidingCsv);
    expect(guiding).toMatchObject({ lines: 3, understood: 3, warnings: [] });
  });
});
