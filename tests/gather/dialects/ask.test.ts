import { describe, expect, it } from 'vitest';
import { askThrough, QUESTIONS, type Answer, type Question } from '../../../src/gather/dialects/draft/ask.js';
import { unusedOf } from '../../../src/gather/dialects/draft/choice.js';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';

const LINES = Array.from({ length: 4 }, (_, i) => [
  `2026-10-14 21:${i}0:00 guiding started`,
  `2026-10-14 21:${i}1:00 gloop ${i}`,
  `2026-10-14 21:${i}2:00 wibble`,
  `2026-10-14 21:${i}3:00 florp`,
]).flat();

const { report } = drafted(LINES);

/** Answers by the first word of the first example, and remembers what was asked. */
function answering(answers: Readonly<Record<string, Answer>>) {
  const asked: string[] = [];
  const ask = (question: Question): Promise<Answer> => {
    const word = question.examples[0]?.split(' ')[0] ?? '';
    asked.push(word);
    return Promise.resolve(answers[word] ?? 'later');
  };
  return { asked, ask };
}

const saving = (saved: string[]) => (yaml: string) => {
  saved.push(yaml);
  return Promise.resolve();
};

describe('a walk through what a draft leaves over', () => {
  it('turns answers into rules and ignored lines, and keeps the rest as comments', async () => {
    const { asked, ask } = answering({ gloop: { event: 'dither-begin' }, wibble: 'ignore' });
    const yaml = await askThrough(report, null, ask, saving([]));
    expect([...asked].sort()).toEqual(['florp', 'gloop', 'wibble']);
    const { dialect, warnings } = loadDialect('d.yaml', yaml);
    expect(warnings).toEqual([]);
    expect(dialect?.lines.map(({ events }) => events[0])).toEqual(['guiding-begin', 'dither-begin']);
    expect(dialect?.ignore).toHaveLength(1);
    expect(yaml).toMatch(/^# .*florp/m);
  });

  it('is saved after every answer, and goes on with what is left', async () => {
    const saved: string[] = [];
    const first = answering({ gloop: { event: 'note' }, wibble: 'stop', florp: 'stop' });
    await askThrough(report, null, first.ask, saving(saved));
    const done = first.asked.slice(0, -1);
    const second = answering({ wibble: 'ignore', florp: 'ignore', gloop: 'ignore' });
    const yaml = await askThrough(report, saved.at(-1) ?? null, second.ask, saving([]));
    expect([...done, ...second.asked].sort()).toEqual(['florp', 'gloop', 'wibble']);
    expect(loadDialect('d.yaml', yaml).warnings).toEqual([]);
    expect(yaml).not.toContain('The lines below are not used');
  });

  it('asks about the kinds of most lines first and no more than one walk holds, and the next goes on', async () => {
    const words = Array.from(
      { length: QUESTIONS + 4 },
      (_, i) => `${'bdfgklmnprst'[i % 12] ?? ''}${'aeiou'[i % 5] ?? ''}zzor`,
    );
    const { report: long } = drafted(
      words.flatMap((word, i) =>
        Array.from({ length: 1 + (i % 3) }, (_, k) => `2026-10-14 21:${String(10 + i)}:0${k} ${word} ${word}`),
      ),
    );
    const kinds = long.unused.length;
    expect(kinds).toBeGreaterThan(QUESTIONS);
    const saved: string[] = [];
    const counts: number[] = [];
    const first = await askThrough(
      long,
      null,
      ({ count, left, beyond }) => {
        counts.push(count);
        expect(left + beyond).toBe(kinds - counts.length);
        return Promise.resolve('ignore');
      },
      saving(saved),
    );
    expect(counts).toHaveLength(QUESTIONS);
    expect(counts).toEqual([...counts].sort((a, b) => b - a));
    const second = answering({});
    await askThrough(long, first, second.ask, saving([]));
    expect(second.asked).toHaveLength(kinds - QUESTIONS);
  });

  it('leaves nothing worked out of how long a thing took that lines tell themselves', async () => {
    const ends = Array.from({ length: 6 }, (_, i) => `2026-10-14 21:${i}5:00.0 exposure finished, took 300.0 s`);
    const begins = Array.from({ length: 6 }, (_, i) => `2026-10-14 21:${i}0:00.0 gloop`);
    const all = drafted([...begins, ...ends].sort()).report;
    const left = [...all.rules, ...all.unused].find(({ kind }) => kind.summary === 'gloop');
    if (left === undefined) throw new Error('no such kind');
    const dated = { ...drafted(ends).report, unused: [unusedOf(left.kind, left.choice)] };
    const walked = (answer: Answer): Promise<string> =>
      askThrough(dated, null, answering({ gloop: answer }).ask, saving([]));
    const yaml = await walked({ event: 'exposure-begin' });
    expect(loadDialect('d.yaml', yaml).dialect?.lines.flatMap(({ events }) => events)).toContain('exposure-begin');
    expect(yaml).not.toContain('lasted:');
    expect(await walked('ignore')).toContain('lasted:');
    expect(await walked({ event: 'dither-begin' })).toContain('lasted:');
  });
});
