import { describe, expect, it } from 'vitest';
import { some } from '../../support/runs.js';
import { drafted } from './support/drafted.js';
import { read } from './support/read.js';

const AT = Date.UTC(2026, 9, 14, 20);
const DEVICES = ['heron', 'wren', 'mount', 'guider'];
const iso = (ms: number): string => new Date(ms).toISOString();

interface Change {
  readonly atMs: number;
  readonly device: string;
  readonly state: string;
}

/** A night in states: two cameras that expose for minutes, a filter wheel's turns, slews. */
function nightOf(exposing: string, idle: string): Change[] {
  return Array.from({ length: 16 }, (_, i) => {
    const at = AT + i * 400_000;
    const of = (device: string, state: string, seconds: number): Change => ({
      atMs: at + seconds * 1000,
      device,
      state,
    });
    return [
      ...(i === 0 ? DEVICES.map((device) => of(device, idle, -60)) : []),
      ...(i % 8 === 0 ? [of('mount', 'slewing', -50), of('mount', idle, -20)] : []),
      of('heron', 'changing filter', 0),
      of('heron', idle, 6),
      of('heron', exposing, 10),
      of('wren', exposing, 11),
      of('wren', idle, 131.4),
      of('wren', exposing, 140),
      of('wren', idle, 260.3),
      of('heron', idle, 310.7),
      of('guider', 'dithering', 320),
      of('guider', idle, 324),
    ];
  }).flat();
}

const wantedOf = (night: readonly Change[], exposing: string): string[] =>
  night
    .flatMap(({ atMs, device, state }, i) => {
      const was = night.slice(0, i).findLast((one) => one.device === device)?.state;
      return [
        ...(was === exposing ? [`${iso(atMs)} exposure-end ${device}`] : []),
        ...(state === exposing ? [`${iso(atMs)} exposure-begin ${device}`] : []),
      ];
    })
    .sort();

async function exposuresIn(lines: readonly string[]): Promise<string[]> {
  const { yaml } = drafted(lines);
  const log = await read(yaml, lines.join('\n'));
  return log.events
    .filter(({ event }) => event.startsWith('exposure'))
    .map(({ atMs, event, train }) => `${iso(atMs)} ${event} ${train ?? ''}`)
    .sort();
}

describe.each([
  ['exposing', 'idle'],
  // No list has this word: what lasts equally long again and again is an exposure.
  ['gleaning', 'idle'],
])('rows that each name a device and what it has come to: %s', (exposing, idle) => {
  const night = nightOf(exposing, idle);
  const wanted = wantedOf(night, exposing);
  /** What a word says that no list has is the same question in every form. */
  const forms = <T>(all: readonly T[]): readonly T[] => (exposing === 'exposing' ? all : some(all, 1));

  it.each(
    forms([
      ['pairs', night.map(({ atMs, device, state }) => `at=${iso(atMs)} unit=${device} state="${state}"`)],
      ['a table', ['at;unit;state', ...night.map(({ atMs, device, state }) => `${iso(atMs)};${device};${state}`)]],
    ]),
  )('ends what the row of the same device before began: %s', async (_, lines) => {
    expect(await exposuresIn(lines)).toEqual(wanted);
  });

  it.each(
    forms<readonly [string, (change: Change) => string]>([
      ['in front', ({ device, state }) => `${device}: ${state}`],
      ['behind', ({ device, state }) => `-> ${state} (${device})`],
      ['with a word between', ({ device, state }) => `[${device}] now ${state}`],
    ]),
  )('reads messages with the device %s', async (_, messageOf) => {
    const lines = night.map((change) => `${iso(change.atMs)} ${messageOf(change)}`);
    expect(await exposuresIn(lines)).toEqual(wanted);
  });

  it('reads a table of all devices that is set in columns by blanks', async () => {
    const states = new Map<string, string>();
    const rows = night.map(({ atMs, device, state }) => {
      states.set(device, state);
      return [iso(atMs), ...DEVICES.map((one) => (states.get(one) ?? '-').padEnd(17))].join('  ');
    });
    const lines = [['time'.padEnd(24), ...DEVICES.map((one) => one.padEnd(17))].join('  '), ...rows];
    expect(await exposuresIn(lines)).toEqual(wanted);
  });
});

it('takes a dash for an empty cell where blanks divide cells, and leaves single blanks in them', async () => {
  const log = await read(
    [
      'dialect: 1',
      'time: { pattern: "{year}-{month}-{day}T{hour}:{minute}:{second}{offset}" }',
      'csv: { delimiter: blanks, header: [time, act, target, file], time: time }',
      'lines:',
      '  - { when: { act: ^take$, target: . }, event: exposure-begin, fields: { target: "{target}" } }',
      '  - { when: { file: . }, event: frame-saved, fields: { file: "{file}" } }',
    ].join('\n'),
    [
      'time                  act   target    file',
      '2026-10-14T20:00:00Z  take  NGC 891   -',
      '2026-10-14T20:05:00Z  keep  -         a b.fits',
    ].join('\n'),
  );
  expect(log.events).toMatchObject([
    { event: 'exposure-begin', target: 'NGC 891' },
    { event: 'frame-saved', file: 'a b.fits' },
  ]);
});

it('leaves messages alone that say of each thing that it begins and that it is over', () => {
  const lines = Array.from({ length: 20 }, (_, i) => [
    `${iso(AT + i * 100_000)} heron: exposure started`,
    `${iso(AT + i * 100_000 + 60_000)} heron: exposure finished`,
    `${iso(AT + i * 100_000 + 61_000)} mount: dither started`,
    `${iso(AT + i * 100_000 + 64_000)} mount: dither finished`,
  ]).flat();
  const { report } = drafted(lines);
  expect(report.stateLines).toBeNull();
  expect(report.rules).toHaveLength(4);
});

it('refuses a pattern that does not say whose state it is, and states of messages in a table', async () => {
  const head = ['dialect: 1', 'time: { pattern: "{epoch}" }', 'lines: [{ when: a, event: note }]'];
  await expect(async () => read([...head, "states: { when: '(?<state>.+)' }"].join('\n'), '')).rejects.toThrow(
    /\(\?<device>/,
  );
  const when = "states: { when: '(?<device>\\w+): (?<state>.+)' }";
  await expect(async () => read([...head, 'records: { as: json }', when].join('\n'), '')).rejects.toThrow(/"when"/);
});
