/** Strangers' nights, as a user sees them: a made-up session folder in, the record, the page and the messages out. */
import { existsSync, readFileSync, rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, describe, expect, it, vi } from 'vitest';
import { nightledgerIn, type Ran } from '../support/command-line.js';
import type { Scenario } from '../support/generator/scenario.js';
import type { SimulatedFrame } from '../support/generator/simulation.js';
import { writeFiles } from '../support/generator/samples.js';
import { CIERZO_HILL, HERON, WREN } from '../support/generator/scenarios.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { tempFolder } from '../support/temp-folder.js';
import { withFastComputer } from '../support/wrong-clocks.js';

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
afterEach(() => vi.unstubAllEnvs());

interface NightFile {
  readonly night: string;
  readonly site: { readonly timezone: string } | null;
  readonly trains: readonly { readonly id: string; readonly role: string }[];
  readonly frames: readonly {
    readonly file: string | null;
    readonly train: string;
    readonly begin: string;
    readonly seconds: number;
    readonly filter: string | null;
  }[];
  readonly dithers: readonly { readonly begin: string; readonly waits: Readonly<Record<string, number>> }[];
  readonly clocks: readonly Readonly<Record<string, unknown>>[];
  readonly warnings: readonly { readonly code: string; readonly message: string }[];
}

let sessions = 0;

function sessionOf(files: SessionFiles): string {
  const session = join(folder, `session-${++sessions}`);
  writeFiles(session, files);
  return session;
}

async function report(session: string): Promise<{ run: Ran; night: NightFile; page: string }> {
  const out = `${session}-report`;
  const run = await nightledgerIn(folder, 'report', session, '--out', out, '--no-pdf');
  expect(run.status, run.stderr).toBe(0);
  return {
    run,
    night: JSON.parse(readFileSync(join(out, 'night.json'), 'utf8')) as NightFile,
    page: readFileSync(join(out, 'report.html'), 'utf8'),
  };
}

/** The longest overlap of two frames of one train, s. */
function overlapOf({ frames }: NightFile): number {
  let most = 0;
  for (const train of new Set(frames.map((f) => f.train))) {
    const own = frames.filter((f) => f.train === train).sort((a, b) => (a.begin < b.begin ? -1 : 1));
    for (const [i, frame] of own.entries()) {
      const next = own[i + 1];
      if (next) most = Math.max(most, frame.seconds - (Date.parse(next.begin) - Date.parse(frame.begin)) / 1000);
    }
  }
  return most;
}

/** Two trains alike to the last header. */
const ALIKE = { telescope: 'refractor', focalLengthMm: 480, apertureMm: 80 };
const twins = (seconds: readonly [number, number], more: Partial<Scenario> = {}): Scenario =>
  shortNight({
    name: 'twins',
    begin: '2026-10-14T19:30:00.000Z',
    end: '2026-10-14T20:45:00.000Z',
    trains: [HERON, WREN].map((train, i) => ({
      ...train,
      ...ALIKE,
      plan: [{ target: 'NGC 281', filter: 'Ha', seconds: seconds[i] ?? 300, count: 60 }],
    })),
    ...more,
  });

/** The session by headers alone, its frames under other names. */
function named(scenario: Scenario, name: (train: string, n: number) => string): SessionFiles {
  const { files } = writeSession(scenario, { rig: false, logs: false });
  let n = 0;
  return new Map(
    [...files].flatMap(([path, content]): [string, Buffer | string][] =>
      path.endsWith('.fits') ? [[name(path.includes('/heron/') ? 'heron' : 'wren', ++n), content]] : [],
    ),
  );
}

