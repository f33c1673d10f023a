/**
 * A record's JSON in pieces, so that the tens of megabytes of a night of many frames are never one text in memory.
 */

/** Items of a list that make one piece. */
const ITEMS_A_PIECE = 500;
const INDENT = 2;

/**
 * The same text as `JSON.stringify(record, null, 2)` with a line's end, in pieces: one for each field, several for a
 * long list.
 */
export function* jsonPieces(record: object): Iterable<string> {
  let before = '{\n';
  for (const [key, value] of Object.entries(record) as [string, unknown][]) {
    if (value === undefined) continue;
    yield before;
    if (Array.isArray(value) && value.length > ITEMS_A_PIECE) yield* listPieces(key, value);
    else yield inside(JSON.stringify({ [key]: value }, null, INDENT));
    before = ',\n';
  }
  yield before === '{\n' ? '{}\n' : '\n}\n';
}

/** The contents of an object's braces. */
function inside(text: string): string {
  return text.slice('{\n'.length, -'\n}'.length);
}

function* listPieces(key: string, items: readonly unknown[]): Iterable<string> {
  const head = `  ${JSON.stringify(key)}: [\n`;
  const tail = '\n  ]';
  for (let from = 0; from < items.length; from += ITEMS_A_PIECE) {
    const text = inside(JSON.stringify({ [key]: items.slice(from, from + ITEMS_A_PIECE) }, null, INDENT));
    yield (from === 0 ? head : ',\n') + text.slice(head.length, -tail.length);
  }
  yield tail;
}
