import { FIRST_DATE } from '../../src/sheets/setup/fields';

/** 2026-11-25, 25.11.2026. Slashes are read one way here and the other way there, so they are asked for anew. */
export function dayOf(text: string): string | undefined {
  const iso = /^(\d{4})-(\d{1,2})-(\d{1,2})(?:[ T].*)?$/.exec(text);
  const dotted = /^(\d{1,2})\. ?(\d{1,2})\. ?(\d{4})(?: .*)?$/.exec(text);
  const [year, month, day] = iso ? iso.slice(1) : dotted ? dotted.slice(1).reverse() : [];
  if (!year || !month || !day) return undefined;
  const date = `${year}-${month.padStart(2, '0')}-${day.padStart(2, '0')}`;
  const time = Date.parse(`${date}T00:00:00Z`);
  const isDay = !Number.isNaN(time) && new Date(time).toISOString().startsWith(date);
  return isDay && date >= FIRST_DATE ? date : undefined;
}
