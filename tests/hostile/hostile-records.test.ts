/** Records and goals of others: what they say reaches reports, progress and plans as text, and nothing else. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ConfigError } from '../../src/config/index.js';
import { makePlan, planAs } from '../../src/write-plan.js';
import { nightledgerIn } from '../support/command-line.js';
import { writeFiles } from '../support/generator/samples.js';
import { frameOf, sessionOf } from '../support/records.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';
import { spoilt } from './support/spoilt.js';
import { inFull, runs } from '../support/runs.js';

cleanUp();

const NIGHT = '2026-10-14';
const FORMULA = '=cmd|calc!A1';
const MARKUP = [
  '<script>alert(1)</script>',
  '"><img src=x onerror=alert(1)>',
  "'-alert(1)-'",
  '</title><svg onload=alert(1)>',
  '{{constructor.constructor "x"}}',
  'javascript:alert(1)',
  FORMULA,
];
/** All markup in one name, and the formula at the name's beginning, where alone it would be one. */
const NAMES = inFull(MARKUP, [MARKUP.filter((text) => text !== FORMULA).join(' '), FORMULA]);
const goals = (name: string): string =>
  `targets:\n  - { name: ${JSON.stringify(name)}, ra: "00:52:59", dec: "+56:37:19", goals: { Ha: 100h, ${JSON.stringify(name)}: 9h } }\n`;

function hostileRecord(name: string) {
  const frames = Array.from({ length: 12 }, (_, i) =>
    frameOf(NIGHT, i, {
      target: name,
      filter: i % 2 === 0 ? 'Ha' : name,
      train: i % 3 === 0 ? 'heron' : name,
      file: `${name}/${i}.fits`,
    }),
  );
  const record = sessionOf(NIGHT, 'a', frames);
  return {
    ...record,
    site: { ...record.site, name, latitude: 40.42, longitude: -1.12, elevation: 1100, timezone: name },
    targets: [{ name, aliases: [name], ra: 13.2458, dec: 56.622 }],
    archive: { ...record.archive, report: `javascript:alert(1)//${name}` },
  };
}

/** Markup that got through: any of the hostile tags, or a link that runs something. */
const LIVE = /<script>alert|<img src=x|<svg onload|href="javascript:|<\w+[^<>]*\sonerror=/i;

describe.each(NAMES)('a record full of %j', (name) => {
  it('is shown as text by report, progress and plan', async () => {
    const folder = tempFolder();
    writeFiles(
      folder,
      new Map([
        [`archive/${NIGHT}.json`, JSON.stringify(hostileRecord(name))],
        ['archive/goals.yaml', goals(name)],
        ['night.json', JSON.stringify(hostileRecord(name))],
      ]),
    );
    const runs = [
      await nightledgerIn(folder, 'progress', 'archive', '--out', 'progress', '--no-pdf'),
      await nightledgerIn(
        folder,
        'plan',
        'archive',
        '--night',
        '2026-11-25',
        '--nights',
        '1',
        '--out',
        'plan',
        '--no-pdf',
      ),
      await nightledgerIn(folder, 'report', 'night.json', '--out', 'report', '--no-pdf', '--also', 'summary'),
    ];
    for (const run of runs) expect(run.status, run.stderr).toBe(0);
    for (const page of ['progress/progress.html', 'plan/plan.html', 'report/report.html']) {
      const html = readFileSync(join(folder, page), 'utf8');
      expect(html).toContain('Content-Security-Policy');
      expect(LIVE.exec(html.replaceAll(/<script>(?!alert)[\s\S]*?<\/script>/g, ''))?.[0], page).toBeUndefined();
    }
    expect(readFileSync(join(folder, 'report/frames.csv'), 'utf8')).not.toMatch(/(^|,|\n)"?=cmd/);
    // Escaped characters are text in Markdown.
    expect(readFileSync(join(folder, 'report/summary.md'), 'utf8').replaceAll(/\\[<>]/g, '')).not.toMatch(LIVE);
  });
});

describe('a record of a version to come', () => {
  it('is refused by report with its version, and set aside unharmed by progress and plan', async () => {
    const folder = tempFolder();
    const text = JSON.stringify({ ...sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0)]), schema: 'nightledger/night/99' });
    writeFiles(
      folder,
      new Map([
        [`archive/${NIGHT}.json`, text],
        ['night.json', text],
      ]),
    );
    const report = await nightledgerIn(folder, 'report', 'night.json', '--out', 'out', '--no-pdf');
    expect(report.status).toBe(1);
    expect(report.stderr).toContain('99');
    for (const command of ['progress', 'plan']) {
      const run = await nightledgerIn(folder, command, 'archive', '--out', 'x', '--no-pdf');
      expect(run.status).toBe(1);
      expect(run.stderr).not.toMatch(/\n\s+at /);
    }
    expect(readFileSync(join(folder, `archive/${NIGHT}.json`), 'utf8')).toBe(text);
  });
});

describe('a plan', () => {
  it('is made or refused in words, whatever record and goals hold', async () => {
    const record: unknown = JSON.parse(JSON.stringify(sessionOf(NIGHT, 'a', [frameOf(NIGHT, 0)])));
    const wanted = {
      targets: [
        { name: 'NGC 281', ra: '00:52:59', dec: '+56:37:19', goals: { Ha: '12h' }, priority: 2, panels: ['a', 'b'] },
      ],
    };
    await fc.assert(
      fc.asyncProperty(
        fc.oneof(spoilt(record), fc.constant(record)),
        fc.oneof(spoilt(wanted), fc.constant(wanted)),
        async (night, goal) => {
          const archive = tempFolder();
          writeFiles(
            archive,
            new Map([
              [`${NIGHT}.json`, JSON.stringify(night) ?? ''],
              ['goals.yaml', JSON.stringify(goal) ?? ''],
            ]),
          );
          const options = { from: '2026-11-25', nights: 1, share: false, nowMs: Date.UTC(2026, 10, 25) };
          try {
            const { plan } = await makePlan(archive, options);
            expect(planAs(plan, 'json', '0')).not.toMatch(/NaN|Infinity|undefined/);
          } catch (error) {
            expect(error instanceof ConfigError || (error as Error).constructor === Error, String(error)).toBe(true);
          }
        },
      ),
      runs(60),
    );
  });
});

describe('trains named like what every object has', () => {
  it('come into an archive from headers as others do, in bounded time and memory', async () => {
    const ids = ['constructor', 'toString', 'hasOwnProperty', '__proto__'];
    const folder = tempFolder();
    const rig = ids
      .slice(0, 3)
      .map((id) => `  - { id: ${id}, match: { TELESCOP: "${id}" } }`)
      .join('\n');
    writeFiles(folder, new Map([['rig.yaml', `trains:\n${rig}\n`]]));
    const samples = new URL('../../sample-sessions/headers-only', import.meta.url).pathname;
    const run = await nightledger(['archive', 'add', samples, '--archive', 'archive', '--rig', 'rig.yaml'], {
      cwd: folder,
      seconds: 60,
    });
    expect(run, run.stderr).toMatchObject({ withinBounds: true });
    expect(run.stderr).not.toMatch(/TypeError|\n\s+at /);
  });
});
