import { Action } from '../components/Action';
import { Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import look from '../components/look.module.css';
import type { RoomField } from './fields';
import { RoomAnswer } from './RoomAnswer';
import type { NeedStep, RoomEntry } from './state';

/** What has a sensible answer already. */
const MORE: readonly RoomField[] = [
  'ageing',
  'mode',
  'colourPart',
  'gain',
  'luminance',
  'contrast',
  'ownContrast',
];

export interface RoomProps {
  readonly step: NeedStep;
  readonly room: RoomEntry;
  /** From 1. */
  readonly place: number;
}

/** One room: its fields, and what it needs at once below them. */
export function Room({ step, room, place }: RoomProps) {
  const { form, understood } = room;
  const texts = form.texts.value;
  const at = `need-${place}`;
  return (
    <section class={look.card} aria-labelledby={`${at}-title`}>
      <h2 id={`${at}-title`}>{texts.room.trim() || `Room ${place}`}</h2>
      <Fields form={form} at={at} ids={['room', 'known']} />
      <div class={look.pair}>
        <Fields form={form} at={at} ids={['width', 'height', 'diagonal', 'aspect']} />
      </div>
      <Fields form={form} at={at} ids={['ambient', 'task']} />
      <FieldGroup
        form={form}
        at={at}
        ids={MORE}
        title="Reserves and wishes"
        gist={`${texts.ageing} % after ageing, ${texts.mode} % in daily mode`}
        isDense
      />
      <RoomAnswer understood={understood} />
      <Action onAct={() => step.lines.drop(form)}>Remove room {place}</Action>
    </section>
  );
}
