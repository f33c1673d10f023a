import { CAUSES, isDaylight, type CauseKind, type JudgedFrame } from '../../model/index.js';

/** What harmed a frame, in a few words. Far above twilight it is daylight, and its time or place is wrong. */
export function causeLabel(kind: CauseKind, { sky }: Pick<JudgedFrame, 'sky'>): string {
  return kind === 'twilight' && sky !== null && isDaylight(sky) ? 'daylight' : CAUSES[kind].label;
}
