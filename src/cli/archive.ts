/**
 * `nightledger archive add FOLDER… --archive DIR`
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { itemAt } from '../model/index.js';
import type { Context } from './context.js';
import { untrustedOption } from './untrusted.js';
import { safeOutputFolder, sessionFolder } from './folders.js';
import { readRig } from './read-rig.js';

interface AddOptions {
  readonly archive: string;
  readonly rig?: string;
  readonly untrusted?: boolean;
  readonly quiet?: boolean;
}

/** What became of a record, in words. */
export const ADDED = {
  new: 'a new night',
  replaced: 'this session again, in place of its older record',
  merged: 'another session of a night that is there already; frames in both count once',
  unchanged: 'as it was',
} as const;

const EXAMPLES = `
Examples:
  nightledger archive add /disk/2024 /disk/2025 --archive ~/archive     past nights from their frames' headers alone
  nightledger archive add /disk --archive ~/archive --rig rig.yaml      with trains, site and targets of this rig file
Run it again when there are new frames: only those are read. Nights with logs are better added by
  nightledger report SESSION --out DIR --archive ~/archive
`;

/** Adds the command. */
export function addArchive(program: Command, context: Context): void {
  const archive = program
    .command('archive')
    .description('Keep an archive of many nights, for nightledger progress and plan.');
  archive
    .command('add')
    .description('Read the headers of all FITS files in folders, and add their nights to the archive.')
    .argument('<folders...>', 'folders with frames of past nights, in any layout')
    .requiredOption('--archive <folder>', 'the archive to add to; made when missing')
    .option('--rig <file>', 'take trains, site and targets from this rig file instead of the headers')
    .addOption(untrustedOption())
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (folders: string[], options: AddOptions) => {
      const messages = context.messages(options);
      const roots = folders.map(sessionFolder);
      const home = roots.reduce((path, root) => safeOutputFolder(path, root, '--archive'), options.archive);
      const { addFolders } = await import('../archive.js');
      const { RIG_FILES } = await import('../pipeline.js');
      const imported = await addFolders(home, roots, {
        nowMs: context.nowMs,
        version: context.version,
        untrusted: options.untrusted,
        rig: options.rig === undefined ? undefined : readRig(options.rig),
        onProgress: (what, done, total) =>
          messages.progress(what === 'headers' ? 'reading headers' : 'adding nights', done, total),
      });
      imported.forEach((result, i) => {
        messages.warnings(result.warnings);
        const folder = itemAt(folders, i);
        const own = RIG_FILES.find((name) => existsSync(join(itemAt(roots, i), name)));
        if (own !== undefined && options.rig === undefined)
          messages.note(
            `${folder} has a ${own}, but only headers are read here: --rig ${join(folder, own)} takes trains, site ` +
              `and targets from it; to use its logs, run nightledger report ${folder} --out DIR --archive ` +
              `${options.archive}`,
          );
        const added = (state: keyof typeof ADDED): number => result.nights.filter((n) => n.state === state).length;
        const moved = result.moved > 0 ? `, ${result.moved} of them moved or renamed` : '';
        const copies = result.copies > 0 ? `, ${result.copies} copies` : '';
        messages.tell(
          `${folder}: ${result.files} FITS files${copies}; ${result.read} headers ` +
            `read${moved}; nights: ${added('new')} new, ${added('merged')} merged, ` +
            `${added('replaced')} changed`,
        );
      });
      if (imported.every((result) => result.files === 0))
        throw new Error('no FITS files (.fits, .fit, .fts, .gz, .fz) in any of these folders');
    });
}
