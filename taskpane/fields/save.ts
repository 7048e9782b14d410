import { type FieldId, testField } from '../../src/fields/field';
import { type Format, fileName } from '../../src/fields/filename';
import type { Size } from '../../src/fields/mark';
import { sizeText } from '../../src/fields/size';
import { svgOf } from '../../src/fields/svg';
import { saveFile } from '../download';
import { openContext, paintMarks } from './stage';

/** Saves a field as a file, without a marker, by the browser's download. Throws if it cannot be made so large. */
export async function saveField(id: FieldId, size: Size, format: Format): Promise<void> {
  const blob = format === 'png' ? await pngOf(id, size) : svgBlob(id, size);
  saveFile(blob, fileName(id, size, format), blob.type);
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
