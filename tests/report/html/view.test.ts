import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ACCOUNTS, interval, type Account } from '../../../src/model/index.js';
import { viewContext } from '../../../src/report/html/view/context.js';
import { findingsView } from '../../../src/report/html/view/findings.js';
import { framesTables } from '../../../src/report/html/view/frames.js';
import { harmedTable, unharmedText } from '../../../src/report/html/view/harmed.js';
import { frontView } from '../../../src/report/html/view/front.js';
import { headline, headlineText } from '../../../src/report/html/view/headline.js';
import { ledgerView } from '../../../src/report/html/view/ledger.js';
import { notesView } from '../../../src/report/html/view/notes.js';
import { provenanceView } from '../../../src/report/html/view/provenance.js';
import { totalsTable } from '../../../src/report/html/view/totals.js';
import type { Row } from '../../../src/report/html/view/table.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';
import { altered } from '../../support/altered.js';
import { runs } from '../../support/runs.js';

const context = (name: string) => viewContext(namedNight(name));

/** Seconds of a duration as the tables print it. */
function secondsOf(text: string): number {
  const part = (unit: string): number => Number(new RegExp(`(\\d+) ${unit}`).exec(text)?.[1] ?? 0);
  return part('h') * 3600 + part('m') * 60 + part('s');
}

describe('the headline', () => {
  it('is built from the data', () => {
    expect(headlineText(context('twin-night'))).toMatch(
      /^\d+\.\d h kept on IC 1396 and NGC 281, both trains together\. Clock time lost: (?:[\d.]+ (?:h|min) [^,]+, ){2}[\d.]+ (?:h|min) [^,]+\.$/,
    );
  });

  it.each([
    ['one-train', /^\d+\.\d h kept on .*, heron\./],
    ['three-trains', /kept on .*, all three trains together\./],
    ['none-kept', /^None of the 74 frames taken could be kept: /],
    ['no-frames', /^No light was taken in \d+\.\d h of darkness\.$/],
    ['polar-summer', /^No darkness on this night\. None of the \d+ frames/],
    ['no-site', /^\d+\.\d h kept/],
  ])('suits %s', (name, pattern) => {
    expect(headlineText(context(name))).toMatch(pattern);
  });

  it('tells frames that were lost from time with the shutters closed', () => {
    const harmed = NIGHT_NAMES.map((name) => headlineText(context(name))).filter((text) => text.includes(' more is '));
    expect(harmed.length).toBeGreaterThan(0);
    for (const text of harmed) expect(text).not.toContain(' Lost');
    expect(harmed.some((text) => text.includes('. Clock time with shutters closed: '))).toBe(true);
  });

  it('says why nothing could be kept where it never grew dark', () => {
    const night = namedNight('polar-summer');
    const { almanac } = night.sky;
    if (almanac === null) throw new Error('the night has a site');
    const twilight = { kind: 'twilight' as const, verdict: 'doubtful' as const, by: 'duration' as const };
    const lights = night.accounts.lights.map((frame) => ({
      ...frame,
      verdict: 'doubtful' as const,
      causes: [
        { ...twilight, span: frame.exposure, overlapMs: 1, evidence: '', certainty: 'measured' as const, sources: [] },
      ],
    }));
    const totals = night.accounts.totals.map((t) => ({
      ...t,
      frames: { ...t.frames, kept: 0, doubtful: t.frames.taken, lost: 0 },
      ms: { ...t.ms, kept: 0, doubtful: t.ms.taken, lost: 0 },
    }));
    const window = { ...almanac.window, kind: 'sunset' as const, asked: 'nautical' as const, sunMinimumDeg: -1.58 };
    const bright = {
      ...night,
      sky: { ...night.sky, almanac: { ...almanac, window } },
      accounts: { ...night.accounts, lights, totals },
    };
    expect(headlineText(viewContext(bright))).toMatch(
      /^None of the \d+ frames taken could be kept: the Sun never went below −12°, and its lowest was −1\.6°\./,
    );
  });

  it('never breaks inside a quantity', () => {
    for (const name of NIGHT_NAMES) {
      for (const phrase of headline(context(name))) {
        if (phrase.quantity !== true) expect(phrase.text, name).not.toMatch(/\d+ [hm]\b/);
      }
    }
  });
});

describe('the first screen', () => {
  it('shows the twin gain and three figures', () => {
    expect(frontView(context('twin-night')).figures.map((figure) => figure.label)).toEqual([
      'Twin gain',
      'Kept',
      'Lost or doubtful',
      'Shutter open',
    ]);
  });

  it('says why a figure is not known', () => {
    expect(frontView(context('none-kept')).figures[0]).toMatchObject({ value: '—', note: 'nothing was kept' });
  });

  it('says why an instant does not come', () => {
    const notes = frontView(context('polar-summer'))
      .almanac.filter((entry) => entry.value === '—')
      .map((entry) => entry.note);
    expect(notes).toContain('the Sun stays up');
    expect(notes).toContain('does not come');
  });

  it('tells what the reader must know first', () => {
    expect(frontView(context('headers-only')).notices[0]).toContain('inferred');
    const { night, ...more } = context('twin-night');
    expect(frontView({ night, ...more }).trains).toContain('heron (pilot, ');
    // Without a rig file nobody said which train is the pilot.
    const gathered = { ...night.gathered, warnings: [{ code: 'no-rig-file', message: '' }] };
    expect(frontView({ night: { ...night, gathered }, ...more }).trains).toContain('heron (taken for the pilot, ');
    expect(frontView(context('no-site')).notices[0]).toContain('site is not known');
  });
});

