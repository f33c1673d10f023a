import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Estimate } from '../../src/model/index.js';
import { progressPages, toProgressJson } from '../../src/report/index.js';
import { CHART_WIDTH } from '../../src/report/charts/chart.js';
import { axisSpan, dateTicks } from '../../src/report/progress/charts/date-axis.js';
import { progressContext } from '../../src/report/progress/context.js';
import { dateText, spanText } from '../../src/report/progress/dates.js';
import { nightsTable, targetNightsTable } from '../../src/report/progress/view/nights-table.js';
import { nightsText, seasonText } from '../../src/report/progress/view/outlook.js';
import { textWidthPx } from '../../src/report/timeline/scale.js';
import { withoutDrawing } from '../support/drawn-once.js';
import { namedProgress } from '../support/progresses.js';

const DAY = 86_400_000;

describe('dates for reading', () => {
  it('name a span without saying a year twice', () => {
    expect(spanText('2026-09-08', '2026-11-22')).toBe('8 Sep to 22 Nov 2026');
    expect(spanText('2026-12-22', '2027-01-04')).toBe('22 Dec 2026 to 4 Jan 2027');
    expect(spanText('2026-09-08', '2026-09-08')).toBe(dateText('2026-09-08'));
  });
});

describe('an axis of dates', () => {
  it('leaves room between its labels, whatever the span and the width', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 20_000 }),
        fc.integer({ min: 1, max: 8000 }),
        fc.integer({ min: 120, max: 1000 }),
        (start, days, widthPx) => {
          const [startMs, endMs] = [start * DAY, (start + days) * DAY];
          const ticks = dateTicks(startMs, endMs, widthPx);
          ticks.forEach(({ value, label }, i) => {
            expect(value).toBeGreaterThanOrEqual(startMs);
            expect(value).toBeLessThanOrEqual(endMs);
            const next = ticks[i + 1];
            if (next)
              expect(((next.value - value) / (endMs - startMs)) * widthPx).toBeGreaterThan(
                (textWidthPx(label, 13) + textWidthPx(next.label, 13)) / 2,
              );
          });
        },
      ),
    );
  });

  it.each([
    [10, 900, '8 Sep'],
    [80, 900, '7 Sep'],
    [365, 900, 'Oct 2026'],
    [1500, 900, 'Jan 2027'],
    [7000, 900, '2028'],
  ])('of %i days in %i px has a tick %s', (days, width, label) => {
    const startMs = Date.parse('2026-09-07T12:00:00Z');
    expect(dateTicks(startMs, startMs + days * DAY, width).map((t) => t.label)).toContain(label);
  });

  it('has room at both ends', () => {
    const { startMs, endMs } = axisSpan(['2026-09-08']);
    expect(endMs - startMs).toBe(4 * DAY);
  });
});

describe('the outlook in words', () => {
  it('says when a target’s season is', () => {
    expect(seasonText({ state: 'now', until: '2027-01-12' })).toBe('until 12 Jan 2027');
    expect(seasonText({ state: 'now', until: null })).toBe('all year');
    expect(seasonText({ state: 'later', from: '2027-07-14', until: null })).toBe(
      'not this season: back from 14 Jul 2027',
    );
    expect(seasonText({ state: 'never', bestHours: 1.34 })).toBe('never: 1.3 h per night at best');
  });

  it('tells nights with their spread, and leaves open what no draw reaches', () => {
    const estimate = (nights: Estimate['nights']): Estimate => ({
      draws: 1000,
      finished: 1,
      finishedThisSeason: 1,
      nights,
      dates: null,
    });
    expect(nightsText(estimate({ low: 3, middle: 5, high: 9 }))).toBe('5 (3 to 9)');
    expect(nightsText(estimate({ low: 3, middle: 5, high: null }))).toBe('5 (3 to many)');
    expect(nightsText(estimate({ low: 3, middle: null, high: null }))).toBe('3 or more');
    expect(nightsText(null)).toBe('—');
  });
});

