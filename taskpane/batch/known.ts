import { retyped } from '../parse/quantity';
import { cellOf, columnOf } from '../run/cell';
import { newRunOf } from '../run/newrun';
import type { Store } from '../store';

/**
 * Fills in what other sheets of a purchase know of its units: what the chosen offer calls them, and the image of the
 * room where there is one. Fields that hold anything stay as they are.
 *
 * @returns where what was filled in is from, a sentence each
 */
export async function takeKnown(store: Store): Promise<readonly string[]> {
  const { host } = store;
  const { form } = newRunOf(store);
  const readings = await host.readSome({
    need: ['Rooms', 'RoomWidth', 'RoomHeight'],
    offers: ['ChosenOffer'],
  });
  const said: string[] = [];
  const offers = readings.filter(({ kind }) => kind === 'offers').at(-1);
  const chosen = String((offers && cellOf(offers, 'ChosenOffer')) ?? '').trim();
  if (chosen !== '' && form.texts.peek().projector.trim() === '') {
    form.take({ projector: chosen });
    said.push(`What the units are called is from “${offers!.sheet}”.`);
  }
  const needs = readings.filter(({ kind }) => kind === 'need');
  const need = needs.length === 1 ? needs[0]! : undefined;
  const rooms = need
    ? columnOf(need, 'Rooms').flatMap((room, i) => (String(room ?? '').trim() ? [i] : []))
    : [];
  if (!need || rooms.length !== 1) return said;
  const [width, height] = (['RoomWidth', 'RoomHeight'] as const).map(
    (name) => columnOf(need, name)[rooms[0]!],
  );
  const { length, width: own, height: other } = form.texts.peek();
  if (typeof width !== 'number' || typeof height !== 'number' || `${length}${own}${other}`.trim() !== '')
    return said;
  form.take({ known: 'width and height', lengthUnit: 'm', width: retyped(width), height: retyped(height) });
  said.push(`The image is that of the room on “${need.sheet}”: measure it where the units are measured.`);
  return said;
}
