import type { ComponentType } from 'preact';
import { later } from '../components/Later';
import type { Store } from '../store';
import { Measure } from './Measure';

/** A page of the pane. A new step is one more line here; only what works is listed. */
export interface Page {
  readonly id: string;
  /** One short word: at 320 px all steps stand beside each other. */
  readonly title: string;
  /** What is about the workbook as a whole, and no step of the job. */
  readonly isTool?: true;
  readonly Body: ComponentType<{ readonly store: Store }>;
}

export const PAGES: readonly Page[] = [
  { id: 'need', title: 'Need', Body: later(async () => (await import('./Need')).Need) },
  { id: 'offers', title: 'Offers', Body: later(async () => (await import('./Offers')).Offers) },
  { id: 'measure', title: 'Measure', Body: Measure },
  { id: 'compare', title: 'Compare', Body: later(async () => (await import('./Compare')).Compare) },
  { id: 'accept', title: 'Accept', Body: later(async () => (await import('./Accept')).Accept) },
  { id: 'ageing', title: 'Ageing', Body: later(async () => (await import('./Ageing')).Ageing) },
  {
    id: 'overview',
    title: 'Overview',
    isTool: true,
    Body: later(async () => (await import('./Overview')).Overview),
  },
  {
    id: 'templates',
    title: 'Templates',
    isTool: true,
    Body: later(async () => (await import('./Templates')).Templates),
  },
  { id: 'trace', title: 'Trace', isTool: true, Body: later(async () => (await import('./Trace')).Trace) },
  {
    id: 'functions',
    title: 'Functions',
    isTool: true,
    Body: later(async () => (await import('./Functions')).Functions),
  },
  {
    id: 'program',
    title: 'Program',
    isTool: true,
    Body: later(async () => (await import('./Program')).Program),
  },
];
