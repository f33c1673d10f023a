import type { LogRead } from '../lines/log-read.js';
import type { CompiledDialect } from './compiled.js';
import { isNearNight } from './time/near-night.js';

/** The dialect with its dates in the order that the night decides. */
export interface Ordered {
  readonly dialect: CompiledDialect;
  /** Nothing decides: its times are no more than one of two readings. */
  readonly isOpen: boolean;
}

/**
 * Of a dialect whose day and month may be the other way round, the order in which the beginning of the log falls on
 * the night.
 *
 * @param evening its local date, `YYYY-MM-DD`
 * @param read reads the beginning of the log by a dialect
 */
export async function orderByNight(
  dialect: CompiledDialect,
  evening: string | undefined,
  read: (dialect: CompiledDialect) => Promise<LogRead>,
): Promise<Ordered> {
  const { other } = dialect;
  if (other === null) return { dialect, isOpen: false };
  const eveningMs = Date.parse(`${evening ?? ''}T12:00:00Z`);
  if (Number.isNaN(eveningMs)) return { dialect, isOpen: true };
  const [own, turned] = [await read(dialect), await read(other)].map((log) => isNear(log, eveningMs));
  return { dialect: turned === true && own === false ? other : dialect, isOpen: own === turned };
}

function isNear({ events, guiding }: LogRead, eveningMs: number): boolean {
  const firstMs = events[0]?.atMs ?? guiding?.atMs[0] ?? NaN;
  return isNearNight(firstMs, eveningMs);
}
