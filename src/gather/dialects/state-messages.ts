import type { Pattern } from './pattern/pattern.js';

/** Maximum number of devices; a log has fewer. */
const KEPT = 1000;
/** Placeholder for a device's state before its first. */
const NOTHING = '·';

/** The rewritten form of a message about a device's new state. */
export function asChange(device: string, was: string | undefined, now: string): string {
  return `${device}  ${was ?? NOTHING} → ${now}`;
}

/**
 * Messages that each name a device and its new state: `camera: idle`. Each is rewritten to include the device's
 * previous state.
 */
export class StateMessages {
  private readonly last = new Map<string, string>();

  constructor(private readonly when: Pattern) {}

  /** The message as a state change; unchanged if it names no state, or the current one. */
  take(text: string): string {
    const { when } = this;
    const found = when.exec(text);
    const device = found?.[when.groups.get('device') ?? 0]?.trim();
    const now = found?.[when.groups.get('state') ?? 0]?.trim();
    if (device === undefined || now === undefined || now === '') return text;
    const was = this.last.get(device);
    if (was === now) return text;
    if (this.last.size >= KEPT) this.last.clear();
    this.last.set(device, now);
    return asChange(device, was, now);
  }
}
