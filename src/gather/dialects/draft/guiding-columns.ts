/** Both signs, a mean well inside the spread, and small: errors, not positions or pulses. */
export function isAboutZero(numbers: readonly number[]): boolean {
  const mean = numbers.reduce((sum, value) => sum + value, 0) / numbers.length;
  const spread = Math.sqrt(numbers.reduce((sum, value) => sum + (value - mean) ** 2, 0) / numbers.length);
  const negative = numbers.filter((value) => value < 0).length / numbers.length;
  return (
    spread > 0 &&
    Math.abs(mean) < spread &&
    spread < 30 &&
    negative > 0.15 &&
    negative < 0.85 &&
    numbers.some((value) => !Number.isInteger(value))
  );
}
