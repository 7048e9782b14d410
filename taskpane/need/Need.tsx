import { Action } from '../components/Action';
import { Build } from '../components/Build';
import look from '../components/look.module.css';
import type { Store } from '../store';
import { Room } from './Room';
import { MOST_ROOMS, needOf } from './state';
import { Tender } from './Tender';
import { askedFigure } from './wording';

/** What light output to ask for: rooms in, lumens and words for a tender out. */
export function Need({ store }: { readonly store: Store }) {
  const step = needOf(store);
  const { rooms, lines, largest, report } = step;
  const asked = largest.value;
  return (
    <>
      {step.sheetReport.value && (
        <p class={look.done} role="status">
          {step.sheetReport.value}
        </p>
      )}
      {rooms.value.map((room, i) => (
        <Room key={room.form.key} step={step} room={room} place={i + 1} />
      ))}
      {!lines.isFull.value ? (
        <div>
          <Action onAct={lines.add}>Add a room</Action>
        </div>
      ) : (
        <p class={look.quiet}>
          The pane takes {MOST_ROOMS} rooms; the sheet can be given more lines by hand.
        </p>
      )}
      <Tender step={step} />
      <section class={look.card} aria-labelledby="need-build-title">
        <h2 id="need-build-title">Sheet</h2>
        <p class={look.quiet}>
          {asked
            ? `One line a room, a table of “what if”, and words for a tender that asks for ${askedFigure(asked.white)} lm white and ${askedFigure(asked.colour)} lm colour.`
            : 'One line a room, a table of “what if”, and words for a tender.'}
        </p>
        <Build isOff={store.troubles.busy.value !== ''} report={report.value} onBuild={step.build}>
          Build the need sheet
        </Build>
      </section>
    </>
  );
}
