import type { RecordRules } from '../compiled.js';
import type { RowSource } from '../rows.js';
import { flattenRecord } from './flatten-record.js';
import { JoinedRecords } from './joined-records.js';

/** The fields of a log's current record, by path. */
export class RecordRows implements RowSource {
  readonly timeInCells: boolean;
  private fields: ReadonlyMap<string, string> = new Map();

  private readonly joined: JoinedRecords | null;

  constructor(private readonly rules: RecordRules) {
    this.joined = rules.join === null ? null : new JoinedRecords(rules.join);
    this.timeInCells = rules.time.length > 0;
  }

  takeHeader(): boolean {
    return false;
  }

  takeRow(text: string): boolean {
    const fields = flattenRecord(this.rules.form, text);
    if (fields === null) return false;
    this.fields = this.joined === null ? fields : this.joined.take(fields);
    const { time, timeIsFirst } = this.rules;
    return timeIsFirst ? time.some((path) => fields.has(path)) : time.every((path) => fields.has(path));
  }

  has(): boolean {
    return true;
  }

  cell(path: string): string | undefined {
    const text = this.fields.get(path)?.trim();
    return text === '' ? undefined : text;
  }

  time(): string {
    const cells = this.rules.time.map((path) => this.cell(path) ?? '');
    return this.rules.timeIsFirst ? (cells.find((cell) => cell !== '') ?? '') : cells.join(' ');
  }
}
