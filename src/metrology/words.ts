/*
 * What a form has to know of uncertainty and decisions before anything is computed. This file imports nothing:
 * the pane's first script holds it, and not the statistics.
 */

/** The level of "k = 2" (GUM table G.1: two standard deviations of a normal distribution, rounded). */
export const DEFAULT_LEVEL = 0.9545;

/**
 * Decision rules by the words people choose them with; the first is what a run is decided by unless said
 * otherwise. No commas: spreadsheets keep the choices of a list as one text with commas between them.
 */
export const DECISION_RULES = [
  'guard band U: four outcomes',
  'guard band U: pass or fail',
  'no guard band',
] as const;
/** What the stated accuracy of a meter is: a bound of a data sheet, a certificate's U, a bound that is rarely reached. */
export const METER_STATEMENTS = [
  'limit of error',
  'certificate U with k = 2',
  'limit rarely reached',
] as const;
export type MeterStatement = (typeof METER_STATEMENTS)[number];

/** Kinds of light source whose primaries are alike to a meter; the first where nothing is known. */
export const LIGHT_SOURCES = ['unknown', 'lamp', 'laser phosphor', 'LED', 'RGB laser'] as const;
export type LightSourceChoice = (typeof LIGHT_SOURCES)[number];

export type DecisionRule = (typeof DECISION_RULES)[number];

/**
 * From this part of the variance on one rectangle rules the sum: the interval of 95.45 % is then 1.86 u wide to either
 * side, and 1.65 u where there is nothing else (a rectangle and a normal distribution added up, by trials).
 */
export const RULES = 0.75;
