/** A stroke between tables that stand beside each other. */
const STROKES = ['||', '‖', '¦', '|', '│'] as const;
/** A stroke that divides the cells of tables as well has to stand at one place. */
const OF_CELLS: ReadonlySet<string> = new Set(['|', '│']);
/** Lines with it, at least, and the fraction of a block's lines that have it at one place, once. */
const MIN_LINES = 5;
const SHARE = 0.9;
/** By how many characters the place of a stroke may differ. */
const OFF = 2;
/** Characters on each side. */
const MIN_WIDTH = 16;

/**
 * The lines of a text with blocks that stand beside each other, a stroke between them, one below the other: first all
 * on the left of a block, then all on its right, each with the lines above that name them. `null` if there are none.
 */
export function besideStrokes(lines: readonly string[]): string[] | null {
  const text: string[] = [];
  let found = 0;
  for (let i = 0; i < lines.length; ) {
    let end = i;
    while (end < lines.length && lines[end]?.trim() !== '') end++;
    const block = lines.slice(i, end);
    const cut = cutOf(block);
    if (cut === null) text.push(...block, '');
    else {
      found += block.length;
      const left = block.map((line) => line.slice(0, placeOf(line, cut)).trimEnd());
      const right = block.map((line) => line.slice(placeOf(line, cut) + cut.stroke.length).trimEnd());
      text.push(...left.filter((line) => line !== ''), '', ...right.filter((line) => line !== ''), '');
    }
    i = end + 1;
  }
  return found < MIN_LINES ? null : text;
}

interface Cut {
  readonly stroke: string;
  readonly at: number;
}

/** Where a line is cut: a title may be a character off. */
function placeOf(line: string, { stroke, at }: Cut): number {
  const own = line.indexOf(stroke);
  return own >= 0 && (!OF_CELLS.has(stroke) || Math.abs(own - at) <= OFF) ? own : at;
}

/** Where a block is cut in two; `null` if it is not. */
function cutOf(block: readonly string[]): Cut | null {
  if (block.length < MIN_LINES) return null;
  for (const stroke of STROKES) {
    const own = block.filter((line) => line.includes(stroke));
    const at = own[Math.floor(own.length / 2)]?.indexOf(stroke) ?? -1;
    const isOne = (line: string): boolean =>
      line.indexOf(stroke) === line.lastIndexOf(stroke) &&
      (!OF_CELLS.has(stroke) || Math.abs(line.indexOf(stroke) - at) <= OFF);
    const isBeside = own.length >= MIN_LINES && own.filter(isOne).length >= SHARE * own.length;
    // A rule may cross at the stroke.
    const others = block.filter((line) => !line.includes(stroke) && !/^[\s\-=_+─━═┼┿╪╬]+$/u.test(line));
    if (isBeside && at >= MIN_WIDTH && others.length <= (1 - SHARE) * block.length) return { stroke, at };
  }
  return null;
}
