import { describe, expect, it } from 'vitest';
import { loadDialect } from '../../../src/gather/dialects/index.js';
import { drafted } from './support/drafted.js';
import { brief, read } from './support/read.js';

const T0 = Date.UTC(2026, 9, 14, 20);
const stamp = (s: number): string => new Date(T0 + s * 1000).toISOString().slice(0, 19);
const WORK = [
  ['slew to IC 1396', 40, 'slew'],
  ['filter Ha', 5, 'filter'],
  ['focus', 90, 'focus'],
  ['settle', 12, 'settling'],
  ...Array.from({ length: 6 }, () => [
    ['expose 300 s, Ha', 300, 'exposure'],
    ['dither 3 px', 3, 'dither'],
    ['settle', 12, 'settling'],
  ]).flat(),
] as const;

/** The night's work as numbered jobs, and the events that it is. */
function night(ordered: boolean): { lines: string[]; truth: string[] } {
  let at = 0;
  const lines: string[] = [];
  const truth: string[] = [];
  WORK.forEach(([about, seconds, subject], i) => {
    const job = `task ${String(i + 1).padStart(3, '0')}`;
    lines.push(ordered ? `${stamp(at)} ${job} ordered: ${about}` : `${stamp(at)} ${job} begins: ${about}`);
    if (ordered) lines.push(`${stamp(++at)} ${job} begins`);
    truth.push(`${stamp(at)}.000Z ${subject}-begin`);
    at += Number(seconds);
    lines.push(`${stamp(at)} ${job} is done`);
    truth.push(`${stamp(at)}.000Z ${subject}-end`);
    at += 2;
  });
  return { lines, truth };
}

