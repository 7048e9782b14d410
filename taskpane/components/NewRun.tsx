import { useSignal } from '@preact/signals';
import type { ComponentChildren } from 'preact';
import { useEffect, useRef } from 'preact/hooks';
import type { FieldId } from '../setup/field';
import type { Form } from '../setup/form';
import type { Store } from '../store';
import { Action } from './Action';
import { Field } from './Field';
import { Fold } from './Fold';
import { focusUnfit } from './focus';
import { ImagePicture } from './ImagePicture';
import { later } from './Later';

const RatedFrom = later(async () => (await import('./RatedFrom')).RatedFrom);

/** What a first run needs; the rest has a sensible answer already and stands folded below. */
const FIRST: readonly FieldId[] = ['projector', 'mode'];
const IMAGE: readonly FieldId[] = [
  'known',
  'length',
  'aspect',
  'width',
  'height',
  'top',
  'right',
  'bottom',
  'left',
  'falling',
  'rising',
  'lengthUnit',
];
const GROUPS: readonly Omit<GroupProps, 'form' | 'children'>[] = [
  {
    title: 'What to measure',
    gist: 'colour, ambient, black \u2026',
    ids: ['colour', 'ambient', 'black', 'checkerboard', 'corners', 'standard'],
  },
  {
    title: 'The meter',
    gist: 'range, calibration, corrections',
    ids: [
      'meterName',
      'range',
      'digit',
      'calibratedOn',
      'calibration',
      'whiteCorrection',
      'redCorrection',
      'greenCorrection',
      'blueCorrection',
    ],
  },
  {
    title: 'Who, when, which unit',
    gist: 'serial number, place, date',
    ids: ['serial', 'place', 'measuredBy', 'date'],
  },
  {
    title: 'Rated values and screen',
    gist: 'rated light, gain',
    ids: ['ratedWhite', 'ratedColour', 'minimum', 'gain'],
  },
  {
    title: 'How sure do you need to be',
    gist: 'repeats, doubts, decision rule',
    note: 'Leave empty what you do not know: a cautious value then counts, and the sheet says so.',
    isDense: true,
    ids: [
      'repeats',
      'rule',
      'level',
      'meterClass',
      'ofReading',
      'digits',
      'whiteMismatch',
      'redMismatch',
      'greenMismatch',
      'blueMismatch',
      'blackMismatch',
      'widthHalf',
      'heightHalf',
      'squareHalf',
      'ambientHalf',
      'gainHalf',
      'otherHalf',
    ],
  },
];

/** The set-up form and the button that builds the sheet. */
export function NewRun({ store }: { readonly store: Store }) {
  const { newRun, troubles } = store;
  const { form } = newRun;
  const built = newRun.built.value;
  const message = useRef<HTMLParagraphElement>(null);
  // The button that was pressed folds away with the form; the focus goes on to what it did.
  useEffect(() => {
    if (built) message.current?.focus();
  }, [built]);
  const build = async () => {
    if (!(await newRun.build())) focusUnfit();
  };
  return (
    <>
      <Fold
        title="New run"
        isOpen={newRun.isOpen.value}
        onFold={newRun.fold}
        gist="one projector in one mode"
      >
        {FIRST.map((id) => (
          <Field key={id} form={form} id={id} />
        ))}
        <fieldset class="image">
          <legend>Image on the screen</legend>
          {IMAGE.map((id) => (
            <Field key={id} form={form} id={id} />
          ))}
          <ImagePicture picture={form.picture.value} />
        </fieldset>
        <Field form={form} id="meterUnit" />
        {GROUPS.map((group) => (
          <Group key={group.title} form={form} {...group}>
            {group.ids.includes('ratedWhite') && newRun.offers.value.length > 0 && (
              <RatedFrom newRun={newRun} />
            )}
          </Group>
        ))}
        <Unfit form={form} />
        <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void build()}>
          Build the run sheet
        </Action>
      </Fold>
      {built && (
        <p ref={message} class="done" tabIndex={-1} role="status">
          Built the sheet “{built}”. Type the readings there as they lie on the screen, or paste them below.
        </p>
      )}
    </>
  );
}

interface GroupProps {
  readonly form: Form;
  readonly title: string;
  readonly gist: string;
  readonly ids: readonly FieldId[];
  /** Said above the fields. */
  readonly note?: string;
  /** Numbers two beside each other: there are many. */
  readonly isDense?: boolean;
  readonly children?: ComponentChildren;
}

/** Fields that most runs leave alone. A group with an error to show cannot stay folded. */
function Group({ form, title, gist, ids, note, isDense = false, children }: GroupProps) {
  const isOpen = useSignal(false);
  const hasError = ids.some((id) => form.isShown(id) && form.unfit.value.includes(id));
  const fields = ids.map((id) => <Field key={id} form={form} id={id} />);
  return (
    <Fold
      kind="group"
      title={title}
      gist={gist}
      isOpen={isOpen.value || hasError}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      {note && <p class="quiet">{note}</p>}
      {children}
      {isDense ? <div class="pairs">{fields}</div> : fields}
    </Fold>
  );
}

/** How many fields still want something, said beside the button. */
function Unfit({ form }: { readonly form: Form }) {
  const open = form.unfit.value.filter((id) => form.isShown(id)).length;
  const words = open === 1 ? 'One field needs another look.' : `${open} fields need another look.`;
  return (
    <p class="unfit" role="status">
      {open > 0 ? words : ''}
    </p>
  );
}
