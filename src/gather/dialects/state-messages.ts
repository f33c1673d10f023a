import type { Pattern } from './pattern/pattern.js';

/** Devices that are kept at one time; a log has fewer. */
const KEPT = 1000;
/** What stands for the state of a device before its first. */
const NOTHING = '·';

/** What a message becomes that says which state a device has come to. */
export function asChange(device: string, was: string | undefined, now: string): string {
  return `${device}  ${was ?? NOTHING} → ${now}`;
}

/**
 * Messages that each name a device and the state that it has come to: `camera: idle`. Each becomes one that says what
 * the device was before as well.
 */
export class StateMessages {
  private readonly last = new Map<string, string>();

  constructor(private readonly when: Pattern) {}

  /** The message as a change of state; as it is where it names none, or the one that holds already. */
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
