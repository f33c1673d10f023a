import type { Reading } from './reading.js';

/** Whether numbers of a log have a decimal comma. */
export function usesDecimalComma({ messages, fieldLines, timePaths, stamp, hasThousands }: Reading): boolean {
  if (hasThousands === true) return true;
  let commas = 0;
  let points = 0;
  const count = (text: string): void => {
    if (/(?<![\d.,])\d+,\d+(?![\d.,])/.test(text)) commas++;
    if (/(?<![\p{L}\d.,/])\d+\.\d+(?![\p{L}\d.,])/u.test(text)) points++;
  };
  // Text between stamped lines may contain times of its own, with a point between hour and minute.
  for (const { text, atMs } of messages.slice(0, 5000)) if (stamp === null || !Number.isNaN(atMs)) count(text);
  // Fractions of a second have a point in any language.
  for (const { fields } of fieldLines.slice(0, 5000))
    for (const [path, value] of fields) if (!timePaths.includes(path)) count(value);
  return commas > 2 * points;
}