describe('progress.json', () => {
  const { progress, outlook } = namedProgress('autumn-archive');
  const options = { nowMs: 0, version: '1.2.3', share: false, linkTo: () => null };
  const json = toProgressJson(progress, outlook, options);

  it('has every target, night and month in seconds, and survives as JSON', () => {
    expect(JSON.parse(JSON.stringify(json))).toEqual(json);
    expect(json.schema).toBe('nightledger/progress/1');
    expect(json.nights).toHaveLength(12);
    expect(json.targets.flatMap((t) => t.lines.map((l) => l.seconds.kept)).reduce((a, b) => a + b, 0)).toBeCloseTo(
      json.nights.reduce((sum, n) => sum + (n.keptSeconds ?? 0), 0),
      3,
    );
    expect(json.months.map((m) => m.month)).toEqual(['2026-09', '2026-10', '2026-11']);
    expect(json.outlook?.targets[0]).toMatchObject({ season: { state: 'now' }, estimate: { draws: 1000 } });
    expect(JSON.stringify(json)).not.toMatch(/NaN|Infinity/);
  });

  it('shared, has no site', () => {
    expect(JSON.stringify(toProgressJson(progress, outlook, { ...options, share: true }))).not.toContain('Cierzo');
  });
});

describe('lists of nights', () => {
  const { progress, outlook } = namedProgress('autumn-archive');
  const [first] = progress.nights;
  const [ofTarget] = progress.targets.flatMap((target) => target.nights);
  if (first === undefined || ofTarget === undefined) throw new Error('the autumn has nights');
  const options = { nowMs: 0, version: '0', share: false, linkTo: () => null };
  const dates = (count: number): string[] =>
    Array.from({ length: count }, (_, i) => new Date(Date.UTC(2024, 0, 1 + i)).toISOString().slice(0, 10));

  it('stand whole on paper until they are too long to be read', () => {
    const long = (count: number) =>
      nightsTable(
        progressContext({ ...progress, nights: dates(count).map((date) => ({ ...first, date })) }, outlook, options),
      );
    expect(long(120).rows.filter((row) => row.offPaper)).toEqual([]);
    expect(long(120).paperNote).toBeUndefined();
    const { rows, paperNote } = long(300);
    expect(rows).toHaveLength(300);
    expect(rows.findIndex((row) => row.offPaper)).toBe(120);
    expect(rows[0]?.cells[0]?.value).toBe('20241026');
    expect(paperNote).toBe('180 earlier nights are in progress.html.');
  });

  it('are printed from a page without the rows that paper leaves out', async () => {
    const nights = dates(123).map((date) => ({ ...first, date }));
    const { page: html, print } = await withoutDrawing(() => progressPages({ ...progress, nights }, outlook, options));
    const paper = print();
    const rows = (text: string) => text.match(/<tr\b/g)?.length ?? 0;
    expect(rows(html) - rows(paper)).toBe(3);
    expect(html).toContain('class="screen">');
    expect(paper).not.toMatch(/<tr[^>]*class="screen"/);
    expect(paper.match(/<\/tr>/g)).toHaveLength(rows(paper));
  });

  it('are printed with charts drawn for paper, which the page does not have', async () => {
    const { page, print } = await withoutDrawing(() =>
      progressPages(progress, outlook, { ...options, forPaper: true }),
    );
    const widths = (text: string) => [...text.matchAll(/<svg class="chart" viewBox="0 0 (\d+)/g)].map(([, px]) => px);
    const count = (text: string, px: number) => widths(text).filter((one) => one === String(px)).length;
    const drawnForPaper = 2 + progress.targets.length;
    expect(count(page, CHART_WIDTH.paper)).toBe(0);
    expect(count(print(), CHART_WIDTH.paper)).toBe(drawnForPaper);
    expect(count(page, CHART_WIDTH.wide) - count(print(), CHART_WIDTH.wide)).toBe(drawnForPaper);
    expect(print()).not.toContain('on-paper');
  });

  it('of one target are shorter', () => {
    const { rows, paperNote } = targetNightsTable(
      progressContext(progress, outlook, options),
      'NGC 281',
      dates(41).map((date) => ({ ...ofTarget, date })),
    );
    expect(rows.filter((row) => row.offPaper)).toHaveLength(1);
    expect(paperNote).toBe('1 earlier night is in progress.html.');
  });
});
