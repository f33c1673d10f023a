import { describe, expect, it } from 'vitest';
import { renderHtml } from '../../../src/report/index.js';
import { shareNight } from '../../../src/share.js';
import { withoutDrawing } from '../../support/drawn-once.js';
import { namedNight } from '../../support/nights.js';
import { undrawnNight } from '../../support/rendered.js';

const count = (html: string, words: string): number => html.split(words).length - 1;

describe('what a night cannot show', () => {
  it('is said once of the sky of a shared edition', async () => {
    const night = shareNight(namedNight('twin-night'));
    const html = await withoutDrawing(() => renderHtml(night, { nowMs: 0, version: '0', share: true }));
    expect(count(html, 'a shared edition leaves out the positions of Moon and targets')).toBe(1);
    expect(html).not.toContain('Heavy lines: while the target was imaged');
  });

  it('is not spoken of where a single train waits for nobody', async () => {
    expect(await undrawnNight('one-train')).not.toContain('Waits at each dither');
    expect(await undrawnNight('twin-night')).toContain('Waits at each dither');
  });
});
