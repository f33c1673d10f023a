import type { Readable, Writable } from 'node:stream';
import type { ConnectionTransport } from 'puppeteer-core';

/**
 * The DevTools protocol over a browser's two pipes (`--remote-debugging-pipe`): JSON messages, each terminated by a
 * zero byte. Source: the protocol's own documentation.
 */
export function pipeTransport(toBrowser: Writable, fromBrowser: Readable): ConnectionTransport {
  let pending: Buffer[] = [];
  const transport: ConnectionTransport = {
    send(message) {
      toBrowser.write(`${message}\0`);
    },
    close() {
      toBrowser.end();
      fromBrowser.destroy();
    },
  };
  fromBrowser.on('data', (chunk: Buffer) => {
    let from = 0;
    for (let end = chunk.indexOf(0); end >= 0; end = chunk.indexOf(0, from)) {
      const message = Buffer.concat([...pending, chunk.subarray(from, end)]).toString('utf8');
      pending = [];
      from = end + 1;
      // Each message in its own task: an answer must not overtake the remaining work of its request.
      setImmediate(() => transport.onmessage?.(message));
    }
    if (from < chunk.length) pending.push(chunk.subarray(from));
  });
  const closed = (): void => transport.onclose?.();
  fromBrowser.on('close', closed);
  // It may have ended before anybody listened; then a request would wait until the timeout.
  if (fromBrowser.closed) setImmediate(closed);
  // A browser that is gone is reported by its end; writing to it meanwhile is no further news.
  for (const stream of [toBrowser, fromBrowser]) stream.on('error', () => {});
  return transport;
}
