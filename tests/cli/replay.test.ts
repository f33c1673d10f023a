import { rmSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { tempFolder } from '../support/temp-folder.js';
import { sampleFolder } from '../support/sample-night.js';

const nightledger = (...args: string[]) => nightledgerIn(process.cwd(), ...args);

const folder = tempFolder();
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const evening = shortNight({ begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T21:00:00.000Z' });
/** An hour and a half; the same by headers alone. */
const [short, bare] = [join(folder, 'short'), join(folder, 'bare')];
writeFiles(short, writeSession(evening).files);
writeFiles(bare, writeSession(evening, { rig: false, logs: false }).files);

const replay = (...args: string[]) => nightledger('replay', sampleFolder('twin-night'), ...args);

describe('nightledger replay', () => {
  it('prints the standard what-ifs, the error and the rules, and ends with 0', async () => {
    const { status, stdout, stderr } = await replay();
    expect(status).toBe(0);
    expect(stdout).toMatch(/The replay of the night’s own rules is off by \d+\.\d %; confidence high\./);
    expect(stdout).toContain('dither: every 3 frames of heron');
    expect(stdout).toMatch(/^Dither every 12 frames \* +[+−]?\d+\.\d/m);
    expect(stdout).toMatch(/^best together: /m);
    expect(stderr).toBe('');
  });

  it('answers a what-if of one’s own', async () => {
    const { status, stdout } = await replay('--set', 'dither-every=4', '--set', 'focus=together');
    expect(status).toBe(0);
    expect(stdout).toMatch(/^dither-every=4, focus=together \* +\+\d+\.\d/m);
    expect(stdout).not.toContain('Dither every 12 frames');
  });

  it('prints JSON for other programs', async () => {
    const { status, stdout } = await replay('--set', 'exposure.wren=300', '--json');
    expect(status).toBe(0);
    const answer = JSON.parse(stdout) as { night: string; whatIfs: { settings: string[]; gain: { meanMs: number } }[] };
    expect(answer.night).toBe('2026-10-14');
    expect(answer.whatIfs.map((w) => w.settings)).toEqual([['exposure.wren=300']]);
    expect(answer.whatIfs[0]?.gain.meanMs).toBeGreaterThan(0);
  });

  it('ends with 2 on wrong settings, names each mistake and lists what there is', async () => {
    const { status, stdout, stderr } = await nightledger(
      ...['replay', short, '--set', 'dither=4', '--set', 'exposure.hern=300'],
    );
    expect(status).toBe(2);
    expect(stderr).toContain('there is no setting dither');
    expect(stderr).toContain('there is no train hern; there are heron, wren');
    expect(stderr).toMatch(/^ {2}guiding=off-axis\|guide-scope {2,}whether/m);
    expect(stdout).toBe('');
  });

  it('ends with 1 for a night that is not there, with 2 for a folder that is not', async () => {
    const { status, stderr } = await nightledger('replay', short, '--night', '2026-01-01');
    expect(status).toBe(1);
    expect(stderr).toContain('it holds 2026-10-14');
    expect((await nightledger('replay', '/no/such/folder')).status).toBe(2);
  });

  it('says its warnings on stderr, and nothing but the answer when quiet', async () => {
    const asked = ['replay', bare, '--set', 'dither-every=6'];
    const loud = await nightledger(...asked);
    expect(loud.status).toBe(0);
    expect(loud.stderr).toContain('warning: no rig file');
    const quiet = await nightledger(...asked, '-q');
    expect(quiet).toMatchObject({ status: 0, stderr: '' });
    expect(quiet.stdout).toContain('There is no event log');
  });

  it('lists its settings in its help', async () => {
    const { status, stdout } = await nightledger('replay', '--help');
    expect(status).toBe(0);
    expect(stdout).toContain('start-offset.TRAIN=MINUTES');
  });
});
