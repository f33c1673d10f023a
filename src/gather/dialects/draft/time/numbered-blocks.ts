/** A number in brackets, or behind a mark, at the beginning of a line: `[17] shutter`. */
const NUMBERED = /^[[(#<]\W?\{elapsed\}/;
const NUMBER = /^\s*[[(#<]\s?(\d+)(?![\d.,:])/;
const MIN_BLOCKS = 20;
/** Such lines stand above those of their blocks: the maximum fraction of all lines. */
const MOST = 0.6;
/** Some of the lines that are looked at are left out, so that some numbers are missing. */
const LONGEST_STEP = 3;
const MEAN_STEP = 1.5;
const STEADY = 0.97;

/**
 * Whether counts number the blocks of a log one by one, whose times stand further below; they are no times, even under
 * a line that says to what times are relative.
 */
export function numbersBlocks(pattern: string, lines: readonly string[]): boolean {
  if (!NUMBERED.test(pattern)) return false;
  const numbers = lines.flatMap((line) => {
    const [, digits] = NUMBER.exec(line) ?? [];
    return digits === undefined ? [] : [Number(digits)];
  });
  if (numbers.length < MIN_BLOCKS || numbers.length > MOST * lines.length) return false;
  const steps = numbers.slice(1).map((number, i) => number - (numbers[i] ?? NaN));
  const forward = steps.filter((step) => step > 0 && step <= LONGEST_STEP);
  const mean = forward.reduce((sum, step) => sum + step, 0) / Math.max(1, forward.length);
  return (numbers[0] ?? NaN) <= LONGEST_STEP && forward.length >= STEADY * steps.length && mean <= MEAN_STEP;
}
