import { usual } from '../../src/sheets/setup/fields';
import type { FieldId, SetupTexts } from './field';
import { FIELD_IDS, FIELDS } from './fields';
import { typedAs } from './value';

/** What the form holds at first. The image size stays empty: a default would be a silently wrong area. */
export function startTexts(today: string): SetupTexts {
  const texts = FIELD_IDS.map((id) => {
    const { path, unitIn } = FIELDS[id];
    return [id, path === undefined || unitIn ? '' : typedAs(path, usual(path))];
  });
  const aspect = `${usual('image.across')}:${usual('image.down')}`;
  return {
    ...(Object.fromEntries(texts) as Record<FieldId, string>),
    known: usual('image.known') ?? 'width',
    aspect,
    date: today,
  };
}

/** The day in the person's own time zone, as an ISO date. */
export function isoDay(date: Date): string {
  const two = (n: number) => String(n).padStart(2, '0');
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
}
