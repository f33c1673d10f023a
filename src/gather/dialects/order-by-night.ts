import type { LogRead } from '../lines/log-read.js';
import type { CompiledDialect } from './compiled.js';
import { isNearNight } from './time/near-night.js';

/** The dialect with its date order as determined by the night. */
export interface Ordered {
  readonly dialect: CompiledDialect;
  /** Undetermined: its times are only one of two readings. */
  readonly isOpen: boolean;
}

/**
 * For a dialect with ambiguous day and month, the order in which the beginning of the log falls on the night.
 *
 * @param evening its local date, `YYYY-MM-DD`
 * @param read reads the beginning of the log with a dialect
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
