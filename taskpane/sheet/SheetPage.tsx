import { useSignal } from '@preact/signals';
import type { ComponentChildren, ComponentType } from 'preact';
import { useCallback, useEffect, useRef } from 'preact/hooks';
import type { SheetKind } from '../../src/sheets/plan';
import { CaptureCard, Waiting } from '../capture/CaptureCard';
import { captureOf } from '../capture/fetched';
import { Cautions } from '../cautions/Cautions';
import { cautionsOf } from '../cautions/state';
import { Action } from '../components/Action';
import { Fold } from '../components/Fold';
import { later } from '../components/Later';
import look from '../components/look.module.css';
import { TroubleBox } from '../components/TroubleBox';
import list from '../pages/EntryList.module.css';
import type { Store } from '../store';
import { Arrived } from './Arrived';
import type { BodyProps } from './body';
import { carryOn } from './carry';
import { Head } from './Head';
import { lookOf } from './look';
import type { Deed } from './next';
import own from './SheetPage.module.css';

/** What is shown of a kind beside its head. */
const BODIES: { readonly [Kind in SheetKind]?: ComponentType<BodyProps> } = {
  run: later(async () => (await import('../run/ui/RunCard')).RunCard),
  ageing: later(async () => (await import('../ageing/AgeingBody')).AgeingBody),
  spot: later(async () => (await import('../spot/SpotResultCard')).SpotResultCard),
  metercheck: later(async () => (await import('../metercheck/MeterCheckBody')).MeterCheckBody),
  batch: later(async () => (await import('../batch/BatchBody')).BatchBody),
  need: later(async () => (await import('../need/NeedSheet')).NeedSheet),
  offers: later(async () => (await import('../offers/OffersSheet')).OffersSheet),
  acceptance: later(async () => (await import('../accept/Results')).Results),
  comparison: later(async () => (await import('../compare/ComparisonCard')).ComparisonBody),
};

/** The results of a run need more room than the lines of a head. */
const RunResults = later(async () => (await import('../run/ui/RunCard')).RunResults);
const PasteCard = later(async () => (await import('../run/ui/PasteCard')).PasteCard);
const InPane = later(async () => (await import('../capture/InPane')).InPane);
const TraceCard = later(async () => (await import('../trace/TraceCard')).TraceCard);
const CheckCard = later(async () => (await import('../trace/CheckCard')).CheckCard);
const UpdateCard = later(async () => (await import('../trace/UpdateCard')).UpdateCard);
const SealCard = later(async () => (await import('../trace/SealCard')).SealCard);

/** Readings are taken for these. */
const isMeasured = (kind: SheetKind) => kind === 'run' || kind === 'spot' || kind === 'batch';
/** Deeds whose button stands with what it is about. */
const IN_BODY: ReadonlySet<Deed> = new Set<Deed>(['capture', 'choose', 'link']);

