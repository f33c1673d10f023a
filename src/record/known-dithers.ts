/** A record's dithers as activities: everything its public keys contain about events between frames. */
import { interval, type Activity } from '../model/index.js';
import type { SessionRecord } from './schema.js';

const ms = (seconds: number): number => Math.round(seconds * 1000);

/** The mount's moves, the settling after them, and each train's wait for them. */
export function activitiesOfDithers({ dithers }: Pick<SessionRecord, 'dithers'>): Activity[] {
  return dithers.flatMap(({ begin, waits, moveSeconds, settleSeconds, inferred }): Activity[] => {
    const beginMs = Date.parse(begin);
    const moveEndMs = beginMs + ms(moveSeconds);
    const outline = { certainty: inferred ? ('inferred' as const) : ('measured' as const), sources: [] };
    return [
      { ...outline, kind: 'dither-move', span: interval(beginMs, moveEndMs) },
      ...(settleSeconds === null
        ? []
        : [{ ...outline, kind: 'settling' as const, span: interval(moveEndMs, moveEndMs + ms(settleSeconds)) }]),
      ...Object.entries(waits).map(
        ([train, wait]): Activity => ({
          ...outline,
          kind: 'dither-ready',
          train,
          span: interval(beginMs - ms(wait), beginMs),
        }),
      ),
    ];
  });
}
