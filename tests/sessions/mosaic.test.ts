import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { CIERZO_HILL, HERON, TARGETS, WREN } from '../support/generator/scenarios.js';
import { framePath } from '../support/generator/truth.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';

const folder = mkdtempSync(join(tmpdir(), 'nightledger-mosaic-'));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** A night on two panels of one galaxy: no OBJECT in the headers, only the folders name them. */
function mosaicNight(): SessionFiles {
  const panels = [1, 2].map((n) => ({ ...TARGETS.m33, name: `M 33 panel ${n}`, decDeg: TARGETS.m33.decDeg + n - 1.5 }));
  const plan = panels.map((p) => ({ target: p.name, filter: 'Ha', seconds: 300, count: 8 }));
  const { files, simulation } = writeSession(
    {
      name: 'mosaic',
      seed: 12,
      begin: '2026-10-14T20:00:00.000Z',
      end: '2026-10-15T00:00:00.000Z',
      site: CIERZO_HILL,
      trains: [HERON, WREN].map((t) => ({ ...t, plan })),
      targets: panels,
      ditherEvery: 4,
      starLost: [],
      clouds: [],
      guidingEverySeconds: 0,
      guidingSigmaArcsec: 0.6,
    },
    { logs: false },
  );
  const rig = String(files.get('rig.yaml')).replace(
    /^targets:[\s\S]*?(?=^\S|(?![\s\S]))/m,
    'targets: [ { name: M 33, ra: "01:33:51", dec: "+30:39:37", goals: { Ha: 12h } } ]\n',
  );
  const frames = simulation.frames.flatMap((frame, i): [string, Buffer][] => {
    const content = files.get(framePath(frame));
    if (!Buffer.isBuffer(content)) return [];
    const unnamed = content.toString('latin1').replace('OBJECT  =', 'UNNAMED =');
    const panel = frame.target.slice(-1);
    return [[`frames/${frame.train}/M33/panel ${panel}/${frame.filter}/${i}.fits`, Buffer.from(unnamed, 'latin1')]];
  });
  return new Map<string, Buffer | string>([['rig.yaml', rig], ...frames]);
}

const json = (...path: string[]) => JSON.parse(readFileSync(join(folder, ...path), 'utf8'));

describe('a night on a mosaic', () => {
  beforeAll(async () => {
    writeFiles(join(folder, 'night'), mosaicNight());
    const report = await nightledgerIn(folder, 'report', 'night', '--out', 'out', '--no-pdf', '--archive', 'kept');
    expect(report.status, report.stderr).toBe(0);
    const progress = await nightledgerIn(folder, 'progress', 'kept', '--out', 'progress', '--no-pdf');
    expect(progress.status, progress.stderr).toBe(0);
  }, 120_000);

  it('has its panels as targets, by the folders, with places of their own', () => {
    const { totals, frames } = json('out', 'night.json');
    expect(new Set(totals.map((t: { target: string }) => t.target))).toEqual(new Set(['M 33 panel 1', 'M 33 panel 2']));
    expect(frames.every((f: { altitude: number | null }) => f.altitude !== null)).toBe(true);
  });

  it('has the parent’s goal divided on its page, and panels distinguished in narrow spaces', () => {
    const page = readFileSync(join(folder, 'out', 'report.html'), 'utf8');
    const text = page.replace(/<style[\s\S]*?<\/style>|<[^>]+>/g, ' ').replace(/\s+/g, ' ');
    expect(text).toContain('M 33 panel 1');
    expect(text).toMatch(/of 6\.0 h/);
    expect(text).not.toContain('M 33 pa…');
  });

  it('has it shared out in the archive’s progress', () => {
    const { targets } = json('progress', 'progress.json');
    expect(targets.map((t: { target: string; goalSeconds: number }) => [t.target, t.goalSeconds])).toEqual([
      ['M 33 panel 1', 6 * 3600],
      ['M 33 panel 2', 6 * 3600],
    ]);
    const page = readFileSync(join(folder, 'progress', 'progress.html'), 'utf8');
    expect(page).toMatch(/goal of M\u00a033 is shared in equal parts by the 2 panels/);
    expect(page).toMatch(/Mosaic of M\u00a033, panels 1 and 2, kept: Ha even, /);
  });
});
