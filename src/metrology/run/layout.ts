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
  /** Width and height together where one length was measured; else −1. */
  readonly size: number;
  /** Causes that bear on every light output, and on the luminance too: the sensor's place, the room; none where not asked for. */
  readonly everywhere: readonly number[];
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
  /** Digits components of the ambient reading, one a point, and their weight; none where its range is not known. */
  readonly ambientDigits: readonly number[];
  readonly ambientScale: number;
}

/** One cause of a mixture of light, and the part of the light it bears on. */
export interface Part {
  readonly at: number;
  readonly share: number;
}

/** Readings of one kind of light, and where their causes stand. */
export interface PointsLayout {
  readonly field: Points;
  readonly spectral: readonly Part[];
  /** First of as many components as there are points; −1 where placing is not asked for. */
  readonly placing: number;
  /** −1 where linearity is not asked for. */
  readonly linearity: number;
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
