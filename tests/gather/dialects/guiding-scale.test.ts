import { describe, expect, it } from 'vitest';
import { scaleLine } from '../../../src/gather/dialects/draft/guiding-scale.js';
import { compilePattern } from '../../../src/gather/dialects/pattern/pattern.js';

function scaleIn(line: string): string | undefined {
  const source = scaleLine(['night of 2026-10-14, 1.2 m above ground', line]);
  if (source === null) return undefined;
  const pattern = compilePattern(source, false);
  return pattern.exec(line)?.[pattern.groups.get('value') ?? 0];
}

/** Statements of our own wording. */
const STATEMENTS: readonly (readonly [string, string])[] = [
  ['# guide camera: 1.31 arcsec/px', '1.31'],
  ['t=2026-10-12T20:11:02.210Z unit=worker/guide msg=ready scale_arcsec_px=1.31 loop_s=3', '1.31'],
  ['"Leitkamera";"1,42 Bogensekunden je Bildpunkt"', '1,42'],
  ['escala del guiado: 0,97 segundos de arco por píxel', '0,97'],
  ['"escala_guia": {"valor": 0.97, "unidade": "segundos de arco por pixel"}', '0.97'],
  ['1 px = 2.05" (guider)', '2.05'],
  ['échelle 1,5″/px', '1,5'],
  ['měřítko 1,88 "/px', '1,88'],
  ['像素比例:1.62 角秒/像素', '1.62'],
  ['scale 2 arcsec/px', '2'],
];

describe('the scale of the guide camera', () => {
  it.each(STATEMENTS)('stands in %s', (line, value) => {
    expect(scaleIn(line)).toBe(value);
  });

  it.each([
    'scale unknown, built 2026-10-14 21:00:00.5',
    'version 1.31 of the guider',
    'large scale weather: 18.4 degrees',
    'tube at 14.5 C',
  ])('does not stand in %s', (line) => {
    expect(scaleIn(line)).toBeUndefined();
  });
});