describe('the ledger', () => {
  const columnOf = (rows: readonly Row[], index: number): number[] =>
    rows.map((row) => secondsOf(row.cells[index]?.text ?? ''));

  it.each(NIGHT_NAMES)('adds up as it is printed, column by column: %s', (name) => {
    const view = ledgerView(context(name));
    expect(view.balanced).toBe(true);
    const trains = namedNight(name).accounts.ledgers.length;
    for (let train = 0; train < trains; train++) {
      const column = 1 + 2 * train;
      const plain = columnOf(
        view.table.rows.filter((row) => row.kind === undefined),
        column,
      );
      const sums = columnOf(
        view.table.rows.filter((row) => row.kind === 'sum'),
        column,
      );
      const total = columnOf(view.table.foot ?? [], column)[0];
      expect(plain.reduce((sum, value) => sum + value, 0)).toBe(total);
      expect(sums.reduce((sum, value) => sum + value, 0)).toBe(total);
    }
  });

  it('adds up for any split of any window', () => {
    const base = namedNight('two-hours');
    fc.assert(
      fc.property(
        fc.array(fc.integer({ min: 0, max: 5_000_000 }), { minLength: ACCOUNTS.length, maxLength: ACCOUNTS.length }),
        (parts) => {
          const totalsMs = Object.fromEntries(ACCOUNTS.map((account, index) => [account, parts[index] ?? 0])) as Record<
            Account,
            number
          >;
          const windowMs = parts.reduce((sum, part) => sum + part, 0);
          const night = altered(base, {
            sky: { window: interval(0, windowMs) },
            accounts: { ledgers: [{ train: 'heron', segments: [], totalsMs }] },
          });
          const view = ledgerView(viewContext(night));
          const plain = columnOf(
            view.table.rows.filter((row) => row.kind === undefined),
            1,
          );
          expect(plain.reduce((sum, value) => sum + value, 0)).toBe(columnOf(view.table.foot ?? [], 1)[0]);
        },
      ),
      runs(60),
    );
  });

  it('says so when it does not balance', () => {
    const night = namedNight('two-hours');
    const [first, ...rest] = night.accounts.ledgers;
    if (!first) throw new Error('the night has no ledger');
    const broken = altered(night, {
      accounts: { ledgers: [{ ...first, totalsMs: { ...first.totalsMs, kept: first.totalsMs.kept + 1 } }, ...rest] },
    });
    const view = ledgerView(viewContext(broken));
    expect(view.balanced).toBe(false);
    expect(view.balance).toBe('The ledger does not balance: heron is off by 1 ms.');
  });

  it('draws each level within the one before', () => {
    for (const picture of ledgerView(context('twin-night')).pictures) {
      const ends = picture.bars.map((bar) =>
        Math.max(0, ...bar.parts.map((part) => Number(part.xEnd.replace('%', '')))),
      );
      expect(ends[0]).toBe(100);
      expect(ends[3]).toBeLessThanOrEqual(ends[2] ?? 0);
      expect(picture.rest?.parts.at(-1)?.xEnd).toBe('100.000%');
    }
  });
});

describe('the totals', () => {
  it('end in the sums of each train and of the night', () => {
    const table = totalsTable(context('twin-night'));
    expect(table.foot?.map((row) => row.kind)).toEqual(['sum', 'sum', 'total']);
    const taken = (rows: readonly Row[]): number => rows.reduce((sum, row) => sum + Number(row.cells[3]?.text), 0);
    const [heron, wren, night] = (table.foot ?? []).map((row) => Number(row.cells[3]?.text));
    expect(taken(table.rows)).toBe(night);
    expect((heron ?? 0) + (wren ?? 0)).toBe(night);
  });

  it('have as many cells as heads in every row', () => {
    const table = totalsTable(context('three-trains'));
    for (const row of [...table.rows, ...(table.foot ?? [])]) expect(row.cells).toHaveLength(table.columns.length);
    expect(table.groups?.reduce((sum, group) => sum + group.span, 0)).toBe(table.columns.length);
  });
});

describe('findings', () => {
  it('stand in the record’s order, the first few before the rest', () => {
    const night = namedNight('three-trains');
    const ranked = [...night.findings.ranked].reverse();
    const view = findingsView(viewContext(altered(night, { findings: { ranked } })));
    expect(view.first).toHaveLength(5);
    expect([...view.first, ...view.rest].map(({ title }) => title)).toEqual(ranked.map(({ title }) => title));
    // Questions that lack the same stand on one line.
    const lacking = view.notAssessed.map(({ missing }) => missing);
    expect(lacking.length).toBeGreaterThan(0);
    expect(new Set(lacking).size).toBe(lacking.length);
    expect(view.notAssessed.flatMap(({ titles }) => titles.split('; '))).toHaveLength(
      night.findings.notAssessed.length,
    );
  });
});

