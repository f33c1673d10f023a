// Writes sample-sessions/ anew from the seeded generator in tests/support/generator.
import { root, withModule } from './load-ts.mjs';

await withModule('/tests/support/generator/samples.ts', ({ writeSamples }) => {
  for (const folder of writeSamples(`${root}/sample-sessions`)) process.stdout.write(`${folder}\n`);
});
await withModule('/tests/support/generator/autumn-archive.ts', async ({ writeAutumnArchive }) => {
  process.stdout.write(`${await writeAutumnArchive(`${root}/sample-sessions`)}\n`);
});
