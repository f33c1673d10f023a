import type { CauseKind } from '../../../vocabulary/index.js';
import type { Frame } from '../../frame.js';
import { durationMs } from '../../interval.js';
import type { Cause } from '../../verdict.js';

/**
 * Causes measured over the whole exposure.
 *
 * @param evidence one sentence with the figures
 */
export function wholeFrame(
  kind: CauseKind,
  { exposure, sources }: Frame,
  verdict: Cause['verdict'],
  evidence: string,
): Omit<Cause, 'by'> {
  return {
    kind,
    verdict,
    span: exposure,
    overlapMs: durationMs(exposure),
    evidence,
    certainty: 'measured',
    sources,
  };
}
