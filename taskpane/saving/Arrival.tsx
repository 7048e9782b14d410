import { useEffect, useRef } from 'preact/hooks';
import { Action } from '../components/Action';
import { CopyText } from '../components/CopyText';
import look from '../components/look.module.css';
import own from './Arrival.module.css';
import { type Arrived, isText, type Offered, type SavedFile, type Saving } from './saving';

export interface ArrivalProps {
  readonly saving: Saving;
  /** What whoever has the file can do with it, where that must be known before it is copied. */
  readonly caution?: string;
}

/** Asks whether a file arrived, which only the person can see; and what to do where it did not. */
export function Arrival({ saving, caution }: ArrivalProps) {
  const outcome = useRef<HTMLParagraphElement>(null);
  const offered = saving.offered.value;
  const arrived = saving.arrived.value;
  // The button that was pressed is gone: the focus goes on to what came of it.
  useEffect(() => {
    if (arrived !== undefined && arrived !== 'asked') outcome.current?.focus();
  }, [arrived]);
  const file = offered?.file;
  const isMissing = arrived === 'missing';
  return (
    <div class={own.arrival}>
      <p
        ref={outcome}
        tabIndex={-1}
        role="status"
        class={arrived === 'came' || arrived === 'kept' ? look.done : undefined}
      >
        {offered && arrived && wordsOf(offered, arrived)}
      </p>
      {caution && (arrived === 'asked' || isMissing) && <p>{caution}</p>}
      {arrived === 'asked' && (
        <div class={look.answers}>
          <Action onAct={() => saving.tell('came')}>Yes, it is there</Action>
          <Action onAct={() => saving.tell('missing')}>No, nothing came</Action>
        </div>
      )}
      {isMissing && file && isText(file) && (
        <>
          <CopyText isShown text={() => file.text}>
            Copy the text
          </CopyText>
          <Action onAct={() => saving.tell('kept')}>I have kept the text</Action>
        </>
      )}
    </div>
  );
}

function wordsOf({ names, isOne, file }: Offered, arrived: Arrived): string {
  switch (arrived) {
    case 'asked':
      return `${names} ${isOne ? 'was' : 'were'} handed over for saving; nothing tells the pane whether that worked. Did the ${isOne ? 'file' : 'files'} appear?`;
    case 'came':
      return `Saved: ${names}.`;
    case 'kept':
      return `You have kept ${names} as text.`;
    case 'missing':
      return `So this program lets the pane save no files; Excel on a Mac, for one, does not. ${
        file && wayRound(file)
      }`;
  }
}

function wayRound(file: SavedFile): string {
  if (!isText(file)) return file.otherwise;
  return `Copy the text below into an empty file of a text editor, and save it there as plain text: ${file.name}.`;
}
