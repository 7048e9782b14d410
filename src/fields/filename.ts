import { type FieldId, TEST_FIELDS } from './field';
import type { Size } from './mark';

export type Format = 'png' | 'svg';

/** `04-white-1920x1080.png`: sorted by name, files stand in the order of a run. */
export function fileName(id: FieldId, { width, height }: Size, format: Format): string {
  const number = TEST_FIELDS.findIndex((field) => field.id === id) + 1;
  return `${String(number).padStart(2, '0')}-${id}-${width}x${height}.${format}`;
}
