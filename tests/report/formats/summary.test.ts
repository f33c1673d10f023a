import { describe, expect, it } from 'vitest';
import { summary } from '../../../src/report/formats/summary.js';
import { namedNight, NIGHT_NAMES } from '../../support/nights.js';

const CONTEXT = { nowMs: 0, version: '1.2.3' };
const render = async (name: string): Promise<string> => String(await summary.render(namedNight(name), CONTEXT));

describe('the summary', () => {
  it.each(NIGHT_NAMES)('says nothing that is not a figure: %s', async (name) => {
    expect(await render(name)).not.toMatch(/\b(?:NaN|undefined|null|Infinity)\b/);
  });

  it('has the sentence, the figures, a row for each total, and the first findings', async () => {
    const text = await render('twin-night');
    expect(text).toMatch(/^\*\*Night of 19 to 20 October 2026\*\*\n\n\d+\.\d h kept on IC 1396 and NGC 281, /);
    const { totals } = namedNight('twin-night').accounts;
    expect(text.match(/^\| (?:IC 1396|NGC 281) /gm)).toHaveLength(
      new Set(totals.map(({ target, filter }) => `${target} ${filter}`)).size,
    );
    expect(text).toContain('| Target | Filter | heron | wren | together |');
    expect(text.length).toBeLessThan(2500);
    expect(text).toMatch(/^1\. [A-Z].*Recoverable: \d+ min, both trains together\.$/m);
    expect(text.trimEnd()).toMatch(/nightledger 1\.2\.3$/);
  });

  it('does not say where the site is', async () => {
    expect(await render('twin-night')).not.toMatch(/Cierzo|40\.4|1\.12/);
  });

  it('prints names that look like markup as they are', async () => {
    const text = await render('long-names');
    expect(text).toContain('\\<script\\>alert(1)\\</script\\> \\{\\{x\\}\\} & "quoted"');
    for (const row of text.split('\n').filter((line) => line.startsWith('|')))
      expect(row.replaceAll('\\|', '').match(/\|/g)).toHaveLength(6);
  });
});
