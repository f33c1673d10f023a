import { describe, expect, it } from 'vitest';
import { viewContext } from '../../../src/report/html/view/context.js';
import { nightView } from '../../../src/report/html/view/index.js';
import { pairView } from '../../../src/report/html/view/pair/index.js';
import { renderFullPrint, renderPage } from '../../../src/report/html/render.js';
import { namedNight } from '../../support/nights.js';
import { pairOf, pointed, pointingOf } from '../../support/pointing.js';
import { TEST_NOW_MS } from '../../support/sample-night.js';

const texts = (table: { rows: readonly { cells: readonly { text: string }[] }[] } | null | undefined): string[] =>
  (table?.rows ?? []).map((row) => row.cells.map(({ text }) => text).join(' | '));

describe('the section of the pair’s pointing', () => {
  it('is left out, with its number, where no stars were measured', async () => {
    const view = await nightView(namedNight('twin-night'), { nowMs: TEST_NOW_MS, version: '0.0.0' });
    expect(view.pair).toBeNull();
    expect(view.contents.map(({ id }) => id)).not.toContain('pair');
    expect(renderPage(view)).not.toContain('Pointing of the pair');
  });

  it('tells geometry, drift, rotation and dithers', () => {
    const view = pairView(viewContext(pointed(namedNight('twin-night'))));
    expect(texts(view?.fields[0]?.table)).toContain('Centres apart | 90″ | centres together: no more common field');
    // Heron's middle lies 90″ from wren's, the target within 40″ of it: 90″ are 69.6 px of 1.2926″, at 2.4° from −x.
    expect(texts(view?.fields[0]?.table)).toContain('Target in heron | 40″ from the centre, by the header | ');
    expect(texts(view?.fields[0]?.table)).toContain(
      'Target in wren | 50″ to 2.2′ from the centre, near x 3055, y 2086 | ',
    );
    // 0.5 px at 2.1 px an hour: 857 s.
    expect(texts(view?.drift)[0]).toMatch(/^NGC 281 \| wren against heron \| one side \| .* \| 0\.14 \| 14 min$/);
    expect(texts(view?.rotation)[0]).toContain('heron | 40 | 0.0004 | 0.0002 | ');
    expect(view?.maps).toHaveLength(2);
    expect(texts(view?.dithers)[0]).toContain('| 9 | 5.0 |');
    expect(view?.notes).toEqual([]);
  });

  it('says what could not be laid on a reference, and that a camera was turned', () => {
    const view = pairView(
      viewContext(
        pointed(namedNight('twin-night'), {
          pairs: [],
          pointings: [
            pointingOf('heron', {
              unregistered: [{ why: 'strips-not-enough', frames: 3 }],
              turns: [{ atMs: Date.UTC(2026, 9, 14, 21), byDeg: -1.26 }],
            }),
          ],
        }),
      ),
    );
    expect(view?.noFields).toContain('not drawn on one another');
    expect(view?.notes[0]).toMatch(
      /^3 frames of heron on NGC 281 could not be registered on the reference: .*--stars full/,
    );
    expect(view?.notes[1]).toContain('by 1.3° before 23:00');
  });

  it('stands on the page, without a gap in its figures', async () => {
    const night = pointed(namedNight('twin-night'), { pairs: [pairOf({ turnDeg: 175, asideArcsec: 1800 })] });
    const view = await nightView(night, { nowMs: TEST_NOW_MS, version: '0.0.0' });
    expect(renderFullPrint(view, new Map())).toContain('class="fields"');
    const page = renderPage(view);
    const from = page.indexOf('aria-labelledby="pair"');
    const section = page.slice(from, page.indexOf('</section>', from));
    expect(section).toContain('class="fields"');
    expect(section.match(/class="dither-map"/g)).toHaveLength(2);
    expect(section).not.toMatch(/\b(?:NaN|undefined|Infinity)\b/);
  });
});
