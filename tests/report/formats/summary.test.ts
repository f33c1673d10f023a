import { describe, expect, it } from 'vitest';
import { nightOfRecord } from '../../../src/again.js';
import { CAUTION, type Night } from '../../../src/model/index.js';
import { toRecord } from '../../../src/record/index.js';
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
    expect(text).toMatch(
      /^1\. [A-Z].*Recoverable: \d+ min, both trains together; (?:needs new darks; )?confidence (?:high|medium|low)\.$/m,
    );
    expect(text.trimEnd()).toMatch(/nightledger 1\.2\.3$/);
  });

  it('advises the same, with its caution, where it is made of a record without parts, as shared ones are', async () => {
    const night = namedNight('twin-night');
    const { night: again } = await nightOfRecord(JSON.stringify(toRecord(night, '1.2.3', false)));
    const advice = async (of: Night): Promise<string> => {
      const text = String(await summary.render(of, CONTEXT));
      return text.slice(text.indexOf('Next time:'), text.indexOf(CAUTION) + CAUTION.length);
    };
    expect(await advice(night)).toContain(CAUTION);
    expect(await advice(again)).toBe(await advice(night));
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
