import type { KnownLength } from '../../src/photometry/image';
import type { LengthUnit } from '../../src/photometry/units';
import { defaultRunSetup, type ImageSetup, type MeterSetup, type RunSetup } from '../../src/sheets/runsetup';
import { type PathAndValue, withValues } from '../../src/sheets/setup/path';
import type { Reads } from '../form/field';
import { isFit } from '../form/read';
import { aspectOf } from '../parse/aspect';
import type { FieldId, SetupTexts } from './field';
import { FIELD_IDS, FIELDS } from './fields';
import { meantBy } from './value';

/** The image part of the set-up; undefined while a length is missing or not fit. */
export function assembleImage(texts: SetupTexts, reads: Reads<FieldId>): ImageSetup | undefined {
  const unit = texts.lengthUnit as LengthUnit;
  const of = (...ids: FieldId[]) => {
    const values = ids.map((id) => reads[id].value);
    return values.every((value) => value !== undefined) ? (values as number[]) : undefined;
  };
  if (texts.known === 'four sides') {
    const sides = of('top', 'right', 'bottom', 'left', 'falling', 'rising');
    if (!sides) return undefined;
    const [top, right, bottom, left, falling, rising] = sides as [
      number,
      number,
      number,
      number,
      number,
      number,
    ];
    return { shape: 'four sides', unit, top, right, bottom, left, falling, rising };
  }
  if (texts.known === 'width and height') {
    const sizes = of('width', 'height');
    if (!sizes) return undefined;
    const [across, down] = sizes as [number, number];
    return { shape: 'rectangle', known: 'width', length: across, unit, across, down };
  }
  const length = of('length')?.[0];
  const aspect = aspectOf(texts.aspect);
  if (length === undefined || !aspect.ok) return undefined;
  return { shape: 'rectangle', known: texts.known as KnownLength, length, unit, ...aspect.value };
}

/** Checked texts → set-up; undefined while anything is not fit. */
export function assemble(texts: SetupTexts, reads: Reads<FieldId>): RunSetup | undefined {
  const image = assembleImage(texts, reads);
  return image && FIELD_IDS.every((id) => isFit(reads[id]))
    ? { ...assembleFields(texts, reads), image }
    : undefined;
}

/** The meter of the form; undefined while one of its fields is not fit. */
export function assembleMeter(texts: SetupTexts, reads: Reads<FieldId>): MeterSetup | undefined {
  const ids = FIELD_IDS.filter((id) => FIELDS[id].path?.startsWith('meter.'));
  return ids.every((id) => isFit(reads[id])) ? assembleFields(texts, reads).meter : undefined;
}

/**
 * Everything but the image, which is as usual here. What is not fit or was left empty is as usual too; where nothing
 * is usual it stays undefined: the sheet then takes its cautious value and says so.
 */
export function assembleFields(texts: SetupTexts, reads: Reads<FieldId>): RunSetup {
  return withValues(
    defaultRunSetup(),
    FIELD_IDS.flatMap((id): PathAndValue[] => {
      const { path } = FIELDS[id];
      const isOfImage = path === undefined || path.startsWith('image.');
      return isOfImage ? [] : [[path, meantBy(path, texts[id], reads[id])]];
    }),
  );
}
