/** A train has one sub length: two findings that advise different ones are presented as alternatives. */
import type { Finding } from '../model/index.js';

/** `300 s on wren`. */
const LENGTH = /^(\d+(?:\.\d+)? s) on (.+)$/;

/** Notes on a length that an earlier finding advises another one; the earlier, with the larger gain, is unchanged. */
export function asChoices(ranked: readonly Finding[]): Finding[] {
  const known: { readonly train: string; readonly length: string; readonly title: string }[] = [];
  return ranked.map((finding) => {
    const own = (finding.newDarks ?? []).flatMap((darks) => {
      const [, length, train] = LENGTH.exec(darks) ?? [];
      return length === undefined || train === undefined ? [] : [{ train, length, title: finding.title }];
    });
    const other = known.find((one) => own.some(({ train, length }) => one.train === train && one.length !== length));
    known.push(...own);
    return other === undefined
      ? finding
      : {
          ...finding,
          advice:
            `${finding.advice} Choose between this and ${other.length} on ${other.train}, as under “${other.title}”: ` +
            'only one of them can be followed.',
        };
  });
}
