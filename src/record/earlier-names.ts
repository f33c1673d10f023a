/** Keys with other names in earlier programs of the same schema version: they are read under the present name. */
import { isObject, type JsonObject } from '../model/index.js';

/** A session's record with the present names. */
export function withPresentNames(record: JsonObject): JsonObject {
  const { replay } = record;
  if (!isObject(replay)) return record;
  const { asItWas, whatIfs, best } = replay;
  return {
    ...record,
    replay: {
      ...replay,
      asItWas: outcome(asItWas),
      whatIfs: Array.isArray(whatIfs) ? whatIfs.map(whatIf) : whatIfs,
      best: whatIf(best),
    },
  };
}

function whatIf(value: unknown): unknown {
  return isObject(value) ? { ...value, trains: outcome(value.trains) } : value;
}

/** Each train's result of a replayed night: its frames not kept were called `spoilt` until November 2026. */
function outcome(trains: unknown): unknown {
  if (!isObject(trains)) return trains;
  return Object.fromEntries(
    Object.entries(trains).map(([train, tally]) => {
      if (!isObject(tally) || tally.spoilt === undefined || tally.lostOrDoubtful !== undefined) return [train, tally];
      const { spoilt, ...others } = tally;
      return [train, { ...others, lostOrDoubtful: spoilt }];
    }),
  );
}
