import { BOARD_POINTS } from '../../src/fields/board';
import { type FieldId, isFieldId } from '../../src/fields/field';
import type { Marker } from '../../src/fields/marker';
import { measuringPoints } from '../../src/photometry/points';

/** What stands behind the # of the fields page's address. */
export interface Address {
  /** Shown at once; without it the start page comes first. */
  readonly field?: FieldId;
  readonly marker?: Marker;
  /** Name of the pair whose messages the page obeys; see the protocol. */
  readonly pair?: string;
}

/** Where the marker of a field's point stands, numbered from 1: sixteen on a checkerboard, thirteen on the others. */
export function markerAt(field: FieldId, number: number): Marker | undefined {
  const points = field.startsWith('board') ? BOARD_POINTS : measuringPoints(13);
  return points.find((point) => point.number === number);
}

/** `#field=red&point=5`; what is not known is left out. */
export function parseHash(hash: string): Address {
  const given = new URLSearchParams(hash.replace(/^#/, ''));
  const field = given.get('field');
  const pair = given.get('pair');
  if (!isFieldId(field)) return { ...(pair && { pair }) };
  const marker = markerAt(field, Number(given.get('point')));
  return { field, ...(marker && { marker }), ...(pair && { pair }) };
}

/** The hash for an address; the other way round than `parseHash`. */
export function formatHash({ field, marker, pair }: Address): string {
  const said = new URLSearchParams();
  if (field) said.set('field', field);
  if (marker) said.set('point', String(marker.number));
  if (pair) said.set('pair', pair);
  const text = said.toString();
  return text && `#${text}`;
}
