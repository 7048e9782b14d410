import { type FieldId, testField } from '../../src/fields/field';
import { type Format, fileName } from '../../src/fields/filename';
import type { Size } from '../../src/fields/mark';
import { sizeText } from '../../src/fields/size';
import { svgOf } from '../../src/fields/svg';
import { openContext, paintMarks } from './stage';

/** How long a file's address is kept for the browser to fetch it, in ms; a large file on a slow stick takes time. */
const KEEP = 60_000;

/** Saves a field as a file, without a marker, by the browser's download. Throws if it cannot be made so large. */
export async function saveField(id: FieldId, size: Size, format: Format): Promise<void> {
  const blob = format === 'png' ? await pngOf(id, size) : svgBlob(id, size);
  const link = document.createElement('a');
  link.href = URL.createObjectURL(blob);
  link.download = fileName(id, size, format);
  link.click();
  setTimeout(() => URL.revokeObjectURL(link.href), KEEP);
}

function svgBlob(id: FieldId, size: Size): Blob {
  const { title, marks } = testField(id);
  return new Blob([svgOf(size, marks(size), title)], { type: 'image/svg+xml' });
}

async function pngOf(id: FieldId, size: Size): Promise<Blob> {
  const canvas = document.createElement('canvas');
  canvas.width = size.width;
  canvas.height = size.height;
  paintMarks(openContext(canvas), testField(id).marks(size));
  const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/png'));
  if (!blob) throw new Error(`This browser cannot make a picture of ${sizeText(size)} pixels.`);
  return blob;
}
