import type { PoolRunnerInitializer } from 'vitest/node';

export const SHARES: number;

export class Shares {
  readonly count: number;
  shareOut(files: readonly string[]): void;
  take(share: number, run: (file: string) => void): void;
}

export const inShares: PoolRunnerInitializer;
