import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/main.js';
import { sampleFolder } from '../support/sample-night.js';

let out = '';
let err = '';
beforeEach(() => {
  out = '';
  err = '';
  vi.spyOn(process.stdout, 'write').mockImplementation((text) => {
    out += String(text);
    return true;
  });
  vi.spyOn(process.stderr, 'write').mockImplementation((text) => {
    err += String(text);
    return true;
  });
});
afterEach(() => vi.restoreAllMocks());

const replay = (...args: string[]) => run(['replay', sampleFolder('twin-night'), ...args]);

describe('nightledger replay', () => {
  it('prints the standard what-ifs, the error and the rules, and ends with 0', async () => {
    expect(await replay()).toBe(0);
    expect(out).toMatch(/The replay of the night’s own rules is off by \d+\.\d %; confidence high\./);
    expect(out).toContain('dither: every 3 frames of heron');
    expect(out).toMatch(/^Dither every 12 frames +[+−]?\d+\.\d/m);
    expect(out).toMatch(/^best together: /m);
    expect(err).toBe('');
  });

  it('answers a what-if of one’s own', async () => {
    expect(await replay('--set', 'dither-every=4', '--set', 'focus=together')).toBe(0);
    expect(out).toMatch(/^dither-every=4, focus=together +\+\d+\.\d/m);
    expect(out).not.toContain('Dither every 12 frames');
  });

  it('prints JSON for other programs', async () => {
    expect(await replay('--set', 'exposure.wren=300', '--json')).toBe(0);
    const answer = JSON.parse(out) as { night: string; whatIfs: { settings: string[]; gain: { meanMs: number } }[] };
    expect(answer.night).toBe('2026-10-14');
    expect(answer.whatIfs.map((w) => w.settings)).toEqual([['exposure.wren=300']]);
    expect(answer.whatIfs[0]?.gain.meanMs).toBeGreaterThan(0);
  });

  it('ends with 2 on wrong settings, names each mistake and lists what there is', async () => {
    expect(await replay('--set', 'dither=4', '--set', 'exposure.hern=300')).toBe(2);
    expect(err).toContain('there is no setting dither');
    expect(err).toContain('there is no train hern; there are heron, wren');
    expect(err).toContain('guiding=off-axis|guide-scope');
    expect(out).toBe('');
  });

  it('ends with 1 for a night that is not there, with 2 for a folder that is not', async () => {
    expect(await replay('--night', '2026-01-01')).toBe(1);
    expect(err).toContain('it holds 2026-10-14');
    expect(await run(['replay', '/no/such/folder'])).toBe(2);
  });

  it('says its warnings on stderr, and nothing but the answer when quiet', async () => {
    expect(await run(['replay', sampleFolder('headers-only'), '--set', 'dither-every=6'])).toBe(0);
    expect(err).toContain('warning: no rig file');
    err = '';
    expect(await run(['replay', sampleFolder('headers-only'), '--set', 'dither-every=6', '-q'])).toBe(0);
    expect(err).toBe('');
    expect(out).toContain('There is no event log');
  });

  it('lists its settings in its help', async () => {
    expect(await run(['replay', '--help'])).toBe(0);
    expect(out).toContain('start-offset.TRAIN=MINUTES');
  });
});
