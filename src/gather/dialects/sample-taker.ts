import { GUIDING_ARCSEC, isWithin, SIGNAL_TO_NOISE } from '../../model/index.js';
import { SampleColumns } from '../lines/sample-columns.js';
import type { WarningTally } from '../lines/warning-tally.js';
import type { GuidingRule, SampleListRule } from './compiled.js';
import type { Fate } from './fate.js';
import { type OneOfSeveral, samplesIn, samplesOfRecord, steadyTimes } from './guiding-samples.js';
import type { LineValues } from './line-values.js';
import type { Pattern } from './pattern/pattern.js';
import type { LogClock } from './time/log-clock.js';
import { isUsableTime } from './usable-time.js';

/** Extracts guiding samples from lines, rows and records. */
export class SampleTaker {
  readonly samples = new SampleColumns();

  constructor(
    private readonly decimalComma: boolean,
    private readonly clock: LogClock,
    private readonly tally: WarningTally,
    private readonly values: LineValues,
  ) {}

  /** The only sample of a line or row. */
  takeOne(rule: GuidingRule, atMs: number, line: number): Fate {
    if (!isUsableTime(atMs, line, this.tally)) return 'unusable';
    const { lookup } = this.values;
    const errors = { ra: rule.ra.evaluate(lookup), dec: rule.dec.evaluate(lookup), snr: rule.snr?.evaluate(lookup) };
    return this.keep({ ...errors, snr: errors.snr ?? NaN }, atMs, line);
  }

  /** Several samples of a text, each with its own time or equally spaced before or after the line's. */
  takeEach(rule: GuidingRule, pattern: Pattern, text: string, atMs: number, line: number): Fate {
    const found = samplesIn(text, pattern, rule, this.values, this.decimalComma);
    const times = steadyTimes(atMs, found.length, rule);
    return this.keepAll(
      found,
      found.map(({ time }, i) => (time === undefined ? (times[i] ?? NaN) : this.clock.readCaught(time, atMs, line))),
      line,
    );
  }

  /** The samples of a record; `unmatched` if there are none. */
  takeList(rule: GuidingRule, list: SampleListRule, text: string, atMs: number, line: number): Fate {
    const { clock } = this;
    const { lookup } = this.values;
    const found = samplesOfRecord(text, rule, list, lookup);
    if (found.length === 0) return 'unmatched';
    const stated = list.since === null ? undefined : lookup(list.since);
    const sinceMs = stated === undefined ? atMs : clock.readCaught(String(stated), atMs, line);
    const steady = steadyTimes(sinceMs, found.length, rule);
    const times = found.map(({ time, afterS }, i) => {
      if (time !== undefined) return clock.readCaught(time, sinceMs, line);
      return list.after === null ? (steady[i] ?? NaN) : sinceMs + Math.round(afterS * 1000);
    });
    return this.keepAll(found, times, line);
  }

  private keepAll(found: readonly OneOfSeveral[], times: readonly number[], line: number): Fate {
    const fates = found.map((sample, i) => {
      const atMs = times[i] ?? NaN;
      return isUsableTime(atMs, line, this.tally) ? this.keep(sample, atMs, line) : 'unusable';
    });
    return fates.includes('sample') ? 'sample' : 'unusable';
  }

  private keep({ ra, dec, snr }: Omit<OneOfSeveral, 'time'>, atMs: number, line: number): Fate {
    if (isWithin(ra, GUIDING_ARCSEC) && isWithin(dec, GUIDING_ARCSEC)) {
      this.samples.push(atMs, ra, dec, isWithin(snr, SIGNAL_TO_NOISE) ? snr : NaN);
      return 'sample';
    }
    this.tally.add(
      'unreadable-sample',
      line,
      () =>
        `Line ${line} has no numbers from ${GUIDING_ARCSEC.from} to ${GUIDING_ARCSEC.to} for "ra" ` +
        'and "dec"; the sample was left out. Check the formulas of "guiding" and that their ' +
        'constants come before it.',
    );
    return 'unusable';
  }
}
