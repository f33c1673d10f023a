export { readEventLog, type EventLogOptions } from './read-event-log.js';
