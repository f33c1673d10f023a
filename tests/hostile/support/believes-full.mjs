// Loaded beside the program where no small disk can be mounted: while FULL_DISK names a folder, every write below it
// fails as on a full disk.
import fs from 'node:fs';
import { syncBuiltinESMExports } from 'node:module';
import { resolve, sep } from 'node:path';

function refuse(path) {
  const disk = process.env.FULL_DISK;
  if (disk === undefined || typeof path !== 'string' || !`${resolve(path)}${sep}`.startsWith(`${disk}${sep}`)) return;
  throw Object.assign(new Error(`ENOSPC: no space left on device, write '${path}'`), {
    errno: -28,
    code: 'ENOSPC',
    syscall: 'write',
    path,
  });
}

// As on a full disk, the file is there, and empty.
const { writeFileSync } = fs;
fs.writeFileSync = (path, content, options) => {
  if (String(content).length > 0) {
    try {
      refuse(path);
    } catch (error) {
      writeFileSync(path, '', options);
      throw error;
    }
  }
  return writeFileSync(path, content, options);
};
const { writeFile, copyFile } = fs.promises;
fs.promises.writeFile = async (path, content, options) => {
  try {
    refuse(path);
  } catch (error) {
    await writeFile(path, '', options);
    throw error;
  }
  return writeFile(path, content, options);
};
fs.promises.copyFile = async (from, to, mode) => {
  refuse(to);
  return copyFile(from, to, mode);
};
syncBuiltinESMExports();
