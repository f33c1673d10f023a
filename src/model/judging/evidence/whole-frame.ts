import type { CauseKind } from '../../../vocabulary/index.js';
import type { Frame } from '../../frame.js';
import { durationMs } from '../../interval.js';
import type { Cause } from '../../verdict.js';

/**
 * What harmed the whole of an exposure, as it was measured.
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
