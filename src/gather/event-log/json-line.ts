/** Single lines of an event log, as JSON. */
import { isObject, type JsonObject } from '../../model/index.js';

/**
 * A note as programs write it that write JSON without blanks. Its texts hold any character but quotes, backslashes and
 * what controls a terminal, which JSON writes otherwise.
 */
const PLAIN_NOTE = /^\{"at":"([ !#-[\]-\uffff]*)","event":"note"(?:,"text":"[ !#-[\]-\uffff]*")?\}$/;

/**
 * The time of a line that is such a note, as written: if notes are not events nothing else is read from it. A log may
 * be nearly all notes, and parsing each takes three times as long.
 */
export function timeOfPlainNote(text: string): string | undefined {
  return PLAIN_NOTE.exec(text)?.[1];
}

/** The object on a line; `null` if there is none. */
export function parseObject(text: string): JsonObject | null {
  try {
    // A byte-order mark in the middle comes from logs that were joined.
    const value: unknown = JSON.parse(text.charCodeAt(0) === 0xfeff ? text.slice(1) : text);
    return isObject(value) ? value : null;
  } catch {
    return null;
  }
}

/** A value as written in the line, for a message. */
export function inJson(value: unknown): string {
  return value === undefined ? 'absent' : excerpt(asJson(value));
}

/** A list or object is not written out: it may be nested deeper than the stack. */
function asJson(value: unknown): string {
  if (Array.isArray(value)) return 'a list';
  return typeof value === 'object' && value !== null ? 'an object' : JSON.stringify(value);
}

/** The beginning of a text, for a message. */
export function excerpt(text: string): string {
  return text.length <= 60 ? text : `${text.slice(0, 57)}…`;
}
