import type { AccountedNight } from './night.js';

/** Whether everything was imaged in twilight, because this night became no darker. */
export function isNeverDark({ accounts: { lights }, sky }: Pick<AccountedNight, 'accounts' | 'sky'>): boolean {
  const window = sky.almanac?.window;
  return (
    window !== undefined &&
    window.kind !== window.asked &&
    lights.length > 0 &&
    lights.every(({ causes }) => causes.some(({ kind }) => kind === 'twilight'))
  );
}
