/** Logs in a session without a rig file: they are not read, which is said. */
import { counted, type Warning } from '../model/index.js';
import { statesTimes } from './no-logs.js';
import { ownFormatLogs } from './own-format.js';
import { isLogName, type SessionFile } from './session-files.js';

/** No more files than this are looked into. */
const MOST_LOOKED_AT = 200;

/** One warning for logs that no rig file gives to a train: of our own formats, and texts that state times. */
export function unreadLogs(root: string, files: readonly SessionFile[]): Warning[] {
  const named = files.filter(({ path }) => isLogName(path)).slice(0, MOST_LOOKED_AT);
  const own = new Set(ownFormatLogs(root, named));
  const logs = named.flatMap((file) => (own.has(file.path) || statesTimes(root, file) ? [file.path] : []));
  const [first] = logs;
  if (first === undefined) return [];
  const more = logs.length > 1 ? `, ${logs.length === 2 ? logs[1] : '…'}` : '';
  return [
    {
      code: 'logs-unread',
      message:
        `${counted(logs.length, 'log')} (${first}${more}) ${logs.length === 1 ? 'was' : 'were'} found and not read: ` +
        'without a rig file this report is made from the headers alone. `nightledger init` writes one that names ' +
        (logs.length === 1 ? 'it' : 'them') +
        (own.size === logs.length ? '' : ', with the commands that describe logs of other programs'),
      source: { file: first },
      count: logs.length,
    },
  ];
}
