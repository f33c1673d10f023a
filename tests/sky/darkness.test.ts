import { describe, expect, test } from 'vitest';
import { durationMs, interval, TWILIGHTS } from '../../src/model/index.js';
import { darkStretches, darkWindow, makeSkyObserver, nightSpan, nightZone } from '../../src/sky/index.js';
import type { DarknessBound } from '../../src/sky/index.js';
import { inventedSite, ms } from './invented-site.js';

const HOUR = 3_600_000;
const farNorth = inventedSite({
  name: 'Far North',
  latitudeDeg: 78.2,
  longitudeDeg: 15.6,
  elevationM: 10,
  timezone: 'Arctic/Longyearbyen',
});
const farSouth = inventedSite({
  name: 'Far South',
  latitudeDeg: -77.8,
  longitudeDeg: 166.7,
  elevationM: 20,
  timezone: 'Antarctica/McMurdo',
});

describe('in the middle latitudes the window', () => {
  const site = inventedSite();
  const span = nightSpan('2026-10-14', site.timezone);

  test.each(['civil', 'nautical', 'astronomical'] as const)('of %s darkness lies between its twilights', (asked) => {
    const observer = makeSkyObserver(site);
    const window = darkWindow(observer, span, asked);
    const limit = TWILIGHTS[asked].sunAltitudeDeg;
    expect(window).toMatchObject({ kind: asked, asked });
    expect(window).not.toHaveProperty('note');
    // The window's first millisecond is dark, the one before is not; its end is the first that is not dark any more.
    expect(observer.at(window.span.startMs).sun.altitudeDeg).toBeLessThanOrEqual(limit);
    expect(observer.at(window.span.startMs - 1).sun.altitudeDeg).toBeGreaterThan(limit);
    expect(observer.at(window.span.endMs - 1).sun.altitudeDeg).toBeLessThanOrEqual(limit);
    expect(observer.at(window.span.endMs).sun.altitudeDeg).toBeGreaterThan(limit);
  });

  test('is whole milliseconds, and the Sun is lowest in the middle of it', () => {
    const window = darkWindow(site, span, 'nautical');
    expect(Number.isSafeInteger(window.span.startMs) && Number.isSafeInteger(window.span.endMs)).toBe(true);
    expect(Number.isSafeInteger(window.sunMinimumMs)).toBe(true);
    const middle = (window.span.startMs + window.span.endMs) / 2;
    expect(Math.abs(window.sunMinimumMs - middle)).toBeLessThan(2 * 60_000);
  });

  test('lies in the same night south of the equator, in June and in December', () => {
    const south = inventedSite({ latitudeDeg: -33.2, longitudeDeg: 149.1, timezone: 'Australia/Sydney' });
    const june = darkWindow(south, nightSpan('2026-06-21', south.timezone), 'nautical');
    const december = darkWindow(south, nightSpan('2026-12-21', south.timezone), 'nautical');
    expect(durationMs(june.span)).toBeGreaterThan(durationMs(december.span) + 3 * HOUR);
    expect(june.kind).toBe('nautical');
    expect(december.kind).toBe('nautical');
  });

  test.each([-179.9, -120, -1.12, 0, 45, 100, 179.9])(
    'is whole at longitude %d with the zone of the longitude',
    (longitudeDeg) => {
      const place = inventedSite({ longitudeDeg });
      const window = darkWindow(place, nightSpan('2026-03-20', nightZone(undefined, longitudeDeg)), 'nautical');
      expect(window).not.toHaveProperty('note');
      expect(durationMs(window.span) / HOUR).toBeGreaterThan(9);
      expect(durationMs(window.span) / HOUR).toBeLessThan(11);
    },
  );
});

describe('when the asked darkness does not come', () => {
  test('nautical takes its place in a bright summer night, and the note says how low the Sun went', () => {
    const site = inventedSite({ latitudeDeg: 52 });
    const window = darkWindow(site, nightSpan('2026-06-21', site.timezone), 'astronomical');
    expect(window.kind).toBe('nautical');
    expect(window.asked).toBe('astronomical');
    expect(window.sunMinimumDeg).toBeGreaterThan(-18);
    expect(window.note).toBe(
      "Astronomical darkness (Sun below −18°) is not reached this night: the Sun's lowest altitude is −14.6°. " +
        'The window runs from nautical dusk to nautical dawn (Sun below −12°) instead.',
    );
  });

  test('civil takes its place further north', () => {
    const site = inventedSite({ latitudeDeg: 58 });
    const window = darkWindow(site, nightSpan('2026-06-21', site.timezone), 'nautical');
    expect(window.kind).toBe('civil');
    expect(window.note).toMatch(/Nautical darkness .* −8\.6°.*from civil dusk to civil dawn/);
  });

  test('sunset to sunrise takes its place where it does not even get dark enough for that', () => {
    const site = inventedSite({ latitudeDeg: 62 });
    const window = darkWindow(site, nightSpan('2026-06-21', site.timezone), 'nautical');
    expect(window.kind).toBe('sunset');
    expect(window.note).toMatch(/−4\.\d°\. The window runs from sunset to sunrise instead\.$/);
  });

  test('a darkness of a few minutes is still found', () => {
    // 12° below the horizon for two minutes only: the latitude is set by the Sun's own minimum.
    const span = nightSpan('2026-06-21', 'Europe/Madrid');
    const probe = darkWindow(inventedSite({ latitudeDeg: 54 }), span, 'civil');
    const latitudeDeg = 54 + (-12 - probe.sunMinimumDeg) - 0.0005;
    const window = darkWindow(inventedSite({ latitudeDeg }), span, 'nautical');
    expect(window.kind).toBe('nautical');
    expect(durationMs(window.span)).toBeGreaterThan(0);
    expect(durationMs(window.span)).toBeLessThan(15 * 60_000);
  });
});

