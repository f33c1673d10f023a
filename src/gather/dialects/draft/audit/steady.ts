import { itemAt, median } from '../../../../model/index.js';
import { byRule, type Audit } from './drafted-night.js';

/** Events that happen on demand, never periodically. */
const AT_NEED = /^(?:filter|focus|slew|centre|flip|hold|guiding-rest|star-gap)-/;
const MIN_EVENTS = 12;
const NEAR_S = 1;
/** Periodic status rows come at least this often, s. */
const LONGEST_S = 600;
const MOSTLY = 0.7;

/** Events at a regular interval: they are periodic status rows. */
export const steady: Audit = ({ drafted }) =>
  byRule(drafted).flatMap(({ rule, event, own }) => {
    if (!AT_NEED.test(event) || own.length < MIN_EVENTS) return [];
    const gaps = own.slice(1).map((one, i) => (one.event.atMs - itemAt(own, i).event.atMs) / 1000);
    const usual = median(gaps);
    const near = gaps.filter((gap) => Math.abs(gap - usual) <= NEAR_S).length;
    if (usual <= 0 || usual > LONGEST_S || near < MOSTLY * gaps.length) return [];
    return [{ rule, event, why: `${near + 1} of ${own.length} come every ${Math.round(usual)} s` }];
  });
