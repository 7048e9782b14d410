import { Action } from '../../components/Action';
import { Field, Fields } from '../../components/Field';
import { FieldGroup, type FieldGroupProps } from '../../components/FieldGroup';
import { focusUnfit } from '../../components/focus';
import { later } from '../../components/Later';
import look from '../../components/look.module.css';
import { PerSheet } from '../../components/PerSheet';
import { effortOf } from '../../setup/effort';
import type { FieldId } from '../../setup/field';
import type { SetupForm } from '../../setup/form';
import type { Store } from '../../store';
import { newRunOf } from '../newrun';
import { ImagePicture } from './ImagePicture';
import own from './NewRun.module.css';

const MyMeters = later(async () => (await import('../../metercheck/MyMeters')).MyMeters);
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
interface Group extends Omit<FieldGroupProps<FieldId>, 'form' | 'children' | 'gist'> {
  /** Some of its fields, by a word each: what is said of it while it is closed. */
  readonly gist: Partial<Record<FieldId, string>>;
}
const GROUPS: readonly Group[] = [
  {
    title: 'What to measure',
    gist: { colour: 'colour', ambient: 'ambient', black: 'black \u2026' },
    ids: ['colour', 'ambient', 'black', 'checkerboard', 'corners', 'standard'],
  },
  {
    title: 'The meter',
    gist: { range: 'range', calibration: 'calibration', whiteCorrection: 'corrections' },
    ids: [
      'meterName',
      'range',
      'digit',
      'calibratedOn',
      'dueOn',
      'certificate',
      'calibration',
      'whiteCorrection',
      'redCorrection',
      'greenCorrection',
      'blueCorrection',
    ],
  },
  {
    title: 'As printed in the meter’s data sheet',
    gist: { ofReading: '± % and digits', f1: 'f1′', f2: 'cosine' },
    note: 'Two figures of the data sheet, ± % of reading and ± digits, do most. Leave empty what it does not say.',
    isDense: true,
    ids: [
      'ofReading',
      'digits',
      'statement',
      'meterClass',
      'f1',
      'f2',
      'linearity',
      'repeatability',
      'repeatabilityReadings',
      'placing',
      'meterCheck',
    ],
  },
  {
    title: 'Who, when, which unit',
    gist: { serial: 'serial number', place: 'place', measuredBy: 'person', date: 'date' },
    ids: ['serial', 'place', 'measuredBy', 'date'],
  },
  {
    title: 'Rated values and screen',
    gist: { ratedWhite: 'rated light', gain: 'gain' },
    ids: ['ratedWhite', 'ratedColour', 'minimum', 'gain'],
  },
  {
    title: 'How sure do you need to be',
    gist: { repeats: 'repeats', otherHalf: 'doubts', rule: 'decision rule' },
    note: 'Leave empty what you do not know: a cautious value then counts, and the sheet says so.',
    isDense: true,
    ids: [
      'repeats',
      'rule',
      'level',
      'light',
      'throwDistance',
      'sensorHeight',
      'room',
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
  const { troubles } = store;
  const newRun = newRunOf(store);
  const { form } = newRun;
  const build = async () => {
    if (!(await newRun.build())) focusUnfit();
  };
  return (
    <section class={look.card} aria-labelledby="run-form-title">
      <h2 id="run-form-title">New run</h2>
      <p class={look.quiet}>
        One projector in one mode: its light in lumens, with the doubt.{' '}
        <strong>{effortOf(form.texts.value)}</strong>
      </p>
      <SameAs store={store} />
      <ModelFields form={form} />
      <ImageFields form={form} />
      <Field form={form} id="meterUnit" />
      <FurtherFields store={store} />
      <Unfit form={form} />
      <Action isMain isOff={troubles.busy.value !== ''} onAct={() => void build()}>
        Build the run sheet
      </Action>
    </section>
  );
}

/** The set-up of a run that is there already: what is known is not typed twice. */
function SameAs({ store }: { readonly store: Store }) {
  const { workbook } = store;
  const newRun = newRunOf(store);
  const runs = workbook.runs.value;
  if (runs.length === 0) return null;
  return (
    <div>
      <PerSheet
        id="run-same-as"
        label="Same set-up as"
        sheets={runs.slice(-3).map(({ sheet }) => sheet)}
        isOff={store.troubles.busy.value !== ''}
        onAct={(sheet) => void newRun.takeRun(sheet)}
      >
        {(sheet) => `Same set-up as “${sheet}”`}
      </PerSheet>
      <p class={look.quiet} role="status">
        {newRun.takenFrom.value &&
          `Filled in from “${newRun.takenFrom.value}”: projector, mode, image, meter and what is known of the doubt.`}
      </p>
    </div>
  );
}

/** Which projector, in which mode. */
export function ModelFields({ form }: { readonly form: SetupForm }) {
  return <Fields form={form} ids={FIRST} />;
}

export function ImageFields({ form }: { readonly form: SetupForm }) {
  return (
    <fieldset class={own.image}>
      <legend>Image on the screen</legend>
      <Fields form={form} ids={IMAGE} />
      <ImagePicture picture={form.picture.value} />
    </fieldset>
  );
}

/** What has a usual answer, folded by subject. */
export function FurtherFields({
  store,
  isUsed = () => true,
}: {
  readonly store: Store;
  /** Which fields the form around has a use for. */
  readonly isUsed?: (id: FieldId) => boolean;
}) {
  const newRun = newRunOf(store);
  const { form, offers } = newRun;
  const groups = GROUPS.map(({ ids, gist, ...group }) => {
    const words = Object.entries(gist).filter(([id]) => isUsed(id as FieldId));
    return { ...group, ids: ids.filter(isUsed), gist: words.map(([, word]) => word).join(', ') };
  });
  return (
    <>
      {groups.map((group) => {
        const [only, another] = group.ids;
        if (only === undefined) return null;
        // A fold around one field hides it behind a click for nothing.
        if (another === undefined) return <Field key={group.title} form={form} id={only} />;
        return (
          <FieldGroup key={group.title} form={form} {...group}>
            {group.ids.includes('meterName') && <MyMeters store={store} />}
            {group.ids.includes('ratedWhite') && offers.value.length > 0 && <RatedFrom newRun={newRun} />}
          </FieldGroup>
        );
      })}
    </>
  );
}

/** How many fields still want something, said beside the button. */
function Unfit({ form }: { readonly form: SetupForm }) {
  const open = form.unfit.value.filter(form.isShown).length;
  const words = open === 1 ? 'One field needs another look.' : `${open} fields need another look.`;
  return (
    <p class={look.unfit} role="status">
      {open > 0 ? words : ''}
    </p>
  );
}
