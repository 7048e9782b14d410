import type { Component } from '../component';
import type { Field, Points } from './prepare';

/** Where a run's causes stand in the list of its components. Both the sensitivities and the trials read it. */
export interface Layout {
  readonly components: readonly Component[];
  readonly gain: number;
  readonly ambient: number;
  readonly width: number;
  readonly height: number;
  readonly square: number;
  readonly driftWhite: number;
  /** −1 where the run has no colour. */
  readonly driftColours: number;
  /** −1 where the screen's gain is not given. */
  readonly screen: number;
  readonly fields: readonly FieldLayout[];
  /** White and black tiles of the checkerboard, where there is one. */
  readonly board?: { readonly white: PointsLayout; readonly black: PointsLayout };
  /** Mean ambient illuminance, and how each point departs from it; lux. */
  readonly ambientMean: number;
  readonly ambientOffsets: readonly number[];
}

/** Readings of one kind of light, and where their causes stand. */
export interface PointsLayout {
  readonly field: Points;
  readonly spectral: number;
  /** First of as many components as the field has points. */
  readonly resolution: number;
  readonly repeatability: number;
  /** One a point: the digits component of its range. */
  readonly digits: readonly number[];
}

export interface FieldLayout extends PointsLayout {
  readonly field: Field;
  /** The user's own lines that bear on this field's light output. */
  readonly others: readonly number[];
}
