import { expect, it } from 'vitest';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const AT = Date.UTC(2026, 9, 14, 20);
const stamp = (ms: number): string => new Date(ms).toISOString().slice(0, 19).replace('T', ' ');

async function eventsRead(lines: readonly string[]): Promise<string[]> {
  const log = await read(drafted(lines).yaml, lines.join('\n'), { zone: 'UTC' });
  return log.events.map(({ atMs, event }) => `${stamp(atMs)} ${event}`).sort();
}

it('takes the time behind "until" for when the thing was over that the line begins', async () => {
  const lines = Array.from({ length: 20 }, (_, i) => {
    const at = AT + i * 200_000;
    return [
      `${stamp(at)} exposure of 120 s through Ha, until ${stamp(at + 121_000)}`,
      `${stamp(at + 130_000)} dither by 2.5 px, until ${stamp(at + 134_000)}`,
      `${stamp(at + 140_000)} humidity ${40 + i} %`,
    ];
  }).flat();
  expect(await eventsRead(lines)).toEqual(
    Array.from({ length: 20 }, (_, i) => {
      const at = AT + i * 200_000;
      return [
        `${stamp(at)} exposure-begin`,
        `${stamp(at + 121_000)} exposure-end`,
        `${stamp(at + 130_000)} dither-begin`,
        `${stamp(at + 134_000)} dither-end`,
      ];
    })
      .flat()
      .sort(),
  );
});

it('has a step end, not begin, at a time that is ahead of the line that states it', async () => {
  const lines = Array.from({ length: 20 }, (_, i) => {
    const at = AT + i * 200_000;
    return [`${stamp(at)} dither, zz ${stamp(at + 4000)}`, `${stamp(at + 140_000)} air ${i} C`];
  }).flat();
  expect(await eventsRead(lines)).toEqual(
    Array.from({ length: 20 }, (_, i) => [
      `${stamp(AT + i * 200_000)} dither-begin`,
      `${stamp(AT + i * 200_000 + 4000)} dither-end`,
    ]).flat(),
  );
});
