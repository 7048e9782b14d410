import { type FieldId, testField } from '../../src/fields/field';
import { type Format, fileName } from '../../src/fields/filename';
import type { Size } from '../../src/fields/mark';
import { sizeText } from '../../src/fields/size';
import { svgOf } from '../../src/fields/svg';
import type { SavedFile } from '../saving/saving';
import { openContext, paintMarks } from './stage';

/** Said where no file came. */
export const OTHERWISE =
  'Look into the browser\u2019s list of downloads first: it may have asked whether this page may save several files. Where it saves none, open this page in another browser; or choose SVG and one field, whose text can be copied.';

/** A field as a file, without a marker. Throws if it cannot be made so large. */
export async function fieldFile(id: FieldId, size: Size, format: Format): Promise<SavedFile> {
  const name = fileName(id, size, format);
  if (format === 'png')
    return { name, type: 'image/png', contents: await pngOf(id, size), otherwise: OTHERWISE };
  const { title, marks } = testField(id);
  return { name, type: 'image/svg+xml', text: svgOf(size, marks(size), title) };
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
