import { shown } from '../parse/quantity';
import { type Step, type Task, tapeOf } from './task';

/** A number in words that cannot be mistaken. */
export const number = shown;

/** "White, point 5, centre. 92.0 cm from the left, 60.0 cm from the top. 31 left." */
export function prompt(step: Step, task: Task, left: number): string {
  const tape = tapeOf(step, task);
  const { label, word, number: n, point } = step;
  const head = `${upper(label)}, ${word} ${n}, ${point}.`;
  const where = tape
    ? ` ${tape.left.toFixed(1)} cm from the left, ${tape.top.toFixed(1)} cm from the top.`
    : '';
  return `${head}${where} ${left} left.`;
}

export function upper(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1);
}

/** "2026-11-25 14:05:09" in the person's own time zone, for the notes. */
export function timeOf(milliseconds: number): string {
  const date = new Date(milliseconds);
  const two = (n: number) => String(n).padStart(2, '0');
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return `${day} ${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
}
