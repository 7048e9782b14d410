import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import type { Store } from '../store';
import type { JournalRecord } from './entry';
import { captureOf } from './fetched';
import type { Keeper } from './keeper';
import type { CaptureService } from './service';

export interface CaptureCardProps {
  readonly store: Store;
  /** Whether readings are what comes next with the sheet. */
  readonly isNext: boolean;
}

/** The way to guided capture, for the sheet in front. */
export function CaptureCard({ store, isNext }: CaptureCardProps) {
  const { troubles } = store;
  const capture = captureOf(store).service.value;
  if (!capture) return null;
  const where = capture.where.value;
  const target = capture.target.value;
  const sheet = store.front.sheet.value?.sheet;
  return (
    <section class={look.card} aria-labelledby="capture-title">
      <h2 id="capture-title" tabIndex={-1}>
        {isNext ? 'Next: take readings' : 'Take readings'}
      </h2>
      <p class={look.quiet}>
        Big letters ask for one reading after the other: which field, where to hold the meter, which range.
        For one hand on a number pad in the dark.
      </p>
      {where === 'window' ? (
        <>
          {target && target.sheet !== sheet && <p>The window takes readings for “{target.sheet}”.</p>}
          <Action onAct={() => capture.close()}>Close the capture window</Action>
        </>
      ) : (
        <div class={look.answers}>
          <Action
            isMain={isNext}
            isOff={!target || troubles.busy.value !== ''}
            onAct={() => void capture.open()}
          >
            Take readings in a window
          </Action>
          <Action isOff={!target} onAct={() => capture.openHere()}>
            Take them here
          </Action>
        </div>
      )}
    </section>
  );
}

/** Readings that wait for the workbook; those whose sheet is gone for good can be dropped, after a second thought. */
export function Waiting({ capture }: { readonly capture: CaptureService }) {
  const { keeper, isKept } = capture;
  const waiting = keeper.waiting.value;
  const isSure = useSignal(false);
  if (waiting.length === 0) return null;
  const drop = () => {
    for (const { entry } of waiting) keeper.decide(entry.id, 'theirs');
    isSure.value = false;
  };
  return (
    <div class={look.notice}>
      <p role="status">
        {waiting.length === 1 ? '1 reading is' : `${waiting.length} readings are`} not in the workbook yet.{' '}
        {keeper.trouble.value}
        {!isKept.value && ' This browser keeps nothing: leave the pane open until they are.'}
      </p>
      <details>
        <summary tabIndex={0}>Which</summary>
        <ul>
          {waiting.map((record) => (
            <li key={record.entry.id}>
              {record.entry.words} (“{record.entry.sheet}”)
              {record.state === 'conflict' && (
                <div class={look.answers}>
                  <span class={look.error}>
                    the cell holds {String(record.held?.[0] ?? 'nothing')} meanwhile
                  </span>
                  <Action onAct={() => keeper.decide(record.entry.id, 'theirs')}>Leave what is there</Action>
                  <Action onAct={() => keeper.decide(record.entry.id, 'mine')}>Write this</Action>
                </div>
              )}
              <HeldBackEntry keeper={keeper} record={record} />
            </li>
          ))}
        </ul>
        {isSure.value ? (
          <div class={look.answers}>
            <Action onAct={drop}>Yes, drop them for good</Action>
            <Action
              onAct={() => {
                isSure.value = false;
              }}
            >
              Keep them
            </Action>
          </div>
        ) : (
          <Action
            onAct={() => {
              isSure.value = true;
            }}
          >
            Drop them …
          </Action>
        )}
      </details>
    </div>
  );
}

const HELD_BACK = {
  elsewhere: { why: 'made in another workbook', act: 'Write it into this workbook' },
  sealed: { why: 'the sheet is sealed', act: 'Write it all the same' },
} as const;

/** An entry that only a person can send on. */
function HeldBackEntry({ keeper, record }: { readonly keeper: Keeper; readonly record: JournalRecord }) {
  const why = record.state === 'waiting' && keeper.heldBack(record);
  if (!why) return null;
  return (
    <div class={look.answers}>
      <span class={look.error}>{HELD_BACK[why].why}</span>
      <Action onAct={() => keeper.decide(record.entry.id, 'theirs')}>Drop it</Action>
      <Action onAct={() => keeper.decide(record.entry.id, 'mine')}>{HELD_BACK[why].act}</Action>
    </div>
  );
}
