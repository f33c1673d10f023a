import type { Kind } from './kind.js';

/** `idle > exposing` is a change of state, `guider > settled` a device and what it says. */
const BARE = /^(.*\S)\s>\s(\S.*)$/su;
/** The same of arrows, `wren -> focused`, where most kinds have one behind few names. */
const ARROW = /^(\p{L}[\p{L}\p{N} _-]*?)\s*(?:→|⇒|->|=>|»)\s*(\S.*)$/su;
const MOSTLY = 0.6;
const PER_NAME = 2.5;
/** What stands behind a state says why, or with which values. */
const BEHIND = /\s*(?:[([{（,;#].*|\s[-–—.:].*)$/su;
/** Of the states that are entered, this share is left again on some line. */
const LEFT_AGAIN = 0.3;

/**
 * The kinds of a log that sets what it says off by a bare `>`, or by arrows behind names, with a colon in its place.
 * Where it divides two states most of those that are entered are left on other lines.
 */
export function withoutSeparators(kinds: readonly Kind[]): readonly Kind[] {
  return withColons(withColons(kinds, BARE), areNamed(kinds) ? ARROW : null);
}

/** Whether arrows stand behind the names of a few devices. */
function areNamed(kinds: readonly Kind[]): boolean {
  const names = kinds.flatMap(({ wording }) => ARROW.exec(wording)?.[1] ?? []);
  return names.length >= MOSTLY * kinds.length && names.length >= PER_NAME * new Set(names).size;
}

function withColons(kinds: readonly Kind[], mark: RegExp | null): readonly Kind[] {
  if (mark === null) return kinds;
  const divided = kinds.flatMap(({ wording }) => {
    const [, left, right] = mark.exec(wording) ?? [];
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
  return kinds.map((kind) => ({ ...kind, wording: kind.wording.replace(mark, '$1 : $2') }));
}
