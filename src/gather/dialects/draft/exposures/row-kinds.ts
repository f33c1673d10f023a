import { withClockColumns } from '../kinds/clock-columns.js';
import { fieldKinds } from '../kinds/field-kinds.js';
import { pathsOf, type FieldForm, type FieldLine } from '../kinds/field-line.js';
import { commonestFirst, type Kind } from '../kinds/kind.js';
import { whenApart } from '../kinds/optional-fields.js';
import { isFrameFile } from '../kinds/values.js';
import { wordEvidence } from '../lexicon/word-evidence.js';
import { cutsShort, isTelling, saysMotion } from '../lexicon/said.js';
import { exposureKinds } from './exposure-kinds.js';

/** Rows with their own frame file, and the fraction of the others that say in words what they are about. */
const MIN_FRAMES = 8;
const DIFFERENT = 0.95;
const SAY = 0.6;
/** Rows with a file that also fill the column of these words: remarks. */
const REMARKS = 0.2;

/** The kinds of row of a table: all exposures, identified by their cells, or exposures among other rows. */
export function rowKinds(lines: readonly FieldLine[], form: FieldForm, heading = ''): readonly Kind[] {
  return (
    ofExposures(exposureKinds(lines, form), heading) ??
    besideOthers(lines, form) ??
    withClockColumns(fieldKinds(lines, form, false))
  );
}

/** A heading that names something else than exposures. */
const NAMED = 1.5;

/** Rows with a filter and a length, without a file, are no exposures under a heading such as `focus runs`. */
function ofExposures(kinds: readonly Kind[] | null, heading: string): readonly Kind[] | null {
  if (kinds === null || heading === '' || kinds.some(hasFile)) return kinds;
  const [best] = [...wordEvidence(heading)].sort((a, b) => b[1] - a[1]);
  return best !== undefined && best[1] >= NAMED && !/^(?:exposure|frame)/.test(best[0]) ? null : kinds;
}

const hasFile = ({ slots }: Kind): boolean => slots.some(({ type }) => type === 'file');

/** The kinds of a table with exposure rows, identified only by their cells, and other rows, identified by words. */
function besideOthers(lines: readonly FieldLine[], form: FieldForm): readonly Kind[] | null {
  const paths = pathsOf(lines, form.timePaths);
  const cellOf = ({ fields }: FieldLine, path: string): string => fields.get(path) ?? '';
  const file = paths.find((path) => {
    const values = lines.flatMap((line) => cellOf(line, path) || []);
    return (
      values.length >= MIN_FRAMES && values.every(isFrameFile) && new Set(values).size >= DIFFERENT * values.length
    );
  });
  if (file === undefined) return null;
  const framed = lines.filter((line) => cellOf(line, file) !== '');
  const rest = lines.filter((line) => cellOf(line, file) === '');
  const saysWhat = (of: readonly FieldLine[], path: string): boolean =>
    of.filter((line) => isTelling(cellOf(line, path)) || saysMotion(cellOf(line, path))).length >= SAY * of.length;
  // Rows that say they are exposures are identified by their words.
  if (paths.some((path) => path !== file && saysWhat(framed, path))) return null;
  const saying = paths.find(
    (path) =>
      saysWhat(rest, path) && framed.filter((line) => cellOf(line, path) !== '').length <= REMARKS * framed.length,
  );
  if (saying === undefined || rest.length === 0) return null;
  // Aborted exposures have everything that exposures have except a file.
  const filled = paths.filter((path) => framed.every((line) => cellOf(line, path) !== ''));
  const isCut = (line: FieldLine): boolean =>
    cutsShort(cellOf(line, saying)) && filled.every((path) => path === file || cellOf(line, path) !== '');
  const shots = exposureKinds(
    lines.filter((line) => cellOf(line, file) !== '' || isCut(line)),
    form,
  );
  if (shots === null) return null;
  return [
    ...shots.map(
      (kind): Kind =>
        kind.exposure?.isCut === true
          ? kind
          : { ...kind, when: (groups) => whenApart(kind.when(groups), { [file]: '.' }) },
    ),
    ...withClockColumns(
      fieldKinds(
        rest.filter((line) => !isCut(line)),
        form,
        false,
      ),
    ),
  ].sort(commonestFirst);
}
