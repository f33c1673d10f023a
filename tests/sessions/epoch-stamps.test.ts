import { describe, expect, it } from 'vitest';
import { readNights } from '../../src/pipeline.js';
import { viewContext } from '../../src/report/html/view/context.js';
import { frontView } from '../../src/report/html/view/front.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession, type SessionFiles } from '../support/generator/write-session.js';
import { TEST_NOW_MS } from '../support/sample-night.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';

cleanUp();

const { files } = writeSession(
  shortNight({ name: 'epoch', begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T22:30:00.000Z' }, 240),
);

/** The session with wren's log as a text of epoch stamps, and a dialect that reads them as specified. */
function stamped(msPerUnit: number, pattern: string): SessionFiles {
  const lines = String(files.get('logs/wren.jsonl'))
    .trim()
    .split('\n')
    .flatMap((line): string[] => {
      const { at, event, seconds, filter } = JSON.parse(line) as Record<string, string | number>;
      const stamp = Math.round(Date.parse(String(at)) / msPerUnit);
      if (event === 'exposure-begin') return [`${stamp} shutter opens ${seconds} ${filter}`];
      return event === 'exposure-end' ? [`${stamp} shutter closes`] : [];
    });
  const dialect = [
    'dialect: 1',
    'name: epoch stamps',
    `time: { pattern: "${pattern}" }`,
    'lines:',
    String.raw`  - { when: 'shutter opens (?<seconds>[\d.]+) (?<filter>\w+)', event: exposure-begin }`,
    '  - { when: "shutter closes", event: exposure-end }',
  ];
  const rig = String(files.get('rig.yaml')).replace(
    /\{ files: "?logs\/wren[^}]*\}/,
    '{ files: "logs/wren.txt", dialect: dialects/epoch.yaml }',
  );
  expect(rig).toContain('logs/wren.txt');
  const others = [...files].filter(([path]) => path !== 'logs/wren.jsonl');
  return new Map([
    ...others,
    ['rig.yaml', rig],
    ['logs/wren.txt', `${lines.join('\n')}\n`],
    ['dialects/epoch.yaml', `${dialect.join('\n')}\n`],
  ]);
}

async function read(session: SessionFiles) {
  const folder = tempFolder();
  writeFiles(folder, session);
  const nights = await readNights(folder, { nowMs: TEST_NOW_MS, replay: null });
  const notices = nights.map((night) => frontView(viewContext(night)).notices.join(' '));
  return { nights, notices: notices.join(' ') };
}

describe('a dialect that misreads epoch stamps', () => {
  it.each([
    ['seconds taken for milliseconds, in 1970', 1000, '{epoch-ms}', 'no time can be read from them'],
    ['milliseconds taken for microseconds, in 1970', 1, '{epoch-us}', 'no time can be read from them'],
    ['milliseconds taken for seconds, in no year at all', 1, '{epoch}', 'their times are in impossible years'],
  ])(
    'makes no second night and no other zone, and its log is left out and said: %s',
    async (_what, unit, pattern, why) => {
      const { nights, notices } = await read(stamped(unit, pattern));
      expect(nights.map((night) => night.date)).toEqual(['2026-10-14']);
      expect(nights[0]?.gathered.site?.timezone).toBe('Europe/Madrid');
      expect(notices).toContain(`lines of logs/wren.txt were left out because ${why}`);
      expect(
        nights[0]?.accounts.lights.filter((f) => f.train === 'wren').every((f) => f.provenance === 'file-only'),
      ).toBe(true);
    },
  );

  it('is read where the stamps are what it says', async () => {
    const { nights, notices } = await read(stamped(1000, '{epoch}'));
    expect(nights).toHaveLength(1);
    expect(notices).not.toContain('left out');
    expect(nights[0]?.accounts.lights.some((f) => f.train === 'wren' && f.provenance === 'log-and-file')).toBe(true);
  });
});
