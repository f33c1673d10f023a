/** Filter changes that each require a refocus, because the focuser does not know the filters' offsets. */
import { counted, duration, durationMs, listed, sum, type NightFacts, focusRunsOf } from '../model/index.js';
import { focusSamplesOf, measureOffsets, type FilterOffset, type FilterOffsets } from './filter-focus.js';
import type { FindingModule } from './finding.js';
import { winOfTime } from './trains.js';
import { clock, firstOf } from './wording.js';

export const filterOffsets: FindingModule<{ readonly minimumRuns: number }> = {
  id: 'filter-offsets',
  title: 'Refocuses for lack of filter offsets',
  needs: ['refocuses', 'lights'],
  defaults: { minimumRuns: 2 },
  find(night, { minimumRuns }) {
    return night.gathered.trains.flatMap(({ id }) => {
      const runs = focusRunsOf(night, id).filter((r) => r.afterFilterChange);
      if (runs.length < minimumRuns) return [];
      const costMs = sum(runs.map((r) => durationMs(r.span)));
      const win = winOfTime(night, id, costMs, `refocus-${id}-offsets`);
      const measured = measureOffsets(focusSamplesOf(night, id));
      return [
        {
          title: `${id} refocused after ${counted(runs.length, 'filter change')}`,
          costMs,
          evidence: [
            `${duration(costMs)} of refocusing: ${firstOf(
              runs.map((r) => clock(r.span.startMs, night)),
              6,
            ).join(', ')}`,
            ...(measured
              ? describe(measured)
              : ['the night’s refocuses do not give the offsets: positions or filters are missing']),
            win.evidence,
          ],
          advice: measured ? adviceOn(measured, id) : measureThem(id),
          winMs: win.winMs,
          confidence: confidenceOf(measured, night),
          links: [{ text: 'Stars', anchor: 'stars' }],
          minutes: runs.map((r) => ({ train: id, span: r.span })),
        },
      ];
    });
  },
};

function describe({ reference, stepsPerDegree, offsets }: FilterOffsets): string[] {
  const drift =
    stepsPerDegree === null
      ? 'one refocus per filter does not show the temperature drift: it is still in the offsets'
      : `the focus drifts by ${signed(stepsPerDegree, 1)} steps per °C, which has been removed`;
  const each = offsets.map(
    ({ filter, steps, uncertainty, refocuses }) =>
      `${filter} ${signed(steps)}${uncertainty === null ? '' : ` ± ${Math.max(1, Math.round(uncertainty))}`} ` +
      `(${counted(refocuses, 'refocus', 'refocuses')})`,
  );
  return [`measured against ${reference}, steps: ${each.join(', ')}`, drift];
}

/** Offsets within this many times their error are not measured. Common practice, no source. */
const LEAST_ERRORS = 2;

/**
 * Whether an offset is clear of its error and of that of the filter that it is measured against. The error of a single
 * refocus is not known.
 */
function isKnown({ steps, uncertainty }: FilterOffset, reference: FilterOffset): boolean {
  if (uncertainty === null || reference.uncertainty === null) return false;
  // Refocuses that agree to the step are still not better than a step.
  return Math.abs(steps) > LEAST_ERRORS * Math.hypot(Math.max(1, uncertainty), Math.max(1, reference.uncertainty));
}

function measureThem(train: string): string {
  return (
    `Measure the filter offsets of ${train}: refocus on each filter in turn at one temperature, several times, and ` +
    'enter the differences.'
  );
}

/** Numbers only for what is measured well enough; the rest is to be measured. */
function adviceOn({ offsets }: FilterOffsets, train: string): string {
  const [reference, ...others] = offsets;
  if (reference === undefined) return measureThem(train);
  const known = others.filter((one) => isKnown(one, reference));
  const unsure = others.filter((one) => !known.includes(one)).map(({ filter }) => filter);
  if (known.length === 0) return `The offsets are not measured well enough to be set. ${measureThem(train)}`;
  return (
    `Set the filter offsets of ${train}: ${listed(known.map(({ filter, steps }) => `${filter} ${signed(steps)}`))} ` +
    `steps against ${reference.filter}. ` +
    (unsure.length === 0
      ? 'A filter change then needs no refocus. Focus once on each filter to check them.'
      : `Not measured well enough: ${listed(unsure)}. Refocus several times on each of these and on ` +
        `${reference.filter} at one temperature before setting them.`)
  );
}

function confidenceOf(measured: FilterOffsets | null, night: NightFacts): 'high' | 'medium' | 'low' {
  if (night.timeline.headersOnly) return 'low';
  return measured?.stepsPerDegree !== null && measured?.offsets.every((o) => o.refocuses >= 2) ? 'high' : 'medium';
}

function signed(steps: number, digits = 0): string {
  const text = Math.abs(steps).toFixed(digits);
  return Number(text) === 0 ? '0' : `${steps < 0 ? '−' : '+'}${text}`;
}