describe('under the midnight Sun', () => {
  const span = nightSpan('2026-06-21', farNorth.timezone);

  test('the window is within three hours of the lowest Sun', () => {
    const window = darkWindow(farNorth, span, 'nautical');
    expect(window.kind).toBe('sun-minimum');
    expect(window.sunMinimumDeg).toBeCloseTo(11.63, 1);
    expect(window.span).toEqual({ startMs: window.sunMinimumMs - 3 * HOUR, endMs: window.sunMinimumMs + 3 * HOUR });
    expect(window.note).toMatch(/The Sun does not set this night: its lowest altitude is 11\.6°\..*three hours/);
  });

  test('the window is the time of activity where there was one', () => {
    const activity = interval(span.startMs + 9 * HOUR, span.startMs + 15 * HOUR);
    const window = darkWindow(farNorth, span, 'astronomical', activity);
    expect(window).toMatchObject({ kind: 'sun-minimum', span: activity });
    expect(window.note).toMatch(/time of activity/);
  });

  test('activity of another night does not move the window', () => {
    const window = darkWindow(farNorth, span, 'nautical', interval(span.endMs + HOUR, span.endMs + 2 * HOUR));
    expect(window.span.startMs).toBe(window.sunMinimumMs - 3 * HOUR);
  });
});

describe('in the polar night', () => {
  const span = nightSpan('2026-12-21', farNorth.timezone);

  test('the window of civil darkness is the whole span, and the note says so', () => {
    const window = darkWindow(farNorth, span, 'civil');
    expect(window).toMatchObject({ kind: 'civil', span });
    expect(window.note).toBe('The Sun stays below −6° from noon to noon: the window is the whole span.');
  });

  test('the window of astronomical darkness ends for the noon twilight', () => {
    const window = darkWindow(farNorth, span, 'astronomical');
    expect(window.kind).toBe('astronomical');
    expect(window).not.toHaveProperty('note');
    expect(window.sunMinimumDeg).toBeCloseTo(-35.24, 1);
  });

  test('holds for the south in June too', () => {
    const june = nightSpan('2026-06-21', farSouth.timezone);
    expect(darkWindow(farSouth, june, 'civil')).toMatchObject({ kind: 'civil', span: june });
  });
});

describe('with a zone far from the longitude', () => {
  // Noon in Madrid is evening in eastern Australia: the span begins and ends in the dark.
  const site = inventedSite({ latitudeDeg: -33.2, longitudeDeg: 149.1, timezone: 'Europe/Madrid' });
  const span = nightSpan('2026-06-21', site.timezone);

  test('the longer dark stretch counts, and the note says that it is cut', () => {
    const window = darkWindow(site, span, 'nautical');
    expect(window.span.startMs).toBe(span.startMs);
    expect(window.note).toBe('The Sun is already below −12° at the first noon: the window is cut off there.');
  });

  test('the one with the activity counts before the longer', () => {
    const activity = interval(span.endMs - HOUR / 2, span.endMs);
    const window = darkWindow(site, span, 'nautical', activity);
    expect(window.span.endMs).toBe(span.endMs);
    expect(window.note).toMatch(/^The Sun is still .* at the second noon/);
  });
});

test('a darker bound is always within the lighter one', () => {
  const bounds: DarknessBound[] = ['astronomical', 'nautical', 'civil', 'sunset'];
  for (const site of [inventedSite(), farNorth, farSouth]) {
    const observer = makeSkyObserver(site);
    for (const date of ['2026-02-20', '2026-06-21', '2026-09-09', '2026-12-21']) {
      const span = nightSpan(date, site.timezone);
      const all = bounds.map((bound) => darkStretches(observer, span, bound));
      for (const [i, darker] of all.entries()) {
        const lighter = all[i + 1];
        if (!lighter) continue;
        for (const dark of darker) {
          expect(lighter.some((light) => light.startMs <= dark.startMs && light.endMs >= dark.endMs)).toBe(true);
        }
      }
    }
  }
});

test('an empty span has an empty window, not an error', () => {
  const at = ms('2026-10-14T12:00:00Z');
  expect(darkWindow(inventedSite(), interval(at, at), 'nautical').span).toEqual({ startMs: at, endMs: at });
});
