/** Plain lists of file names, one for each target, filter, train and verdict: for stacking by hand. */
import { distinctNames, safeName } from '../../files/safe-name.js';
import { groupBy, itemAt, atKey, VERDICT_KINDS, type JudgedFrame, type Night } from '../../model/index.js';

/** One list. */
export interface KeepList {
  /** Relative to the report's folder: `frames/NGC-281_Ha_heron.kept.txt`. */
  readonly path: string;
  readonly text: string;
}

export interface KeepLists {
  readonly lists: readonly KeepList[];
  /** Files whose names hold line breaks: no list of lines can name them. */
  readonly unlisted: number;
}

/** Whether a line can hold the name. */
const isOneLine = (file: string): boolean => !/[\r\n\u0085\u2028\u2029]/.test(file);

const groupKey = ({ target = '', filter = '', train }: JudgedFrame): string => JSON.stringify([target, filter, train]);

/**
 * The lists of a night, in every group all three, empty ones too: a script need not ask which are there. Exposures
 * without a file stand in none of them.
 */
export function keepLists({ accounts: { lights } }: Pick<Night, 'accounts'>): KeepLists {
  const files = lights.flatMap((light) => (light.file === undefined ? [] : [{ light, file: light.file }]));
  const groups = groupBy(files, ({ light }) => groupKey(light));
  const firsts = new Map([...groups].map(([key, group]) => [key, itemAt(group, 0).light] as const));
  const names = distinctNames(firsts.keys(), (key) => {
    const { target = '', filter = '', train } = atKey(firsts, key);
    return [safeName(target, 'no-target'), safeName(filter, 'no-filter'), safeName(train, 'train')].join('_');
  });
  return {
    lists: [...groups].flatMap(([key, group]) =>
      VERDICT_KINDS.map((verdict) => ({
        path: `frames/${atKey(names, key)}.${verdict}.txt`,
        text: group
          .filter(({ light, file }) => light.verdict === verdict && isOneLine(file))
          .map(({ file }) => `${file}\n`)
          .join(''),
      })),
    ),
    unlisted: files.filter(({ file }) => !isOneLine(file)).length,
  };
}