describe('two identical cameras on one mount', () => {
  const SERIALS: Partial<Scenario> = {
    cards: ({ train }: SimulatedFrame) => [['SERIALNO', train === 'heron' ? 'H-0001' : 'W-0002']],
  };
  it.each<[string, SessionFiles, string[]]>([
    [
      'folder',
      named(twins([300, 300]), (train, n) => `NGC 281/${train === 'heron' ? 'left' : 'right'}/Ha_${n}.fits`),
      ['left', 'right'],
    ],
    [
      'file name',
      named(twins([300, 300]), (train, n) => `lights/NGC281_Ha_${train === 'heron' ? 'A' : 'B'}_${n}.fits`),
      ['a', 'b'],
    ],
    ['serial number', named(twins([300, 300], SERIALS), (_train, n) => `lights/Ha_${n}.fits`), ['h-0001', 'w-0002']],
    ['exposure length', named(twins([300, 180]), (_train, n) => `lights/Ha_${n}.fits`), ['180', '300']],
  ])('are distinguished by %s alone, in the report and by init, and both say why', async (by, files, ids) => {
    const session = sessionOf(files);
    const { run, night, page } = await report(session);
    expect(night.trains.map(({ id }) => id).sort()).toEqual(ids);
    expect(night.frames).toHaveLength(files.size);
    expect(overlapOf(night)).toBeLessThan(2);
    const why = new RegExp(`one camera cannot expose twice at once.*distinguished by ${by}`, 'i');
    expect(run.stderr).toMatch(why);
    expect(page).toMatch(why);

    const init = await nightledgerIn(folder, 'init', session);
    expect(init.status, init.stderr).toBe(0);
    expect(`${init.stdout}${init.stderr}${readFileSync(join(session, 'rig.yaml'), 'utf8')}`).toMatch(why);
    const again = await report(session);
    expect(again.night.trains.map(({ id }) => id).sort()).toEqual(ids);
    expect(overlapOf(again.night)).toBeLessThan(2);
  });

  it('are warned of where a rig file makes one train of them, with frames and the likely split', async () => {
    const files = named(
      twins([300, 300]),
      (train, n) => `NGC 281/${train === 'heron' ? 'left' : 'right'}/Ha_${n}.fits`,
    );
    const rig = 'trains:\n  - { id: both, role: pilot, frames: [ "**/*.fits" ] }\n';
    const { run, night, page } = await report(sessionOf(new Map([...files, ['rig.yaml', rig]])));
    const said = /both exposes twice at once: NGC 281\/\w+\/Ha_\d+\.fits and NGC 281\/\w+\/Ha_\d+\.fits/;
    expect(run.stderr).toMatch(said);
    expect(run.stderr).toContain('frames: [ "*/left/**" ] and frames: [ "*/right/**" ]');
    expect(page).toMatch(said);
    expect(night.warnings.map(({ code }) => code)).toContain('train-overlaps-itself');
  });
});

