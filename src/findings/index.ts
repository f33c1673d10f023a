/** The registry of findings and their ranking by what they cost. One line per finding. */
import type { Finding, Night, NotAssessed } from '../model/index.js';
import { ditherWait } from './dither-wait.js';
import { NEEDS, type FindingModule, type Thresholds } from './finding.js';
import { marginalFrames } from './marginal-frames.js';
import { moonCost } from './moon-cost.js';
import { partnerRefocus } from './partner-refocus.js';
import { subLength } from './sub-length.js';

/** Lets modules with thresholds of their own stand in one list. */
function register<T extends Thresholds>(module: FindingModule<T>): FindingModule {
  return { ...module, find: (night, options) => module.find(night, { ...module.defaults, ...options }) };
}

export const FINDINGS: readonly FindingModule[] = [
  register(ditherWait), register(partnerRefocus),
  register(moonCost), register(marginalFrames), register(subLength),
];

/** Asks every finding of the night; ranked by minutes that could be won, dearest first. */
export function findAll(night: Night): { findings: Finding[]; notAssessed: NotAssessed[] } {
  const findings: Finding[] = [];
  const notAssessed: NotAssessed[] = [];
  for (const module of FINDINGS) {
    const missing = module.needs.filter((need) => !NEEDS[need].has(night)).map((need) => NEEDS[need].missing);
    if (missing.length > 0) notAssessed.push({ id: module.id, title: module.title, missing: missing.join(', ') });
    else findings.push(...module.find(night, module.defaults).map((f) => ({ id: module.id, ...f })));
  }
  return { findings: findings.sort((a, b) => (b.winMs ?? b.costMs) - (a.winMs ?? a.costMs)), notAssessed };
}

export { CAUTION, type FindingModule } from './finding.js';
