import type { Bits } from './bits';
import type { Component } from './component';
import { chiSquared, fillNormal, fillSigned, triangular, uShaped } from './draws';

/**
 * What finite degrees of freedom mean in a Monte Carlo. `student`: a scaled and shifted t, as JCGM 101
 * 6.4.9 prescribes for means of few readings; `normal`: u taken as exactly known.
 */
export type FiniteDof = 'student' | 'normal';

/** Fills a vector with one random state of all components. */
export type Sampler = (bits: Bits, x: Float64Array) => void;

/** Components of one shape: their places, centres and scales. */
interface Lot {
  readonly at: Int32Array;
  readonly centre: Float64Array;
  readonly scale: Float64Array;
  /** Room for one state's draws. */
  readonly drawn: Float64Array;
}

function lotOf(
  components: readonly Component[],
  chosen: (component: Component) => boolean,
  scale: (component: Component) => number,
): Lot {
  const places = components.flatMap((component, i) => (chosen(component) ? [i] : []));
  return {
    at: Int32Array.from(places),
    centre: Float64Array.from(places, (i) => components[i]!.value),
    scale: Float64Array.from(places, (i) => scale(components[i]!)),
    drawn: new Float64Array(places.length),
  };
}

/**
 * A sampler for these components, each independent of the others. Normal components with finite ν that
 * come from one estimate share its error: one χ² a trial for all of them, so that a pooled s that is too
 * small is too small for every reading.
 */
export function sampler(components: readonly Component[], finiteDof: FiniteDof = 'student'): Sampler {
  const isStudent = ({ distribution, dof }: Component) =>
    finiteDof === 'student' && distribution === 'normal' && Number.isFinite(dof);
  const half = (component: Component) => component.halfWidth;
  const u = (component: Component) => component.u;
  const rectangles = lotOf(components, (c) => c.distribution === 'rectangular', half);
  const triangles = lotOf(components, (c) => c.distribution === 'triangular', half);
  const arcsines = lotOf(components, (c) => c.distribution === 'u-shaped', half);
  const normals = lotOf(components, (c) => c.distribution === 'normal' && !isStudent(c), u);
  const families = new Map<string, Component>();
  for (const component of components) if (isStudent(component)) families.set(family(component), component);
  const students = [...families].map(([name, { dof }]) => ({
    dof,
    lot: lotOf(components, (c) => isStudent(c) && family(c) === name, u),
  }));
  return (bits, x) => {
    fillRectangular(rectangles, bits, x);
    fillNormals(normals, 1, bits, x);
    for (const { dof, lot } of students) fillNormals(lot, Math.sqrt(dof / chiSquared(bits, dof)), bits, x);
    fill(triangles, triangular, bits, x);
    fill(arcsines, uShaped, bits, x);
  };
}

function family({ id, estimate }: Component): string {
  return estimate ?? `own ${id}`;
}

function fill({ at, centre, scale }: Lot, draw: (bits: Bits) => number, bits: Bits, x: Float64Array): void {
  for (let j = 0; j < at.length; j++) x[at[j]!] = centre[j]! + scale[j]! * draw(bits);
}

// The two common shapes are drawn a lot at a time: they are most of the time spent.
function fillRectangular({ at, centre, scale, drawn }: Lot, bits: Bits, x: Float64Array): void {
  fillSigned(bits, drawn, at.length);
  for (let j = 0; j < at.length; j++) x[at[j]!] = centre[j]! + scale[j]! * drawn[j]!;
}

function fillNormals({ at, centre, scale, drawn }: Lot, factor: number, bits: Bits, x: Float64Array): void {
  fillNormal(bits, drawn, at.length);
  for (let j = 0; j < at.length; j++) x[at[j]!] = centre[j]! + scale[j]! * factor * drawn[j]!;
}
