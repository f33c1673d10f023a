import type { Kind } from './kind.js';

/** `idle > exposing` is a change of state, `guider > settled` a device and what it says. */
const BARE = /^(.*\S)\s>\s(\S.*)$/su;
/** What stands behind a state says why, or with which values. */
const BEHIND = /\s*(?:[([{（,;#].*|\s[-–—.:].*)$/su;
/** Of the states that are entered, this share is left again on some line. */
const LEFT_AGAIN = 0.3;

/**
 * The kinds of a log that sets what it says off by a bare `>`, with a colon in its place. Where it divides two states
 * most of those that are entered are left on other lines.
 */
export function withoutSeparators(kinds: readonly Kind[]): readonly Kind[] {
  const divided = kinds.flatMap(({ wording }) => {
    const [, left, right] = BARE.exec(wording) ?? [];
    return left === undefined || right === undefined ? [] : [{ left, right: right.replace(BEHIND, '') }];
  });
  const isLeft = (state: string): boolean => divided.some(({ left }) => left === state || left.endsWith(` ${state}`));
  const states = new Set(divided.map(({ right }) => right));
  const leftAgain = [...states].filter(isLeft).length;
  // `guider > settling`, then `guider < settling`: it marks what is entered and left.
  const turned = divided.filter(({ left, right }) =>
    kinds.some(({ wording }) => wording.startsWith(`${left} < ${right.split(/\s/)[0] ?? right}`)),
  ).length;
  if (turned >= LEFT_AGAIN * divided.length) return kinds;
  if (states.size === 0 || leftAgain >= LEFT_AGAIN * states.size) return kinds;
  return kinds.map((kind) => ({ ...kind, wording: kind.wording.replace(/\s>\s/, ' : ') }));
}