/** The sheet in front: what it is, what came out, what comes next, and closed below it whatever else can be done. */
export function SheetPage({ store }: { readonly store: Store }) {
  const { front, workbook, troubles } = store;
  const cautions = cautionsOf(store);
  const service = captureOf(store).service.value;
  const survey = workbook.survey.value;
  const sheet = front.sheet.value;
  const { line, next, trouble } = lookOf(store);
  const place = useHolding(front);
  const thing = next.value;
  if (service?.where.value === 'pane') return <InPane capture={service} />;
  if (!survey && workbook.trouble.value)
    return <TroubleBox trouble={workbook.trouble.value} facts={store.facts} />;
  if (!survey) return <p class={look.quiet}>Looking at the workbook …</p>;
  if (!sheet) return <NotOurs store={store} />;
  const Body = BODIES[sheet.kind];
  const toMeasure = thing?.id === 'capture';
  return (
    <div class={own.place} ref={place}>
      <Arrived store={store} />
      {service && <Waiting capture={service} />}
      <Head key={`${sheet.id} ${sheet.sheet}`} store={store} sheet={sheet} />
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      {sheet.kind === 'run' && <RunResults store={store} next={thing} />}
      {toMeasure && cautions.isOpen.value && (
        <Cautions cautions={cautions} onRead={() => document.getElementById('capture-title')?.focus()} />
      )}
      {toMeasure && <CaptureCard store={store} isNext />}
      {thing && !IN_BODY.has(thing.id) && (
        <section class={look.card} aria-labelledby="next-title">
          <h2 id="next-title">Next</h2>
          {thing.note && <p class={look.quiet}>{thing.note}</p>}
          {thing.id === 'seal' ? (
            <SealLink />
          ) : (
            <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void carryOn(store, thing)}>
              {thing.text}
            </Action>
          )}
        </section>
      )}
      {Body && <Body store={store} next={thing} />}
      {isMeasured(sheet.kind) && !toMeasure && <CaptureCard store={store} isNext={false} />}
      {sheet.kind === 'run' && <PasteCard store={store} />}
      <Closed title="Trace the selected cell" gist="back to its readings">
        <TraceCard store={store} />
      </Closed>
      <Closed title="Check" gist="is everything as built?">
        <CheckCard store={store} />
        <UpdateCard store={store} />
      </Closed>
      <Closed
        id="seal-fold"
        title="Seal"
        gist={line.value?.isBroken ? 'it does not hold' : sheet.isSealed ? 'it is sealed' : 'not sealed'}
      >
        <SealCard store={store} />
      </Closed>
    </div>
  );
}

/** While somebody types within the element, the sheet that is shown stays; a button pressed ends that. */
function useHolding({ hold, release }: Store['front']) {
  return useCallback(
    (element: HTMLElement | null) => {
      element?.addEventListener('input', hold);
      element?.addEventListener('click', ({ target }) => {
        if ((target as HTMLElement).closest('button')) release();
      });
    },
    [hold, release],
  );
}

/** The seal is made where its statement and its keys are. */
function SealLink() {
  return (
    <Action
      isMain
      onAct={() => {
        const fold = document.getElementById('seal-fold')?.querySelector('details');
        if (!fold) return;
        fold.open = true;
        fold.querySelector('summary')?.focus();
        fold.scrollIntoView?.({ block: 'start' });
      }}
    >
      Seal it
    </Action>
  );
}

interface ClosedProps {
  readonly id?: string;
  readonly title: string;
  readonly gist: string;
  readonly children: ComponentChildren;
}

/** What is there when it is wanted: nothing of it is made before it is opened. */
function Closed({ id, title, gist, children }: ClosedProps) {
  const isOpen = useSignal(false);
  return (
    <div id={id}>
      <Fold
        hasCards
        title={title}
        gist={gist}
        isOpen={isOpen.value}
        onFold={(open) => {
          isOpen.value = open;
        }}
      >
        {isOpen.value && children}
      </Fold>
    </div>
  );
}

/** Something else is in front. */
function NotOurs({ store }: { readonly store: Store }) {
  const { workbook, host, troubles } = store;
  const { active, sheets } = workbook.survey.value!;
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => heading.current?.focus(), []);
  const go = async (sheet: string) => {
    await troubles.attempt('Going to the sheet', () => host.select(sheet, 'A1'));
    await workbook.look();
  };
  return (
    <section class={look.card} aria-labelledby="not-ours-title">
      <h2 id="not-ours-title" tabIndex={-1} ref={heading}>
        “{active}” is not a sheet of this add-in
      </h2>
      {sheets.length === 0 ? (
        <>
          <p>Nothing is measured in this workbook yet.</p>
          <Action isMain onAct={() => store.open('home')}>
            Begin with a question
          </Action>
        </>
      ) : (
        <>
          <p>It is left alone. Bring one of these to the front, or see all of them at Home.</p>
          <ul class={list.entries}>
            {sheets.slice(0, 6).map(({ sheet }) => (
              <li key={sheet}>
                <button type="button" onClick={() => void go(sheet)}>
                  {sheet}
                </button>
              </li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}
