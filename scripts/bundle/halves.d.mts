import type { PoolRunnerInitializer } from 'vitest/node';

export class Halves {
  shareOut(files: readonly string[]): void;
  take(half: 0 | 1): string | undefined;
}

export const inHalves: PoolRunnerInitializer;
