import { describe, expect, it } from 'vitest';
import { jobsIn } from '../../../src/gather/dialects/draft/reading/jobs.js';

const WORK = ['slew', 'centre', 'filter', 'focus', 'settle', 'expose', 'expose', 'dither', 'expose', 'expose'];

/** Two runs of a program, whose numbers begin anew; guiding is a job that reports of itself all night. */
function messages(numberOf: (job: number) => string, begun: (name: string) => string): string[] {
  const run = [1, 2].flatMap(() => [
    `${numberOf(1)} ${begun('guide')}`,
    ...Array.from({ length: 30 }, (_, i) => [
      `${numberOf(i + 2)} ${begun(WORK[i % WORK.length] ?? '')}`,
      ...(i % 3 === 0 ? [`${numberOf(1)} error ra +0.1${String(i % 10)} dec -0.2${String(i % 7)}`] : []),
      `${numberOf(i + 2)} done`,
      ...(i % 10 === 4 ? [`${numberOf(1)} paused`, `${numberOf(1)} resumed`] : []),
    ]).flat(),
  ]);
  return ['runner starts', ...run];
}
const draftOf = (texts: readonly string[]): ReturnType<typeof jobsIn> =>
  jobsIn(texts.map((text, i) => ({ text, line: i + 1, atMs: i * 1000 })));

describe('jobs whose numbers begin anew after a restart', () => {
  it.each([
    [
      'a word behind what they are about',
      '#0002 focus(heron, Ha) started',
      (n: number) => `#${String(n).padStart(4, '0')}`,
    ],
    ['a word, and numbers in brackets', '[2] focus heron Ha started', (n: number) => `[${String(n)}]`],
    ['calls', 'T2 focus(heron, Ha)', (n: number) => `T${String(n)}`],
  ])('are introduced by %s', (_, example, numberOf) => {
    const behind = example.replace(/^\S+ focus/, '');
    const jobs = draftOf(messages(numberOf, (name) => `${name}${behind}`));
    expect(new RegExp(jobs?.begin ?? '$^', 'u').exec(example)?.groups).toMatchObject({
      job: expect.stringMatching(/2$/) as string,
      about: `focus${behind.replace(' started', '')}`,
    });
    expect(new RegExp(jobs?.begin ?? '', 'u').test(`${numberOf(2)} done`)).toBe(false);
    expect(new RegExp(jobs?.later ?? '$^', 'u').exec(`${numberOf(12)} done`)?.groups?.job).toMatch(/12$/);
  });

  it('are none if the same number is introduced twice in a row', () => {
    const texts = Array.from({ length: 60 }, (_, i) => `#${String(Math.floor(i / 2))} expose(heron, ${String(i)})`);
    expect(draftOf(texts)).toBeNull();
  });
});
