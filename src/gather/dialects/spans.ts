import { spanBegunBy, spanEndedBy, type EventName, type LogEvent, type SpanName } from '../../model/index.js';

/** The open spans, per train. */
export class OpenSpans {
  private readonly open = new Map<string, LogEvent>();

  /** Records an event. */
  note(event: LogEvent): void {
    const begun = spanBegunBy(event.event);
    const ended = spanEndedBy(event.event);
    if (begun !== undefined) this.open.set(keyOf(begun, event.train), event);
    if (ended !== undefined) this.open.delete(keyOf(ended, event.train));
  }

  /** The begin that the event would end, if it is open. */
  beginningFor(event: EventName, train: string | undefined): LogEvent | undefined {
    const ended = spanEndedBy(event);
    return ended === undefined ? undefined : this.open.get(keyOf(ended, train));
  }
}

function keyOf(span: SpanName, train: string | undefined): string {
  return `${span} ${train ?? ''}`;
}
