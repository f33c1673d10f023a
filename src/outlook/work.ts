/** The hours a target still lacks, reduced night by night. */

import type { Moonlight } from './moonlight.js';

/** Something a goal lacks: hours in a filter, and the train that must do it (`null`: any). */
export interface Task {
  readonly train: string | null;
  /** Under which Moon it can be taken. */
  readonly bearsMoon: Moonlight;
  readonly hours: number;
}

/** What one train keeps of an hour of darkness. */
export interface TrainRate {
  readonly train: string;
  readonly rate: number;
}

/** Dark hours of a night, with the Moon down, and with the Moon up and far. */
export interface DarkHours {
  readonly moonless: number;
  readonly farMoon: number;
  /** With the Moon up and far enough for deep red lines: no less than `farMoon`. */
  readonly deepRedMoon: number;
}

/** The least tolerant first. */
const RANK: Readonly<Record<Moonlight, number>> = { none: 0, far: 1, 'deep-red': 2 };

/**
 * The remainder of a target's tasks. Broadband gets the moonless hours first; the rest of the night is for what
 * tolerates the Moon.
 */
export class Work {
  /** How many of them lack something: requested after every night of a thousand simulations. */
  private open: number;
  private readonly left: { readonly train: string | null; readonly bearsMoon: Moonlight; hours: number }[];

  constructor(tasks: readonly Task[]) {
    // What only one train can do goes before what any can, broadband before narrowband.
    this.left = tasks
      .map(({ train, bearsMoon, hours }) => ({ train, bearsMoon, hours }))
      .sort((a, b) => RANK[a.bearsMoon] - RANK[b.bearsMoon] || Number(a.train === null) - Number(b.train === null));
    this.open = this.left.filter(({ hours }) => !(hours <= 0)).length;
  }

  get hoursLeft(): number {
    return this.left.reduce((sum, { hours }) => sum + hours, 0);
  }

  get isDone(): boolean {
    return this.open === 0;
  }

  /**
   * Spends a night at the rates of a past one: each train keeps the same fraction of every dark hour.
   *
   * @returns whether anything was added
   */
  spend(night: DarkHours, rates: readonly TrainRate[]): boolean {
    let hasGained = false;
    for (const { train, rate } of rates) {
      let moonless = rate * night.moonless;
      let far = rate * night.farMoon;
      let nearer = rate * Math.max(0, night.deepRedMoon - night.farMoon);
      for (const task of this.left) {
        if (task.hours <= 0 || (task.train !== null && task.train !== train)) continue;
        const dark = Math.min(task.hours, moonless);
        // Deep red lines leave the hours far from the Moon to those that need them.
        const close = task.bearsMoon === 'deep-red' ? Math.min(task.hours - dark, nearer) : 0;
        const lit = task.bearsMoon === 'none' ? 0 : Math.min(task.hours - dark - close, far);
        if (dark + close + lit <= 0) continue;
        moonless -= dark;
        nearer -= close;
        far -= lit;
        task.hours -= dark + close + lit;
        if (task.hours <= 0) this.open--;
        hasGained = true;
      }
    }
    return hasGained;
  }
}
