import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const stamp = (seconds: number): string => new Date(Date.UTC(2026, 9, 14, 22, 0, seconds)).toISOString().slice(11, 19);

/** Two and a half hours over midnight: frames one after the other within the second, a dither after every third. */
const NIGHT = Array.from({ length: 30 }, (_, i) => [
  `${stamp(i * 310)} exposure of 300 s started, L`,
  `${stamp(i * 310 + 300)} exposure finished`,
  ...(i % 3 < 2
    ? [`${stamp(i * 310 + 300)} saved h_${i}.fits`]
    : [
        `${stamp(i * 310 + 301)} dither by 2.1 px`,
        `${stamp(i * 310 + 303)} dither done`,
        `${stamp(i * 310 + 303)} waiting for guiding to settle`,
        `${stamp(i * 310 + 310)} guiding settled`,
      ]),
]).flat();
const HEAD = 'hut log of 14 October 2026, times UTC';

const eventsOf = async (lines: readonly string[]): Promise<{ yaml: string; events: string[] }> => {
  const { yaml } = drafted(lines);
  expect(loadDialect('draft.yaml', yaml).dialect).not.toBeNull();
  return { yaml, events: brief(await read(yaml, lines.join('\n'))) };
};

describe('a log in another order', () => {
  it('that begins with its last line is read as the same log', async () => {
    const [forward, backward] = [await eventsOf([HEAD, ...NIGHT]), await eventsOf([HEAD, ...NIGHT.toReversed()])];
    expect(forward.events).toHaveLength(NIGHT.length);
    expect(backward.events).toEqual(forward.events);
  });

  it('in which all lines stand twice is read once', async () => {
    const [once, twice] = [
      await eventsOf([HEAD, ...NIGHT]),
      await eventsOf([HEAD, ...NIGHT.flatMap((line) => [line, line])]),
    ];
    expect(twice.events).toEqual(once.events);
    expect(twice.yaml).toContain('doubled: true');
    // What happens twice in the same second stands there four times.
    const both = `${twice.yaml.replace('doubled: true', 'doubled: false')}`;
    const log = ['21:00:00 exposure finished', '21:00:00 exposure finished'].join('\n');
    expect(brief(await read(twice.yaml, `${HEAD}\n${log}\n${log}`))).toHaveLength(2);
    expect(brief(await read(both, `${HEAD}\n${log}`))).toHaveLength(2);
  });
});
