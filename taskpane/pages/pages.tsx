import type { ComponentType } from 'preact';
import { later } from '../components/Later';
import type { Store } from '../store';
import { type Entry, FORMS, FRONT_PAGE, TOOLS } from './entries';
import { Home } from './Home';

/** A page of the pane. Four stand at its head; the others are reached from one of those. */
export interface Page extends Pick<Entry, 'id' | 'title'> {
  /** The page at the head that it is reached from. */
  readonly under?: 'new' | 'more';
  readonly Body: ComponentType<{ readonly store: Store }>;
}

type Body = Page['Body'];

const BODIES: Readonly<Record<string, () => Promise<Body>>> = {
  run: async () => (await import('../run/ui/NewRun')).NewRun,
  spot: async () => (await import('../spot/SpotCard')).SpotCard,
  need: async () => (await import('../need/Need')).Need,
  offers: async () => (await import('../offers/Offers')).Offers,
  lot: async () => (await import('../accept/NewLot')).Lot,
  batch: async () => (await import('../batch/Batch')).Batch,
  comparison: async () => (await import('../compare/NewComparison')).NewComparison,
  certificate: async () => (await import('./Certificate')).Certificate,
  metercheck: async () => (await import('../metercheck/NewMeterCheck')).NewMeterCheck,
  ageing: async () => (await import('../ageing/Ageing')).Ageing,
  templates: async () => (await import('../templates/Templates')).Templates,
  audit: async () => (await import('../trace/Audit')).Audit,
  fields: async () => (await import('../components/TestFields')).TestFields,
  cautions: async () => (await import('../cautions/CautionsPage')).CautionsPage,
  functions: async () => (await import('./Functions')).Functions,
  help: async () => (await import('../help/HelpPage')).HelpPage,
  program: async () => (await import('./Program')).Program,
};

const under =
  (place: 'new' | 'more') =>
  ({ id, title }: Entry): Page => ({ id, title, under: place, Body: later(BODIES[id]!) });

/** What stands at the head of the pane. */
export const PLACES: readonly Page[] = [
  { id: 'home', title: 'Home', Body: Home },
  {
    id: FRONT_PAGE,
    title: 'This sheet',
    Body: later(async () => (await import('../sheet/SheetPage')).SheetPage),
  },
  { id: 'new', title: 'New', Body: later(async () => (await import('./New')).New) },
  { id: 'more', title: 'More', Body: later(async () => (await import('./More')).More) },
];

export const PAGES: readonly Page[] = [...PLACES, ...FORMS.map(under('new')), ...TOOLS.map(under('more'))];
