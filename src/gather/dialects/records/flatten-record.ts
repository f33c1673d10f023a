import { blockFields } from './block-fields.js';
import { jsonFields } from './json-fields.js';
import { pairFields } from './pair-fields.js';
import { tagFields } from './tag-fields.js';
import { titledFields } from './titled-fields.js';

/**
 * How a log writes its records: JSON objects, `key=value` pairs, tags with attributes, or blocks with one field per
 * line, possibly under a title.
 */
export const RECORD_FORMS = ['json', 'pairs', 'tags', 'blocks', 'titled'] as const;
/** One of the forms. */
export type RecordForm = (typeof RECORD_FORMS)[number];

const READERS: Readonly<Record<RecordForm, (text: string) => Map<string, string> | null>> = {
  json: jsonFields,
  pairs: pairFields,
  tags: tagFields,
  blocks: blockFields,
  titled: titledFields,
};

/**
 * The fields of a record by their paths (`what.action`; list positions count from 0), values as text; fields without a
 * value are omitted. Runs in time linear in the text.
 *
 * `pairs`: text outside the pairs is the field `text`. `tags`: the first tag's name is the field `tag`, its attributes
 * keep their names, the name of the first inner tag with attributes is the field `inner` and appears as such in the
 * paths of its fields, and other inner tags give `name` for their text and `name.attribute`. `blocks`: lines of a name,
 * a mark and a value; other lines are the field `text`. `titled`: the same below a first line that is the field
 * `title`.
 *
 * @returns `null` when the text is not such a record
 */
export function flattenRecord(form: RecordForm, text: string): Map<string, string> | null {
  const fields = READERS[form](text);
  return fields === null || fields.size === 0 ? null : fields;
}