describe('frames', () => {
  it('have their evidence, source and causer when they are harmed', () => {
    const harmed = harmedTable(context('twin-night'));
    const lines =
      harmed?.table.rows
        .flatMap((row) => row.cells.at(-1)?.statements ?? [])
        .flatMap(({ head, details }) => [head, ...details]) ?? [];
    expect(lines.some((line) => line.includes('by heron'))).toBe(true);
    expect(lines.some((line) => /logs\/heron\.jsonl:\d+/.test(line))).toBe(true);
    expect(harmed?.framesOfRows.reduce((sum, count) => sum + count, 0)).toBe(
      namedNight('twin-night').accounts.lights.filter((frame) => frame.verdict !== 'kept').length,
    );
  });

  it('are all there, under their targets', () => {
    const night = namedNight('twin-night');
    const tables = framesTables(viewContext(night));
    expect(tables.map((one) => one.train)).toEqual(['heron', 'wren']);
    expect(tables.flatMap((one) => one.table.bodies ?? []).flatMap((body) => body.rows)).toHaveLength(
      night.accounts.lights.length,
    );
    expect(tables[0]?.table.bodies?.map((body) => body.head)).toEqual(['IC 1396', 'NGC 281']);
    for (const { table } of tables)
      for (const row of table.bodies?.flatMap((body) => body.rows) ?? [])
        expect(row.cells).toHaveLength(table.columns.length);
  });

  it('say once, under the last table, that FWHM comes from half-flux radii, and only where it does', () => {
    const night = namedNight('twin-night');
    const notes = (measure: 'half-flux' | 'fwhm') =>
      framesTables(
        viewContext({
          ...night,
          accounts: {
            ...night.accounts,
            lights: night.accounts.lights.map((light) =>
              light.header?.kind === 'light'
                ? { ...light, header: { ...light.header, starSize: { pixels: 2, measure } } }
                : light,
            ),
          },
        }),
      ).map(({ table }) => table.note);
    expect(notes('half-flux')).toEqual([
      undefined,
      expect.stringMatching(/^FWHM by the headers: half-flux radii times 2, .*approximation\.$/),
    ]);
    expect(notes('fwhm')).toEqual([undefined, undefined]);
  });

  it('need no table when there are none, or none is harmed', () => {
    expect(framesTables(context('no-frames'))).toEqual([]);
    expect(harmedTable(context('twenty-frames'))).toBeNull();
    expect(unharmedText(context('no-frames'))).toBe('No light was taken.');
    expect(unharmedText(context('headers-only'))).toBe('No frame rejected; interruptions not checked (no log).');
    const unguided = context('no-guiding');
    const { timeline } = unguided.night;
    expect(unharmedText(unguided)).toMatch(/^No frame rejected; quality of guiding not checked \(no guiding /);
    const activities = timeline.activities.filter(({ kind }) => !kind.startsWith('guiding-'));
    const unlogged = { ...unguided, night: { ...unguided.night, timeline: { ...timeline, activities } } };
    expect(unharmedText(unlogged)).toBe('No frame rejected; guiding not checked (no log).');
  });
});

describe('notes and provenance', () => {
  it('repeat every warning with its place and count', () => {
    const { warnings } = notesView(context('twin-night'));
    expect(warnings).toHaveLength(2);
    expect(warnings[1]).toMatchObject({ source: 'logs/wren.jsonl:812', count: '3 times' });
  });

  it('name every input once, frames summed per train', () => {
    const night = namedNight('twin-night');
    const view = provenanceView(viewContext(night), '1.2.3', 0);
    const frames = view.inputs.rows
      .filter((row) => row.cells[1]?.text === 'frames')
      .reduce((sum, row) => sum + Number.parseInt(row.cells[0]?.text ?? '', 10), 0);
    expect(frames).toBe(night.gathered.inputs.filter((input) => input.role === 'frame').length);
    expect(view.inputs.rows.filter((row) => row.cells[1]?.text !== 'frames')).toHaveLength(
      night.gathered.inputs.filter((input) => input.role !== 'frame').length,
    );
    // Midnight represents a date without a time of day.
    expect(view.made).toBe('Made by nightledger 1.2.3 on 1 January 1970.');
    expect(provenanceView(viewContext(night), '1.2.3', 60_000).made).toBe(
      'Made by nightledger 1.2.3 on 1 January 1970 at 00:01 UTC.',
    );
  });

  it('print every rule with its value', () => {
    const cells = provenanceView(context('twin-night'), '1', 0).rules.rows.map((row) =>
      row.cells.map((cell) => cell.text).slice(0, 2),
    );
    expect(cells.slice(0, 5)).toEqual([
      ['motionGrace', '1.0 s'],
      ['guidingOffGrace', '10 s'],
      ['guidingOffShare', '5 %'],
      ['guidingOffNotice', '2.0 s'],
      ['roughGuiding', '1.0 px'],
    ]);
  });
});
