// Writes a simulated night to a folder: `frames` frames in all, logs padded to `lines` lines.
import { withModule } from '../../scripts/load-ts.mjs';

export async function makeNight(folder, { seconds, hours, lines, ditherEvery }) {
  return withModule('/tests/support/generator/bench-night.ts', ({ writeBenchNight }) =>
    writeBenchNight(folder, { seconds, hours, lines, ditherEvery }),
  );
}
