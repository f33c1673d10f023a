/**
 * The hours a target still lacks, worked off night by night.
 */

/** Something a goal lacks: hours in a filter's band, and the train that must do it (`null`: any). */
export interface Task {
  readonly train: string | null;
  /** Whether it can be taken under a far Moon. */
  readonly bearsMoon: boolean;
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
}

/**
 * What is left of a target's tasks. Broadband has the moonless hours first; the rest of the night is for what bears the
 * Moon.
 */
export class Work {
  private readonly left: { readonly train: string | null; readonly bearsMoon: boolean; hours: number }[];

  constructor(tasks: readonly Task[]) {
    // What only one train can do goes before what any can, broadband before narrowband.
    this.left = tasks
      .map(({ train, bearsMoon, hours }) => ({ train, bearsMoon, hours }))
      .sort((a, b) => Number(a.bearsMoon) - Number(b.bearsMoon) || Number(a.train === null) - Number(b.train === null));
  }

  get hoursLeft(): number {
    return this.left.reduce((sum, { hours }) => sum + hours, 0);
  }

  get isDone(): boolean {
    return this.left.every(({ hours }) => hours <= 0);
  }

  /**
   * Spends a night at the rates of a past one: each train keeps as much of every dark hour as it did then.
   *
   * @returns whether anything was added
   */
  spend(night: DarkHours, rates: readonly TrainRate[]): boolean {
    let hasGained = false;
    for (const { train, rate } of rates) {
      let moonless = rate * night.moonless;
      let moonlit = rate * night.farMoon;
      for (const task of this.left) {
        if (task.hours <= 0 || (task.train !== null && task.train !== train)) continue;
        const dark = Math.min(task.hours, moonless);
        const lit = task.bearsMoon ? Math.min(task.hours - dark, moonlit) : 0;
        if (dark + lit <= 0) continue;
        moonless -= dark;
        moonlit -= lit;
        task.hours -= dark + lit;
        hasGained = true;
      }
    }
    return hasGained;
  }
}
