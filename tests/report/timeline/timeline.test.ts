import { describe, expect, it } from 'vitest';
import { clip, coveredMs, durationMs, intersect, type Night } from '../../../src/model/index.js';
import { paletteOf } from '../../../src/report/design/filters.js';
import { activityOf } from '../../support/activities.js';
import { altered } from '../../support/altered.js';
import { clockOf } from '../../../src/vocabulary/index.js';
import {
  buildTimeline,
  OVERVIEW_SIZES,
  overviewSpan,
  STRIP_SIZES,
  stripSpans,
  type TimelineView,
} from '../../../src/report/timeline/timeline.js';
import { skyBands } from '../../../src/report/timeline/sky-band.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';

const SAYING = { label: '', showsUtc: false };
const clock = (night: Night) => clockOf(night.gathered.site?.timezone ?? 'UTC');
const overview = (night: Night): TimelineView =>
  buildTimeline(night, overviewSpan(night), OVERVIEW_SIZES, clock(night), paletteOf(night), SAYING);
const percent = (text: string): number => Number(text.replace('%', ''));

describe.each(NIGHT_NAMES)('the timeline of %s', (name) => {
  const night = namedNight(name);
  const view = overview(night);

  it('has every frame once, on its train’s lane', () => {
    for (const lane of view.lanes)
      expect(lane.frames).toHaveLength(night.accounts.lights.filter((frame) => frame.train === lane.train).length);
    expect(view.lanes.map((lane) => lane.train).sort()).toEqual(night.gathered.trains.map((train) => train.id).sort());
  });

  it('puts pilots above the mount and companions below, and no two lanes over each other', () => {
    for (const lane of view.lanes) {
      expect(lane.below).toBe(night.gathered.trains.find((train) => train.id === lane.train)?.role !== 'pilot');
      if (lane.below) expect(lane.accountRow.y).toBeGreaterThan(view.shared.guidingEnd);
      else expect(lane.accountRow.end).toBeLessThan(view.shared.mountY);
    }
    const rows = view.lanes.map((lane) => lane.frameRow.y).sort((a, b) => a - b);
    for (let index = 1; index < rows.length; index++)
      expect((rows[index] ?? 0) - (rows[index - 1] ?? 0)).toBeGreaterThan(OVERVIEW_SIZES.lane.frames);
  });

  it('draws inside the picture', () => {
    const blocks = view.lanes.flatMap((lane) => [...lane.frames, ...lane.accounts]);
    const outside = blocks.filter(({ x, width, xEnd }) => {
      const end = percent(x) + percent(width);
      return !(percent(x) >= 0 && end <= 100.01 && Math.abs(end - percent(xEnd)) < 0.05);
    });
    expect(outside).toEqual([]);
    expect(view.height).toBeGreaterThan(view.plotEnd);
  });

  it('writes names where no mark and no line lies: their rows lie over what is behind', () => {
    for (const { y, height } of view.nameRows)
      for (const lane of view.lanes)
        for (const row of [lane.frameRow, lane.accountRow])
          expect(row.end <= y || row.y >= y + height, `${lane.train}`).toBe(true);
  });

  it('has local hours below, and UTC under them only where it is asked for', () => {
    expect(view.axis.y).toBeGreaterThan(view.plotEnd);
    expect(view.utcAxis).toBeNull();
    const both = buildTimeline(night, overviewSpan(night), OVERVIEW_SIZES, clock(night), paletteOf(night), {
      label: '',
      showsUtc: true,
    });
    expect(both.utcAxis?.y).toBeGreaterThan(both.axis.y);
    expect(both.height).toBeGreaterThan(view.height);
  });

  it('crosses out what is lost, and only that', () => {
    const frames = view.lanes.flatMap((lane) => lane.frames);
    expect(frames.filter(({ style, verdict }) => style.crossed !== (verdict === 'lost'))).toEqual([]);
  });

  it('ties every train that took part to every dither, the last one marked', () => {
    const parts = night.accounts.dithers.reduce(
      (sum, cycle) => sum + Object.values(cycle.waits).filter((wait) => wait !== null).length,
      0,
    );
    expect(view.shared.ties).toHaveLength(parts);
    expect(view.shared.ties.filter((tie) => tie.holder)).toHaveLength(
      night.accounts.dithers.filter((cycle) => cycle.holder !== null).length,
    );
    expect(view.shared.ties.filter((tie) => !(percent(tie.readyX) <= percent(tie.beginX)))).toEqual([]);
  });

  it('has strips that show every frame, in whole hours', () => {
    const spans = stripSpans(night, clock(night), 2);
    const hidden = night.accounts.lights.filter(
      ({ exposure }) => coveredMs(clip(spans, exposure)) !== durationMs(exposure),
    );
    expect(hidden.map(({ id }) => id)).toEqual([]);
    for (const span of spans) {
      expect(clock(night).time(span.startMs)).toMatch(/:00$/);
      expect(buildTimeline(night, span, STRIP_SIZES, clock(night), paletteOf(night), SAYING).lanes).toHaveLength(
        night.gathered.trains.length,
      );
    }
  });
});

