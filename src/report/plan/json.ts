import type { Interval, Plan, PlannedBlock } from '../../model/index.js';

/** Version of `plan.json`'s layout. */
export const PLAN_SCHEMA = 'nightledger/plan/1';

/**
 * The plan for other programs: hours and seconds as numbers, instants in UTC, or seconds since darkness when shared.
 */
export function toPlanJson(plan: Plan, { version }: { readonly version: string }) {
  const isShared = plan.zone === null;
  return {
    schema: PLAN_SCHEMA,
    generator: { name: 'nightledger', version },
    from: plan.from,
    site: plan.site,
    zone: plan.zone,
    trains: plan.trains,
    nights: plan.nights.map(({ date, window, moonIllumination, moonUp, blocks, free, lines, shortOfBest }) => {
      const at = (ms: number): string | number =>
        isShared ? (ms - (window?.startMs ?? ms)) / 1000 : new Date(ms).toISOString();
      const span = ({ startMs, endMs }: Interval) => ({ begin: at(startMs), end: at(endMs) });
      return {
        night: date,
        dark: window && span(window),
        moonIllumination,
        moonUp: moonUp.map(span),
        blocks: blocks.map((block) => ({ ...span(block.span), ...blockJson(block, at) })),
        free: free.map(({ span: own, why }) => ({ ...span(own), why })),
        adds: lines.map(({ target, filter, train, addsHours, lacksHours }) => ({
          target,
          filter,
          train,
          addsHours,
          lacksHours,
        })),
        mostBelowBest: shortOfBest,
      };
    }),
    left: plan.left,
    assumptions: plan.assumptions,
  };
}

function blockJson(block: PlannedBlock, at: (ms: number) => string | number) {
  const { target, isNewTarget, altitudeDeg, moonSeparationDeg, transitMs, dither, trains } = block;
  return {
    target,
    isNewTarget,
    altitude: altitudeDeg,
    moonSeparation: moonSeparationDeg,
    transit: transitMs === null ? null : at(transitMs),
    dither: dither && {
      subs: dither.subs,
      everySeconds: dither.everyMs / 1000,
      waitSeconds: Object.fromEntries(Object.entries(dither.waitMs).map(([train, ms]) => [train, ms / 1000])),
    },
    trains: trains.map((train) =>
      train.state === 'rests'
        ? { train: train.train, rests: true, why: train.why }
        : {
            train: train.train,
            rests: false,
            filter: train.filter,
            subSeconds: train.subSeconds,
            isUsualLength: train.isUsualLength,
            subs: train.subs,
            addsHours: train.addsHours,
            beyondHours: train.beyondHours,
            refocus: train.refocusMs.map(at),
          },
    ),
  };
}
