import { IANAZone } from 'luxon';

const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
/** Zones change their offset on whole quarter hours, so one look-up per quarter is enough. */
const GRID_MS = HOUR_MS / 4;

/** The possible instants of a wall clock reading. */
export interface WallInstants {
  /** The only one, or the first of two; for a skipped reading, the instant as if the clock had not been set forward. */
  readonly firstMs: number;
  /** The second, if the clock is set back and shows the reading twice; else the same as the first. */
  readonly secondMs: number;
  /** The clock never shows this reading: it is set forward past it. */
  readonly skipped: boolean;
}

/** Converts wall clock readings of one zone to instants. */
export interface Zone {
  readonly name: string;
  /** Whether some readings have two instants or none. */
  readonly changes: boolean;
  /** @param wallMs the reading as if it were UTC, ms */
  instants(wallMs: number): WallInstants;
}

/** A zone of constant offset. @param minutes east of Greenwich */
export function fixedZone(name: string, minutes: number): Zone {
  return {
    name,
    changes: false,
    instants: (wallMs) => {
      const atMs = wallMs - minutes * 60_000;
      return { firstMs: atMs, secondMs: atMs, skipped: false };
    },
  };
}

/** A zone by name: `utc`, `±hh:mm`, or one of the IANA database; `null` when there is no such zone. */
export function zoneByName(name: string): Zone | null {
  if (/^(?:utc|gmt|z)$/i.test(name)) return fixedZone('UTC', 0);
  const fixed = /^(?:UTC|GMT)?([+-])(\d{1,2})(?::?(\d{2}))?$/i.exec(name);
  if (fixed !== null) {
    const minutes = Number(fixed[2]) * 60 + Number(fixed[3] ?? 0);
    return minutes <= 18 * 60 ? fixedZone(name, fixed[1] === '-' ? -minutes : minutes) : null;
  }
  const zone = IANAZone.create(name);
  return zone.isValid ? new NamedZone(name, zone) : null;
}

class NamedZone implements Zone {
  readonly changes = true;
  private readonly offsets = new Map<number, number>();
  /** The quarter hour of the last reading, if its offset is unambiguous, and that offset, ms. */
  private lastCell = NaN;
  private lastOffset = NaN;

  constructor(
    readonly name: string,
    private readonly zone: IANAZone,
  ) {}

  instants(wallMs: number): WallInstants {
    // A day is a whole number of quarter hours: readings of one quarter look up the same offsets.
    const cell = Math.floor(wallMs / GRID_MS);
    if (cell === this.lastCell) {
      const atMs = wallMs - this.lastOffset;
      return { firstMs: atMs, secondMs: atMs, skipped: false };
    }
    // Offsets are less than a day, so these are the offsets before and after any change near the reading.
    const before = this.offsetMs(wallMs - DAY_MS);
    const after = this.offsetMs(wallMs + DAY_MS);
    const early = wallMs - Math.max(before, after);
    const late = wallMs - Math.min(before, after);
    if (early === late) {
      this.lastCell = cell;
      this.lastOffset = before;
      return { firstMs: early, secondMs: early, skipped: false };
    }
    const earlyStands = this.offsetMs(early) === wallMs - early;
    const lateStands = this.offsetMs(late) === wallMs - late;
    if (earlyStands && lateStands) return { firstMs: early, secondMs: late, skipped: false };
    if (earlyStands || lateStands) {
      const only = earlyStands ? early : late;
      return { firstMs: only, secondMs: only, skipped: false };
    }
    return { firstMs: wallMs - before, secondMs: wallMs - before, skipped: true };
  }

  private offsetMs(atMs: number): number {
    const cell = Math.floor(atMs / GRID_MS);
    let offset = this.offsets.get(cell);
    if (offset === undefined) {
      offset = this.zone.offset(cell * GRID_MS) * 60_000;
      if (this.offsets.size > 100_000) this.offsets.clear();
      this.offsets.set(cell, Number.isNaN(offset) ? 0 : offset);
    }
    return offset;
  }
}

/** How far the clocks of a zone are ahead of UTC when they show an instant's time of day, ms; 0 for an unknown zone. */
export function aheadOfUtcMs(name: string, atMs: number): number {
  // Read as a wall clock's, the instant is off by the offset.
  return atMs - (zoneByName(name)?.instants(atMs).firstMs ?? atMs);
}

/** An offset from UTC as a zone's name, `+02:00`. */
export function offsetName(ms: number): string {
  const minutes = Math.round(Math.abs(ms) / 60_000);
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${ms < 0 ? '-' : '+'}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}
