/** The registry of findings and their ranking by cost. One line per finding. */
import type { NightFindings, NotAssessed, NightFacts } from '../model/index.js';
import { abortedExposures } from './aborted-exposures.js';
import { calibration } from './calibration.js';
import { centring } from './centring.js';
import { clockOffset } from './clock-offset.js';
import { companionStart } from './companion-start.js';
import { cooling } from './cooling.js';
import { countOnce } from './count-once.js';
import { dimmedAlone } from './dimmed-alone.js';
import { dimmedTogether } from './dimmed-together.js';
import { ditherOften } from './dither-often.js';
import { ditherRepeats } from './dither-repeats.js';
import { ditherSpread } from './dither-spread.js';
import { ditherThrough } from './dither-through.js';
import { ditherWait } from './dither-wait.js';
import { doubledStars } from './doubled-stars.js';
import { fieldRotation } from './field-rotation.js';
import { filterChangesOften } from './filter-changes.js';
import { filterOffsets } from './filter-offsets.js';
import { NEEDS, type FindingDraft, type FindingModule, type Need, type Thresholds } from './finding.js';
import { flexure } from './flexure.js';
import { guidingAltitude } from './guiding-altitude.js';
import { guidingAxis } from './guiding-axis.js';
import { guidingBursts } from './guiding-bursts.js';
import { guidingGusts } from './guiding-gusts.js';
import { hold } from './hold.js';
import { largerStars } from './larger-stars.js';
import { lowTarget } from './low-target.js';
import { marginalFrames } from './marginal-frames.js';
import { meridianFlip } from './meridian-flip.js';
import { missingFiles } from './missing-files.js';
import { moonCost } from './moon-cost.js';
import { moonNear } from './moon-near.js';
import { pairOffset } from './pair-offset.js';
import { pairRotation } from './pair-rotation.js';
import { asChoices } from './one-length.js';
import { withoutPromises } from './never-dark.js';
import { overdueFocus } from './overdue-focus.js';
import { partnerRefocus } from './partner-refocus.js';
import { refocusTooOften } from './refocus-too-often.js';
import { refocusTooSeldom } from './refocus-too-seldom.js';
import { roughGuiding } from './rough-guiding.js';
import { settleTime } from './settle-time.js';
import { shortLights } from './short-lights.js';
import { slowReadout } from './slow-readout.js';
import { starGap } from './star-gap.js';
import { subLength } from './sub-length.js';
import { suddenDefocus } from './sudden-defocus.js';
import { unequalExposures } from './unequal-exposures.js';
import { trailedStars } from './trailed-stars.js';
import { unexplainedTime } from './unexplained-time.js';
import { unusedDarkness } from './unused-darkness.js';
import { worseFocus } from './worse-focus.js';

/** Lets modules with different thresholds be in one list. */
function register<T extends Thresholds>(module: FindingModule<T>): FindingModule {
  return { ...module, find: (night, options) => module.find(night, { ...module.defaults, ...options }) };
}

export const FINDINGS: readonly FindingModule[] = [
  register(ditherWait),
  register(unequalExposures),
  register(ditherThrough),
  register(doubledStars),
  register(trailedStars),
  register(ditherOften),
  register(settleTime),
  register(companionStart),
  register(partnerRefocus),
  register(refocusTooOften),
  register(refocusTooSeldom),
  register(overdueFocus),
  register(worseFocus),
  register(suddenDefocus),
  register(largerStars),
  register(filterChangesOften),
  register(filterOffsets),
  register(roughGuiding),
  register(guidingAxis),
  register(guidingAltitude),
  register(guidingBursts),
  register(guidingGusts),
  register(starGap),
  register(abortedExposures),
  register(dimmedAlone),
  register(dimmedTogether),
  register(unusedDarkness),
  register(hold),
  register(lowTarget),
  register(moonCost),
  register(moonNear),
  register(marginalFrames),
  register(subLength),
  register(meridianFlip),
  register(centring),
  register(slowReadout),
  register(unexplainedTime),
  register(cooling),
  register(flexure),
  register(fieldRotation),
  register(pairOffset),
  register(pairRotation),
  register(ditherSpread),
  register(ditherRepeats),
  register(calibration),
  register(shortLights),
  register(missingFiles),
  register(clockOffset),
];

/**
 * Runs every finding on the night. Ranked by recoverable time, each minute of a train counted once; findings without
 * their input are listed as not assessed.
 */
export function findAll(night: NightFacts): NightFindings {
  const drafts: (FindingDraft & { id: string })[] = [];
  const notAssessed: NotAssessed[] = [];
  for (const module of FINDINGS) {
    const missing = new Set(module.needs.filter((need) => !NEEDS[need].has(night)).map((need) => NEEDS[need].missing));
    if (missing.size > 0) notAssessed.push({ id: module.id, title: module.title, missing: [...missing].join(', ') });
    else drafts.push(...module.find(night, module.defaults).map((draft) => ({ id: module.id, ...draft })));
  }
  return { ranked: asChoices(countOnce(withoutPromises(drafts, night))), notAssessed };
}

/** Requirements met by knowing the sky at the site. */
const SKY_NEEDS: readonly Need[] = ['sky', 'target-place', 'worth', 'read-noise'];

/** Titles of the findings that depend on the positions of Sun, Moon and targets at the site, by id. */
export const SKY_FINDINGS: ReadonlyMap<string, string> = new Map(
  FINDINGS.filter(({ needs }) => needs.some((need) => SKY_NEEDS.includes(need))).map(({ id, title }) => [id, title]),
);

export { mostRecoverableFirst } from './count-once.js';
export type { FindingModule } from './finding.js';
export {
  focusSamplesOf,
  measureOffsets,
  type FilterOffset,
  type FilterOffsets,
  type FocusSample,
} from './filter-focus.js';
