import { exposuresIn, type DraftedExposure } from './drafted-exposures.js';
import { byRule, named, type Audit, type DraftedEvent } from './drafted-night.js';

/** What moves the mount, and what needs the shutter of its own train closed. */
const OF_MOUNT = /^(?:dither|slew|centre|flip)-(?:begin|end)$/;
const OF_TRAIN = /^(?:filter|focus)-(?:begin|end)$/;
const MIN_EXPOSURES = 12;
/** Tolerance for whole-second clocks and slow programs, ms. */
const EDGE_MS = 3000;
/** Fewer may be accidents. */
const MIN_EVENTS = 4;
const MOSTLY = 0.7;
/**
 * If this fraction of all movements, of several kinds, happens with shutters open, it is the exposures that are wrong.
 */
const MIN_MOVES = 8;
const ALL_OVER = 0.6;

interface Moves {
  readonly rule: number;
  readonly event: DraftedEvent['event']['event'];
  readonly all: number;
  readonly inside: number;
}

/**
 * Movements of the mount while every train exposes, or of a train's wheel or focuser while that train exposes. One
 * train may well expose while the other dithers; dithering during all exposures would spoil every frame.
 */
export const disturbed: Audit = ({ drafted }) => {
  const exposures = exposuresIn(drafted);
  if (exposures.length < MIN_EXPOSURES) return [];
  const trains = [...new Set(exposures.map(({ train }) => train))];
  const moves = byRule(drafted).flatMap(({ rule, event, own }): Moves[] => {
    const isMount = OF_MOUNT.test(event);
    if (!isMount && !OF_TRAIN.test(event)) return [];
    const counted = own.filter(({ event: { train } }) => isMount || trains.length === 1 || trains.includes(train));
    const inside = counted.filter(({ event: { train, atMs } }) =>
      (isMount || trains.length === 1 ? trains : [train]).every((one) => isExposing(exposures, one, atMs)),
    );
    return counted.length === 0 ? [] : [{ rule, event, all: counted.length, inside: inside.length }];
  });
  const all = moves.reduce((sum, one) => sum + one.all, 0);
  const inside = moves.reduce((sum, one) => sum + one.inside, 0);
  const sorts = new Set(moves.map(({ event }) => sortOf(event)));
  const spoiling = new Set(moves.filter((one) => 2 * one.inside >= one.all).map(({ event }) => sortOf(event)));
  if (all >= MIN_MOVES && inside >= ALL_OVER * all && spoiling.size >= Math.max(2, ALL_OVER * sorts.size))
    return byRule(named(drafted, 'exposure-begin')).flatMap(({ rule }) =>
      (['exposure-begin', 'exposure-end'] as const).map((event) => ({
        rule,
        event,
        why: `${inside} of ${all} movements of mount, wheel and focuser happen while it exposes`,
      })),
    );
  return moves.flatMap((one) =>
    one.all >= MIN_EVENTS && one.inside >= MOSTLY * one.all
      ? [{ rule: one.rule, event: one.event, why: `${one.inside} of ${one.all} come while exposures go on` }]
      : [],
  );
};

const sortOf = (event: string): string => event.replace(/-\w+$/, '');

function isExposing(exposures: readonly DraftedExposure[], train: string | undefined, atMs: number): boolean {
  return exposures.some((one) => one.train === train && one.startMs + EDGE_MS < atMs && atMs < one.endMs - EDGE_MS);
}
