/** The only room that names the .xlsx library: a Book to the bytes of a file, and back. */
export { XlsxError, type XlsxTrouble } from './error';
export { type CoverLine, type Handover, handOver } from './handover';
export { readXlsx } from './read';
export { type WriteOptions, writeXlsx } from './write';
