/** `nightledger init SESSION`: a commented rig file from the frames only. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { makeFolder } from '../files/make-folder.js';
import type { Command } from 'commander';
import { sessionFolder } from './folders.js';
import type { Context } from './context.js';
import { untrustedOption } from './untrusted.js';
import { writeNewFile } from '../files/write-new.js';
import { userDialectFolder, userRigFolder } from './user-folder.js';

interface InitOptions {
  readonly print?: boolean;
  readonly save?: string;
  readonly untrusted?: boolean;
  readonly quiet?: boolean;
}

const EXAMPLES = `
Examples:
  nightledger init ~/nights/2026-10-14            writes ~/nights/2026-10-14/rig.yaml to edit
  nightledger init ~/nights/2026-10-14 --print    shows it and writes nothing
`;

/** Adds the command. */
export function addInit(program: Command, context: Context): void {
  program
    .command('init')
    .description('Examine the frames of a session folder and write a commented rig file (rig.yaml) to edit.')
    .argument('<session>', 'folder with frames')
    .option('--print', 'print the rig file instead of writing it')
    .option('--save <name>', 'save it as one of your own rigs instead, for every session whose trains match')
    .addOption(untrustedOption())
    .option('-q, --quiet', 'print only errors')
    .addHelpText('after', EXAMPLES)
    .action(async (session: string, options: InitOptions) => {
      const messages = context.messages(options);
      const root = sessionFolder(session);
      const { starterRig, RIG_FILES } = await import('../pipeline.js');
      const existing = RIG_FILES.map((name) => join(root, name)).find((path) => existsSync(path));
      if (existing !== undefined && !options.print && options.save === undefined) {
        throw new Error(`${existing} already exists and was left unchanged; --print shows what init would write`);
      }
      const starter = await starterRig(root, {
        dialectFolder: userDialectFolder(context.env),
        untrusted: options.untrusted,
        nowMs: context.nowMs,
        onProgress: (done, total) => messages.progress('reading headers', done, total),
      });
      messages.warnings(starter.warnings);
      if (options.print) {
        context.answer(starter.yaml);
        return;
      }
      const path = options.save === undefined ? join(root, 'rig.yaml') : userRigPath(options.save, context.env);
      // Fails rather than overwrite, even if the file appears in this very moment.
      writeNewFile(path, starter.yaml);
      messages.say(path);
      for (const line of starter.summary) messages.note(line);
    });
}

/** Where `--save NAME` stores a rig: a single plain word, so that it cannot lead out of the folder. */
function userRigPath(name: string, env: Context['env']): string {
  const folder = userRigFolder(env);
  if (folder === undefined) throw new Error('no folder for your rigs: set XDG_CONFIG_HOME, APPDATA or HOME');
  if (!/^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u.test(name))
    throw new Error(`--save ${name}: name the rig by one word of letters, digits, - or _`);
  makeFolder(folder);
  return join(folder, `${name}.yaml`);
}