describe('numbered jobs', () => {
  it.each([
    ['that are begun', false],
    ['that are ordered, begun and done', true],
  ])('%s are identified by their numbers', async (_, ordered) => {
    const { lines, truth } = night(ordered);
    const { yaml } = drafted(lines);
    expect(yaml).toContain('jobs:');
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(truth);
  });

  it('are identified by a number in front of its word', async () => {
    const { lines, truth } = night(false);
    const ordinal = lines.map((line) =>
      line.replace(/task 0*(\d+) begins:/, '$1. task:').replace(/task 0*(\d+)/, '$1. task'),
    );
    const { yaml } = drafted(ordinal);
    expect(yaml).toContain('jobs:');
    const log = await read(yaml, `${ordinal.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(truth);
  });

  it('are identified by a letter and a number, where what comes of most of them is reported in full', async () => {
    let at = 0;
    let number = 0;
    const rows: [at: number, text: string, truth: string][] = [];
    const job = (seconds: number, about: string, came: readonly string[], subject: string): void => {
      const name = `u ${String(++number).padStart(3, '0')}`;
      rows.push([at, `${name} begins: east, ${about}`, `${subject}-begin`]);
      at += seconds;
      came.forEach((words, i) => rows.push([at + 2 * i, `${name} ${words}`, i > 0 ? 'frame-saved' : `${subject}-end`]));
      at += 2 * came.length;
    };
    job(40, 'slew to M 13', ['done'], 'slew');
    job(5, 'filter change to L', ['done'], 'filter');
    for (let i = 0; i < 40; i++) {
      job(120, 'light, M 13, L, 120 s', ['shutter closed', `stored as east_${i}.fits`], 'exposure');
      if (i % 4 === 3) job(4, `dither 3.${i} / 1.2 px`, ['done'], 'dither');
      if (i % 4 === 3) job(15, 'settle', ['done'], 'settling');
    }
    const lines = rows.map(([s, text]) => `${stamp(s)} ${text}`);
    const { yaml } = drafted(lines);
    expect(yaml).toContain('jobs:');
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(
      rows.map(([s, , truth]) => `${stamp(s)}.000Z ${truth}`),
    );
  });

  it('are reported with their train where what comes of them goes back to their number, stamps between', async () => {
    const clock = (s: number): string => `+${new Date(s * 1000).toISOString().slice(12, 19)}`;
    const rows: { at: number; text: string; truth: string }[] = [];
    let number = 0;
    const add = (train: string, at: number, seconds: number, about: string, came: string, subject: string): void => {
      number++;
      rows.push({ at, text: `item ${number}  ${clock(at)}  ${train}: ${about}`, truth: `${subject}-begin` });
      const until = at + seconds;
      rows.push({ at: until, text: `  of item ${number}  ${clock(until)}  ${came}`, truth: `${subject}-end` });
    };
    add('west', 60, 40, 'slew to M 13', 'slew done', 'slew');
    add('west', 110, 80, 'focus', 'focus done', 'focus');
    for (let i = 0; i < 12; i++) {
      const at = 300 + i * 340;
      add('west', at, 300, 'exposure of M 13, filter Ha, 300 s', 'exposure done', 'exposure');
      add('east', at + 7, 240, 'exposure of M 13, filter L, 240 s', 'exposure done', 'exposure');
      add('west', at + 304, 3, 'dither 3 px', 'dither done', 'dither');
      add('west', at + 307, 14, 'settling', 'calm', 'settling');
    }
    const sorted = [...rows].sort((a, b) => a.at - b.at);
    const lines = ['zero 2026-10-14 20:00:00', ...sorted.map(({ text }) => text)];
    const { yaml } = drafted(lines);
    expect(yaml).toContain('jobs:');
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    const reported = log.events.map((event) => `${event.event} ${event.train ?? ''}`);
    expect(log.events.map(({ atMs, event }) => `${(atMs - T0) / 1000} ${event}`).sort()).toEqual(
      sorted.map(({ at, truth }) => `${at} ${truth}`).sort(),
    );
    for (const train of ['west', 'east'])
      expect(reported.filter((one) => one === `exposure-end ${train}`)).toHaveLength(12);
  });

  it.each([
    ['before the number', (word: string, n: number, rest: string) => `${word} T${n}  ${rest}`.trimEnd()],
    ['behind the number', (word: string, n: number, rest: string) => `T${n} ${word}  ${rest}`.trimEnd()],
  ])('are begun, done or cut by a word %s; what only announces them is none', async (_, form) => {
    const rows: { at: number; text: string; truth?: string }[] = [];
    let number = 0;
    const add = (at: number, seconds: number, about: string, subject: string, isCut = false): void => {
      number++;
      if (number % 3 === 0) rows.push({ at: at - 1, text: form('soon', number, about) });
      rows.push({ at, text: form('off', number, about), truth: `${subject}-begin` });
      const [word, end] = isCut ? ['cut', subject === 'exposure' ? 'abort' : 'end'] : ['done', 'end'];
      const why = isCut ? 'clouds' : '';
      rows.push({ at: at + seconds, text: form(word, number, why), truth: `${subject}-${end}` });
    };
    add(60, 40, 'west: slew to M 13', 'slew');
    add(110, 80, 'west: refocus, stars 3.1 px', 'focus');
    for (let i = 0; i < 14; i++) {
      const at = 300 + i * 340;
      const isCut = i % 6 === 4;
      add(at, isCut ? 140 : 300, 'west: exposure of M 13, filter Ha, 300 s', 'exposure', isCut);
      add(at + 305, 3, 'west: dither 3 px', 'dither');
      add(at + 310, 14, 'west: settling', 'settling');
    }
    const sorted = rows.sort((a, b) => a.at - b.at);
    const lines = sorted.map(({ at, text }) => `${stamp(at)} ${text}`);
    const { yaml, report } = drafted(lines);
    // One rule for all numbers: another night has others.
    expect(report.rules.length).toBeLessThan(15);
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(
      sorted.flatMap(({ at, truth }) => (truth === undefined ? [] : [`${stamp(at)}.000Z ${truth}`])),
    );
    expect(log.events.filter(({ event }) => event === 'focus-end')).toHaveLength(1);
  });

  it('are over by a mark behind the device, whatever the words are: these would bring up the number again', async () => {
    const rows: { at: number; text: string; truth: string }[] = [];
    let number = 0;
    const add = (unit: string, at: number, seconds: number, about: string, came: string, subject: string): void => {
      const front = `no ${++number}`.padEnd(7) + unit.padEnd(6);
      rows.push({ at, text: `${front}${about}`, truth: `${subject}-begin` });
      rows.push({ at: at + seconds, text: `${front}=> ${came}`, truth: `${subject}-end` });
    };
    add('east', 60, 40, 'slew to M 13', 'fine', 'slew');
    add('east', 110, 80, 'refocus, stars 3.1 px', 'fine, stars 2.2 px', 'focus');
    for (let i = 0; i < 14; i++) {
      const at = 300 + i * 340;
      add('east', at, 300, 'expose 300 s, Ha, M 13', i === 3 ? 'meagre' : 'fine', 'exposure');
      add('east', at + 304, 3, 'dither by 3 px', 'fine', 'dither');
      add('east', at + 310, 14, 'settle', 'fine', 'settling');
    }
    const lines = rows.map(({ at, text }) => `${stamp(at)} ${text}`);
    const { yaml } = drafted(lines);
    expect(yaml).toContain('jobs:');
    const log = await read(yaml, `${lines.join('\n')}\n`, { zone: 'utc' });
    expect(brief(log).map((line) => line.split(' ').slice(0, 2).join(' '))).toEqual(
      rows.map(({ at, truth }) => `${stamp(at)}.000Z ${truth}`),
    );
    expect(log.events.find(({ event }) => event === 'focus-end')).toMatchObject({ sizeBefore: 3.1, sizeAfter: 2.2 });
  });

  it('are not seen in frames with numbers', () => {
    const lines = Array.from({ length: 20 }, (_, i) => [
      `${stamp(i * 310)} frame ${i + 1} begins: 300 s, Ha`,
      `${stamp(i * 310 + 300)} frame ${i + 1} done`,
    ]).flat();
    expect(drafted(lines).yaml).not.toContain('jobs:');
  });

  it('have what they are about behind them, and keep it until their number comes again', async () => {
    const rules = `dialect: 1
time: { pattern: "{hour}:{minute}:{second}", zone: utc, date: session }
jobs: { begin: '^job (?<job>[0-9]+): (?<about>.+)', later: '^job (?<job>[0-9]+)' }
lines:
  - { when: '^job [0-9]+ done — slew', event: slew-end }
  - { when: '^job [0-9]+ done — focus at (?<position>[0-9]+)', event: focus-end }
`;
    const log = ['21:00:00 job 1: slew', '21:00:01 job 2: focus at 410', '21:00:05 job 1 done', '21:00:09 job 2 done'];
    const again = ['21:01:00 job 1: focus at 420', '21:01:30 job 1 done', '21:02:00 job 7 done'];
    expect(brief(await read(rules, [...log, ...again].join('\n'), { sessionDate: '2026-10-14' }))).toEqual([
      '2026-10-14T21:00:05.000Z slew-end',
      '2026-10-14T21:00:09.000Z focus-end {"position":410}',
      '2026-10-14T21:01:30.000Z focus-end {"position":420}',
    ]);
  });

  it('need the groups that catch them', () => {
    const rules = (jobs: string): string =>
      `dialect: 1\ntime: { pattern: "{epoch}" }\njobs: ${jobs}\nlines: [{ when: a, event: slew-end }]\n`;
    const messages = (jobs: string): string =>
      loadDialect('a.yaml', rules(jobs))
        .warnings.map((w) => w.message)
        .join();
    expect(messages(`{ begin: 'job (?<job>[0-9]+)', later: 'job (?<job>[0-9]+)' }`)).toContain('(?<about>…)');
    expect(messages(`{ begin: 'job (?<job>[0-9]+) (?<about>.+)', later: 'job [0-9]+' }`)).toContain('(?<job>…)');
  });
});
