/** `report --wait` as a scheduled task calls it: in the evening, on a folder that fills until morning. */
import { copyFileSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { LOOK_EVERY_MS, QUIET_MS } from '../../src/cli/wait.js';
import { nightledgerAt } from '../support/command-line.js';
import { sampleFolder } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const SAMPLE = sampleFolder('twin-night');
const at = (time: string): number => Date.parse(`2026-10-${time}Z`);
const STARTED = at('14T16:00:00');
/** Dark until 07:16 local time, as the sample's own report has it. */
const DARK_UNTIL = at('15T05:16:00');
/** Nothing is saved in these hours, as under clouds. */
const PAUSE = { from: at('15T01:00:00'), to: at('15T04:25:00') };
/** The last thing that is written, in a log alone, after the last frame. */
const LAST_NOTE = { at: '2026-10-15T05:12:00.000Z', event: 'note', text: 'cooler off' };

interface Saved {
  readonly file: string;
  readonly savedMs: number;
}

/** What a train's log says was saved, with its time, but for what the pause and the wish for a quick test leave out. */
function framesOf(train: string): Saved[] {
  const lines = readFileSync(join(SAMPLE, 'logs', `${train}.jsonl`), 'utf8')
    .trimEnd()
    .split('\n');
  const saved = lines.flatMap((line): Saved[] => {
    const { at: time, event, file } = JSON.parse(line) as { at: string; event: string; file?: string };
    return event !== 'frame-saved' || file === undefined ? [] : [{ file, savedMs: Date.parse(time) }];
  });
  const early = saved.filter(({ savedMs }) => savedMs < PAUSE.from).slice(-12);
  return [...early, ...saved.filter(({ savedMs }) => savedMs > PAUSE.to)].map(({ file, savedMs }) => {
    const [, , filter = ''] = file.split('_');
    return { file: join('frames', train, filter, file), savedMs };
  });
}

/** Lines of a log with their instants. */
function linesOf(train: string): readonly (readonly [line: string, atMs: number])[] {
  const lines = readFileSync(join(SAMPLE, 'logs', `${train}.jsonl`), 'utf8')
    .trimEnd()
    .split('\n');
  return [...lines, JSON.stringify(LAST_NOTE)]
    .map((line) => [line, Date.parse((JSON.parse(line) as { at: string }).at)] as const)
    .filter(([, ms]) => ms < PAUSE.from || ms > PAUSE.to);
}

describe('report --wait', () => {
  it('waits through a pause in the dark, until the Sun is up and no file has come for 20 minutes, and writes the report', async () => {
    const root = tempFolder();
    const session = join(root, 'session');
    mkdirSync(join(session, 'logs'), { recursive: true });
    copyFileSync(join(SAMPLE, 'rig.yaml'), join(session, 'rig.yaml'));
    const frames = [...framesOf('heron'), ...framesOf('wren')];
    expect(Math.max(...frames.map(({ savedMs }) => savedMs))).toBeGreaterThan(PAUSE.to);
    const lastMs = Date.parse(LAST_NOTE.at);
    const logs = ['heron', 'wren'].map((train) => [train, linesOf(train)] as const);
    let nowMs = STARTED;
    const grow = (): void => {
      for (const { file, savedMs } of frames) {
        const to = join(session, file);
        if (savedMs > nowMs || existsSync(to)) continue;
        mkdirSync(dirname(to), { recursive: true });
        copyFileSync(join(SAMPLE, file), to);
      }
      for (const [train, lines] of logs) {
        const log = join(session, 'logs', `${train}.jsonl`);
        const text = lines.flatMap(([line, ms]) => (ms <= nowMs ? [`${line}\n`] : [])).join('');
        if (!existsSync(log) || readFileSync(log, 'utf8').length !== text.length) writeFileSync(log, text);
      }
    };
    const ran = await nightledgerAt(
      {
        nowMs: STARTED,
        waitClock: {
          nowMs: () => nowMs,
          rest: (ms) => {
            nowMs += ms;
            grow();
            return Promise.resolve();
          },
        },
      },
      root,
      ...['report', 'session', '--out', 'out', '--no-pdf', '--wait'],
    );
    expect(ran.stderr).not.toContain('error');
    expect(ran.status).toBe(0);
    // Until both the Sun's limit and 20 quiet minutes are reached, and no longer than one look after.
    const overMs = Math.max(DARK_UNTIL, lastMs + QUIET_MS);
    expect(nowMs).toBeGreaterThanOrEqual(overMs);
    expect(nowMs).toBeLessThanOrEqual(overMs + 2 * LOOK_EVERY_MS);
    for (const what of ['waiting for the last file', 'waiting for dawn']) expect(ran.stderr).toContain(what);
    const record = JSON.parse(readFileSync(join(root, 'out', 'night.json'), 'utf8')) as {
      night: string;
      frames: { file: string | null; begin: string }[];
    };
    expect(record.night).toBe('2026-10-14');
    const files = record.frames.flatMap(({ file }) => (file === null ? [] : [file]));
    expect(files.sort()).toEqual(frames.map(({ file }) => file).sort());
    expect(readFileSync(join(root, 'out', 'report.html'), 'utf8')).toContain('Night of 14 to 15 October 2026');
  });

  it('does not wait for the night of a record', async () => {
    const root = tempFolder();
    writeFileSync(join(root, 'night.json'), '{}');
    const ran = await nightledgerAt({}, root, 'report', 'night.json', '--out', 'out', '--wait');
    expect(ran.status).toBe(2);
    expect(ran.stderr).toContain('--wait needs a session folder');
  });
});
