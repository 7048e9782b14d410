/** The only room that names the .xlsx library: a Book to the bytes of a file, and back. */
export { XlsxError } from './error';
export { handOver } from './handover';
export { readXlsx } from './read';
export { remarksOf } from './remarks';
export { rewriteXlsx } from './rewrite';
export { type WriteOptions, writeXlsx } from './write';
