// The latest change under a folder, ms since the epoch.
import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

export function newest(folder) {
  let latest = 0;
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    latest = Math.max(latest, entry.isDirectory() ? newest(path) : statSync(path).mtimeMs);
  }
  return latest;
}
