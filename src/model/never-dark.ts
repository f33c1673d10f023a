import type { AccountedNight } from './night.js';

/** Whether all that was taken was taken in twilight, because it grew no darker on this night. */
export function isNeverDark({ accounts: { lights }, sky }: Pick<AccountedNight, 'accounts' | 'sky'>): boolean {
  const window = sky.almanac?.window;
  return (
    window !== undefined &&
    window.kind !== window.asked &&
    lights.length > 0 &&
    lights.every(({ causes }) => causes.some(({ kind }) => kind === 'twilight'))
  );
}
