import type { Identity, Plan } from '../plan';

/** Sheets of the example bear it in front of their id, so that every host and every copy still knows them. */
const ID = 'example';

/** In front of the title of every sheet of the example. */
export const MARK = 'Invented example. ';

export function exampleId(id: string): string {
  return ID + id;
}

/** Whether a sheet belongs to the example: its data are invented. */
export function isExample({ id }: Pick<Identity, 'id'>): boolean {
  return id.startsWith(ID);
}

/** A sheet of the example says so in its title; nothing else of its layout differs. */
export function marked(plan: Plan): Plan {
  const title = plan.cells.A1;
  if (typeof title?.value !== 'string') throw new Error(`A ${plan.kind} sheet has no title in A1`);
  return { ...plan, cells: { ...plan.cells, A1: { ...title, value: MARK + title.value } } };
}
