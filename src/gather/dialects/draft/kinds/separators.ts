import type { Kind } from './kind.js';

/** `idle > exposing` is a state change, `guider > settled` a device and its message. */
const BARE = /^(.*\S)\s>\s(\S.*)$/su;
/** The same for arrows, `wren -> focused`, if most kinds have one after few names. */
const ARROW = /^(\p{L}[\p{L}\p{N} _-]*?)\s*(?:→|⇒|->|=>|»)\s*(\S.*)$/su;
const MOSTLY = 0.6;
const PER_NAME = 2.5;
/** The text after a state gives a reason or values. */
const BEHIND = /\s*(?:[([{（,;#].*|\s[-–—.:].*)$/su;
/** Minimum fraction of entered states that are left again on some line. */
const LEFT_AGAIN = 0.3;

/**
 * The kinds of a log that separates source and message with a bare `>`, or with arrows after names, replaced with a
 * colon. If it separates two states, most entered states are left on other lines.
 */
export function withoutSeparators(kinds: readonly Kind[]): readonly Kind[] {
  return withColons(withColons(kinds, BARE), areNamed(kinds) ? ARROW : null);
}

/** Whether arrows follow the names of a few devices. */
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
  // `guider > settling`, then `guider < settling`: marks for entering and leaving.
  const turned = divided.filter(({ left, right }) =>
    kinds.some(({ wording }) => wording.startsWith(`${left} < ${right.split(/\s/)[0] ?? right}`)),
  ).length;
  if (turned >= LEFT_AGAIN * divided.length) return kinds;
  if (states.size === 0 || leftAgain >= LEFT_AGAIN * states.size) return kinds;
  return kinds.map((kind) => ({ ...kind, wording: kind.wording.replace(mark, '$1 : $2') }));
}
