/** What the head of a log and the name of its file state about its times. */
export interface StatedTimes {
  /** Some line states the base of elapsed times; without one, no counter is accepted as a time. */
  readonly hasBase: boolean;
  /** Unambiguous dates, UTC midnights in ms. */
  readonly stated: readonly number[];
  /** The lines themselves: they may state a distant instant that counts are relative to. */
  readonly heads?: readonly string[];
}
