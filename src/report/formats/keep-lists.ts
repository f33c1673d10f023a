/** Plain lists of file names, one for each target, filter, train and verdict: for stacking by hand. */
import { distinctNames, safeName } from '../../files/safe-name.js';
import { groupByAll, itemAt, atKey, VERDICT_KINDS, type JudgedFrame, type Night } from '../../model/index.js';

/** One list. */
export interface KeepList {
  /** Relative to the report's folder: `frames/NGC-281_Ha_heron.kept.txt`. */
  readonly path: string;
  readonly text: string;
}

export interface KeepLists {
  readonly lists: readonly KeepList[];
  /** Files whose names contain line breaks: they cannot be listed. */
  readonly unlisted: number;
}

type WrittenFrame = JudgedFrame & { readonly file: string };

/** Whether a line can hold the name. */
const isOneLine = (file: string): boolean => !/[\r\n\u0085\u2028\u2029]/.test(file);

/**
 * The lists of a night, all three for every group, even if empty: a script need not check which exist. Exposures
 * without a file are in none of them.
 */
export function keepLists({ accounts: { lights } }: Pick<Night, 'accounts'>): KeepLists {
  const files = lights.filter((light): light is WrittenFrame => light.file !== undefined);
  const groups = new Map(
    groupByAll(files, ({ target = '', filter = '', train }) => [target, filter, train]).map((group) => {
      const { target = '', filter = '', train } = itemAt(group, 0);
      return [JSON.stringify([target, filter, train]), { target, filter, train, group }] as const;
    }),
  );
  const names = distinctNames(groups.keys(), (key) => {
    const { target, filter, train } = atKey(groups, key);
    return [safeName(target, 'no-target'), safeName(filter, 'no-filter'), safeName(train, 'train')].join('_');
  });
  return {
    lists: [...groups].flatMap(([key, { group }]) =>
      VERDICT_KINDS.map((verdict) => ({
        path: `frames/${atKey(names, key)}.${verdict}.txt`,
        text: group
          .filter((light) => light.verdict === verdict && isOneLine(light.file))
          .map(({ file }) => `${file}\n`)
          .join(''),
      })),
    ),
    unlisted: files.filter(({ file }) => !isOneLine(file)).length,
  };
}
