import { describe, expect, it } from 'vitest';
import { altitude } from '../../../src/report/charts/altitude.js';
import { TEXT_PX } from '../../../src/report/charts/axes.js';
import { clearLines, type Placed } from '../../../src/report/charts/label-places.js';
import { drawn } from '../../support/charts.js';
import { namedNight } from '../../support/nights.js';

const AREA = { top: 10, bottom: 300 };
const label = (text: string, left: number, y: number): Placed => ({
  label: { x: 0, y: 0, text, colour: 'ink' },
  left,
  right: left + 90,
  x: left,
  y,
});
const level = (y: number) => [
  { x: 0, y },
  { x: 800, y },
];
const half = TEXT_PX / 2;

describe('labels', () => {
  it('leave a line that they lie on, wherever they stood, and stay apart and in the picture', () => {
    for (let y = AREA.top + half; y <= AREA.bottom - half; y += 1) {
      const moon = label('Moon, 82 % lit', 700, y);
      const limit = label('limit 25°', 720, 200 - 9);
      // As `spread` leaves them.
      if (Math.abs(moon.y - limit.y) <= TEXT_PX) continue;
      clearLines([moon, limit], [level(200)], AREA);
      expect(Math.abs(moon.y - 200), `from ${y}`).toBeGreaterThan(half);
      expect(Math.abs(moon.y - limit.y), `from ${y}`).toBeGreaterThan(TEXT_PX);
      expect(limit.y).toBe(191);
      expect(Math.abs(moon.y - y)).toBeLessThanOrEqual(3 * TEXT_PX);
    }
  });

  it('stay where the line runs beside them, or where there is no room', () => {
    const one = label('Moon', 100, 200);
    clearLines(
      [one],
      [
        [
          { x: 300, y: 200 },
          { x: 800, y: 200 },
        ],
        [
          { x: 0, y: 50 },
          { x: 800, y: 60 },
        ],
      ],
      AREA,
    );
    expect(one.y).toBe(200);
    clearLines([one], [level(200)], { top: 195, bottom: 205 });
    expect(one.y).toBe(200);
  });

  it('are clear of a slope as far as they reach', () => {
    const one = label('Moon', 100, 200);
    clearLines(
      [one],
      [
        [
          { x: 0, y: 100 },
          { x: 400, y: 300 },
        ],
      ],
      AREA,
    );
    // From 150 to 195 px beneath the label.
    expect(one.y - half).toBeGreaterThan(195);
  });

  it('of the sky keep off the limit', () => {
    expect(JSON.stringify(drawn(altitude, namedNight('twin-night')).config)).toContain('"clearOf":["limit"]');
  });
});