describe('a rig described once', () => {
  it('is put among the user’s own by init --save, serves the next session, and gives way to the session’s own', async () => {
    const home = join(folder, 'home');
    vi.stubEnv('XDG_CONFIG_HOME', join(home, 'config'));
    const scenario = shortNight({ name: 'once', begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T20:15:00.000Z' });
    const first = sessionOf(writeSession(scenario, { rig: false, logs: false }).files);
    const saved = await nightledgerIn(folder, 'init', first, '--save', 'hill');
    expect(saved.status, saved.stderr).toBe(0);
    const kept = join(home, 'config', 'nightledger', 'rigs', 'hill.yaml');
    expect(existsSync(kept)).toBe(true);
    expect(existsSync(join(first, 'rig.yaml'))).toBe(false);
    // A second time it is never written over.
    expect((await nightledgerIn(folder, 'init', first, '--save', 'hill')).status).toBe(1);

    const second = sessionOf(writeSession({ ...scenario, seed: 6 }, { rig: false, logs: false }).files);
    const { run, page, night } = await report(second);
    expect(run.stderr).toContain('hill.yaml');
    expect(page).toMatch(/hill\.yaml of your own rigs fits its headers/);
    expect(night.trains.map(({ id }) => id)).toEqual(['heron', 'wren']);

    const own = await report(sessionOf(writeSession({ ...scenario, seed: 7 }, { logs: false }).files));
    expect(own.run.stderr).not.toContain('hill.yaml');
    // Another telescope's session takes none of it.
    const strange = writeSession(twins([300, 300]), { rig: false, logs: false }).files;
    expect((await report(sessionOf(strange))).run.stderr).not.toContain('hill.yaml');
  });
});

describe('a colour camera', () => {
  const scenario = shortNight({
    name: 'colour',
    begin: '2026-10-14T19:30:00.000Z',
    end: '2026-10-14T20:15:00.000Z',
    trains: [{ ...HERON, plan: [{ target: 'NGC 281', filter: 'Ha', seconds: 180, count: 40 }] }],
    cards: () => [['BAYERPAT', 'RGGB']],
  });
  const withoutFilter = (files: SessionFiles): SessionFiles =>
    new Map(
      [...files].map(([path, content]) => [
        path,
        path.endsWith('.fits')
          ? Buffer.from((content as Buffer).toString('latin1').replace('FILTER  =', 'XFILTER ='), 'latin1')
          : content,
      ]),
    );

  it('counts under colour, and reads as one train', async () => {
    const { night, page } = await report(
      sessionOf(withoutFilter(writeSession(scenario, { rig: false, logs: false }).files)),
    );
    expect(new Set(night.frames.map(({ filter }) => filter))).toEqual(new Set(['colour']));
    expect(page).not.toMatch(/unnamed|both trains|trains together|twin gain/i);
  });

  it('counts under the name that the rig file gives it', async () => {
    const files = withoutFilter(writeSession(scenario, { logs: false }).files);
    const rig = `${String(files.get('rig.yaml')).replace(/^filters:.*$/m, '')}\nfilters: { OSC: [colour] }\n`;
    const { night } = await report(sessionOf(new Map([...files, ['rig.yaml', rig]])));
    expect(new Set(night.frames.map(({ filter }) => filter))).toEqual(new Set(['OSC']));
  });
});

describe('a night of midnight sun, and a train that stops early', () => {
  it('is not called a wrong date where the Sun stays above −3° all night', async () => {
    // 67° north on 20 June: the Sun does not set.
    const scenario = shortNight({
      name: 'sun',
      begin: '2026-06-20T20:30:00.000Z',
      end: '2026-06-20T21:30:00.000Z',
      site: { ...CIERZO_HILL, latitude: 67, longitude: 25, timezone: 'Europe/Helsinki' },
    });
    const { run, night, page } = await report(sessionOf(writeSession(scenario, { logs: false }).files));
    expect(night.night).toBe('2026-06-20');
    expect(night.warnings.map(({ code }) => code)).not.toContain('lights-in-daylight');
    expect(`${run.stderr}${page}`).not.toMatch(/wrong date|date is wrong|check the date/i);
  });

  it('has no wait after a train’s last exposure', async () => {
    const scenario = shortNight({
      name: 'early',
      begin: '2026-10-14T19:30:00.000Z',
      end: '2026-10-14T21:20:00.000Z',
    });
    // The companion's computer is switched off at 20:15: no frame and no line is of later.
    const offMs = Date.parse('2026-10-14T20:15:00.000Z');
    const { files, simulation } = writeSession(scenario);
    const late = simulation.frames.filter((frame) => frame.train === 'wren' && frame.endMs > offMs).length;
    const own0 = [...files.keys()].filter((path) => path.startsWith('frames/wren/')).sort();
    const gone = new Set(own0.slice(own0.length - late));
    const log = String(files.get('logs/wren.jsonl'))
      .split('\n')
      .filter((line) => line !== '' && Date.parse(String((JSON.parse(line) as { at: string }).at)) <= offMs);
    const { night } = await report(
      sessionOf(
        new Map([...[...files].filter(([path]) => !gone.has(path)), ['logs/wren.jsonl', `${log.join('\n')}\n`]]),
      ),
    );
    const own = night.frames.filter(({ train }) => train === 'wren');
    const lastMs = Math.max(...own.map(({ begin, seconds }) => Date.parse(begin) + seconds * 1000));
    const later = night.dithers.filter(({ begin }) => Date.parse(begin) > lastMs + 60_000);
    expect(later.length).toBeGreaterThan(3);
    for (const { waits } of later) expect(waits).not.toHaveProperty('wren');
    expect(night.dithers.some(({ waits }) => 'wren' in waits)).toBe(true);
  });
});

describe('clocks settled by hand or by the header', () => {
  const scenario = shortNight({ name: 'hand', begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T21:00:00.000Z' });
  const written = writeSession(scenario).files;
  let truth: NightFile;
  beforeAll(async () => {
    truth = (await report(sessionOf(written))).night;
  });
  const begins = ({ frames }: NightFile, train: string): string[] =>
    frames.flatMap((f) => (f.train === train ? [f.begin] : [])).sort();

  it('clockOffset: of a train moves its headers and its log, and stands in the record by the rig file', async () => {
    const fast = withFastComputer(written, 'wren', 95_500);
    const rig = String(fast.get('rig.yaml')).replace('role: companion', 'role: companion\n    clockOffset: 95.5');
    const { night, run } = await report(sessionOf(new Map([...fast, ['rig.yaml', rig]])));
    expect(begins(night, 'wren')).toEqual(begins(truth, 'wren'));
    for (const source of ['headers', 'log'])
      expect(night.clocks).toContainEqual(
        expect.objectContaining({ train: 'wren', source, aheadSeconds: 95.5, corrected: true, by: 'the rig file' }),
      );
    expect(run.stderr).not.toMatch(/clock is not known/i);
  });

  it('zone: of a train is that of its headers and of times without a zone in its log', async () => {
    // Madrid is two hours ahead of UTC on that date (Directive 2000/84/EC).
    const local = withFastComputer(written, 'wren', 7_200_000, 'headers');
    const dialect = [
      'dialect: 1',
      'name: bare stamps',
      'time: { pattern: "{year}-{month}-{day} {hour}:{minute}:{second}" }',
      'lines:',
      String.raw`  - { when: 'opens (?<seconds>[\d.]+) (?<filter>\w+)', event: exposure-begin }`,
      '  - { when: "closes", event: exposure-end }',
    ].join('\n');
    const log = String(written.get('logs/wren.jsonl'))
      .trim()
      .split('\n')
      .flatMap((line): string[] => {
        const { at, event, seconds, filter } = JSON.parse(line) as Record<string, string | number>;
        const stamp = new Date(Date.parse(String(at)) + 7_200_000).toISOString().replace('T', ' ').slice(0, 19);
        if (event === 'exposure-begin') return [`${stamp} opens ${seconds} ${filter}`];
        return event === 'exposure-end' ? [`${stamp} closes`] : [];
      });
    const rig = String(written.get('rig.yaml'))
      .replace('role: companion', 'role: companion\n    zone: Europe/Madrid')
      .replace(/\{ files: "?logs\/wren[^}]*\}/, '{ files: "logs/wren.txt", dialect: dialects/bare.yaml }')
      .replace('timezone: Europe/Madrid', 'timezone: Europe/London');
    expect(rig).toContain('logs/wren.txt');
    const { night } = await report(
      sessionOf(
        new Map([
          ...[...local].filter(([path]) => path !== 'logs/wren.jsonl'),
          ['rig.yaml', rig],
          ['dialects/bare.yaml', dialect],
          ['logs/wren.txt', `${log.join('\n')}\n`],
        ]),
      ),
    );
    const [found, expected] = [begins(night, 'wren'), begins(truth, 'wren')];
    expect(found).toHaveLength(expected.length);
    for (const [i, begin] of found.entries())
      expect(Math.abs(Date.parse(begin) - Date.parse(expected[i] ?? ''))).toBeLessThanOrEqual(1000);
    expect(night.clocks.filter(({ corrected }) => corrected === true)).toEqual([]);
  });

  it('a receiver’s error in the headers says which clock is right, and the first screen no longer doubts it', async () => {
    const doubtful = withFastComputer(written, 'heron', 47_000);
    expect((await report(sessionOf(doubtful))).page).toMatch(/it is not known which one is right/);
    const vouched = writeSession({ ...scenario, cards: ({ train }) => (train === 'wren' ? [['TIMSYER', 0.001]] : []) });
    const { page, night } = await report(sessionOf(withFastComputer(vouched.files, 'heron', 47_000)));
    expect(page).not.toMatch(/it is not known which one is right/);
    for (const [i, begin] of begins(night, 'heron').entries())
      expect(Math.abs(Date.parse(begin) - Date.parse(begins(truth, 'heron')[i] ?? ''))).toBeLessThanOrEqual(1000);
  });
});