describe('the timeline of three trains', () => {
  it('ties a train to the mount’s move without crossing another train’s lane or names', () => {
    const three = namedNight('three-trains');
    const drawn = buildTimeline(three, overviewSpan(three), OVERVIEW_SIZES, clock(three), paletteOf(three), {
      label: '',
      showsUtc: false,
    });
    expect(new Set(drawn.shared.ties.map(({ laneY }) => laneY)).size).toBe(3);
    for (const { laneY, mountY } of drawn.shared.ties) {
      const [top, end] = [Math.min(laneY, mountY), Math.max(laneY, mountY)];
      expect(end - top).toBeGreaterThan(5);
      for (const { y, height } of drawn.nameRows) expect(end <= y || top >= y + height).toBe(true);
      for (const lane of drawn.lanes) {
        const [from, to] = lane.below ? [lane.accountRow.y, lane.frameRow.end] : [lane.frameRow.y, lane.accountRow.end];
        expect(end <= from || top >= to, lane.train).toBe(true);
      }
    }
  });
});

describe('strips', () => {
  const night = namedNight('twin-night');

  it('has no strip of hours in which nothing happened', () => {
    const early = night.accounts.lights.filter(
      ({ exposure }) => exposure.startMs < night.sky.window.startMs + 7_200_000,
    );
    const short = altered(night, { accounts: { lights: early }, timeline: { activities: [] } });
    expect(early.length).toBeGreaterThan(3);
    expect(stripSpans(night, clock(night), 2).length).toBeGreaterThan(4);
    const spans = stripSpans(short, clock(night), 2);
    expect(spans.length).toBeLessThan(4);
    for (const { exposure } of early) expect(coveredMs(clip(spans, exposure))).toBe(durationMs(exposure));
    // That the guiding was stopped and stays so is nothing that happens.
    const stop = activityOf('guiding-stopped', night.span, {});
    const stopped = altered(short, { timeline: { activities: [stop] } });
    expect(stripSpans(stopped, clock(night), 2)).toEqual(spans);
  });
});

describe('the sky behind', () => {
  it('goes from day to dark and back without a gap', () => {
    const night = namedNight('twin-night');
    const bands = skyBands(night.sky.almanac, night.span);
    expect(bands.map((band) => band.colour)).toEqual([
      'sky-day',
      'sky-civil',
      'sky-nautical',
      'sky-astronomical',
      'sky-dark',
      'sky-astronomical',
      'sky-nautical',
      'sky-civil',
      'sky-day',
    ]);
    expect(bands.reduce((sum, band) => sum + durationMs(band.span), 0)).toBe(durationMs(night.span));
    for (let index = 1; index < bands.length; index++)
      expect(intersect(bands[index - 1]?.span ?? night.span, bands[index]?.span ?? night.span)).toBeNull();
  });

  it('stays day where the Sun does not set, and paper where the site is not known', () => {
    const polar = namedNight('polar-summer');
    expect(skyBands(polar.sky.almanac, polar.span).map((band) => band.colour)).toEqual(['sky-day']);
    expect(skyBands(null, polar.span).map((band) => band.colour)).toEqual(['paper']);
  });
});

describe('what a block says', () => {
  it('tells a lost frame’s cause and by whose doing', () => {
    const night = namedNight('twin-night');
    const titles = overview(night).lanes.flatMap((lane) =>
      lane.frames.filter((frame) => frame.verdict === 'lost').map((frame) => frame.title),
    );
    expect(titles.some((title) => /guiding off for [\dmins ]+, by heron/.test(title))).toBe(true);
    expect(titles.some((title) => title.includes('cut short'))).toBe(true);
  });
});
