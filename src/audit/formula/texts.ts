import type { CellValue } from '../../sheets/book';
import { round } from './rounding';
import { failed, isError, lifted, type Plain, single, toNumber, toText, toTruth, type Value } from './value';

const ofText = (f: (text: string) => CellValue): Plain =>
  lifted((cell) => {
    const text = toText(cell);
    return typeof text === 'string' ? f(text) : text;
  });

export const length = ofText((text) => text.length);
export const lower = ofText((text) => text.toLowerCase());
export const upper = ofText((text) => text.toUpperCase());
/** No spaces at either end, and single ones between words. */
export const trim = ofText((text) => text.replace(/ +/g, ' ').replace(/^ | $/g, ''));

export const left = lifted((cell, count: Value = 1): CellValue => {
  const text = toText(cell);
  const n = toNumber(single(count));
  if (isError(text)) return text;
  return isError(n) ? n : n < 0 ? failed('#VALUE!') : text.slice(0, Math.floor(n));
});

/** So many characters from one on, counted from 1. */
export const mid = lifted((cell, start: Value = null, count: Value = null): CellValue => {
  const text = toText(cell);
  const [from, n] = [start, count].map((each) => toNumber(single(each)));
  if (isError(text)) return text;
  if (isError(from!)) return from;
  if (isError(n!)) return n;
  const [first, length] = [Math.floor(from as number), Math.floor(n as number)];
  return first < 1 || length < 0 ? failed('#VALUE!') : text.slice(first - 1, first - 1 + length);
});

/** Whether two texts are the same letter by letter. */
export const exact = lifted((cell, other: Value = null): CellValue => {
  const [a, b] = [toText(cell), toText(single(other))];
  return isError(a) ? a : isError(b) ? b : a === b;
});

/** Place of a text within another, letter by letter, counted from 1. */
export const find = lifted((cell, within: Value = null): CellValue => {
  const [sought, text] = [toText(cell), toText(single(within))];
  if (isError(sought)) return sought;
  if (isError(text)) return text;
  const at = text.indexOf(sought);
  return at < 0 ? failed('#VALUE!') : at + 1;
});

/** Every occurrence of a text put in the place of another. */
export const substitute = lifted((cell, from: Value = '', to: Value = ''): CellValue => {
  const [text, old, replaced] = [cell, single(from), single(to)].map(toText);
  if (isError(text!)) return text;
  if (isError(old!)) return old;
  if (isError(replaced!)) return replaced;
  return old === '' ? (text as string) : (text as string).split(old as string).join(replaced as string);
});

/** More decimals than a number has. */
const DECIMALS = 30;

/** A number as text with so many decimals; with commas between thousands unless told otherwise. */
export const fixed = lifted((cell, decimals: Value = 2, plain: Value = false): CellValue => {
  const [x, places] = [toNumber(cell), toNumber(single(decimals))];
  const noCommas = toTruth(single(plain));
  if (isError(x)) return x;
  if (isError(places)) return places;
  if (isError(noCommas)) return noCommas;
  if (places > DECIMALS) return failed('#VALUE!');
  const text = round(x, places).toFixed(Math.max(0, Math.trunc(places)));
  return noCommas ? text : text.replace(/\B(?=(\d{3})+(?!\d))(?<!\.\d*)/g, ',');
});
