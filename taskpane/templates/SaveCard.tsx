import { useSignal } from '@preact/signals';
import { Action } from '../components/Action';
import { Fields } from '../components/Field';
import { Fold } from '../components/Fold';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import { Tick } from '../components/Tick';
import type { Store } from '../store';
import { TEMPLATE, type TemplateField } from './choice';
import own from './SaveCard.module.css';
import type { TemplatesStep } from './state';
import shared from './templates.module.css';

interface Props {
  readonly store: Store;
  readonly step: TemplatesStep;
}

const SHEETS = (Object.keys(TEMPLATE) as TemplateField[]).filter((id) => id !== 'title' && id !== 'note');

/** Saves what stands in the forms, or on the sheets of a bid that was done, with the choice of sheets to build from it. */
export function SaveCard({ store, step }: Props) {
  const isOpen = useSignal(false);
  const { form, draft, isAllShown, collected, otherWords } = step;
  const problems = 'format' in draft.value ? [] : draft.value;
  const name = form.texts.value.title.trim();
  const there = step.keeping.titled(name);
  return (
    <Fold
      title="Save the set-up as a template"
      gist="rooms, meter, rule, words, sheets"
      isOpen={isOpen.value}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <Action isOff={store.troubles.busy.value !== ''} onAct={() => void step.takeSheets()}>
        Take everything from the sheets of this workbook
      </Action>
      <Report words={step.takenFrom.value} />
      <p class={look.quiet}>What stands in the forms now goes into the template:</p>
      <ul class={own.taken}>
        {collected.value.taken.map((sentence) => (
          <li key={sentence}>{sentence}.</li>
        ))}
      </ul>
      {otherWords.value && (
        <Tick id="templates-words" isOn={step.keepsWords.value} onTick={step.keepWords}>
          Keep the words of “{otherWords.value.sheet}” where they differ from those of the form:{' '}
          {otherWords.value.parts.join(', ')}
        </Tick>
      )}
      <Fields form={form} ids={['title', 'note']} />
      <fieldset class={own.sheets}>
        <legend>Sheets to build</legend>
        <Fields form={form} ids={SHEETS} />
      </fieldset>
      {isAllShown.value && problems.length > 0 && (
        <ul class={shared.errors}>
          {problems.map((problem) => (
            <li key={problem} class={look.error}>
              {problem}
            </li>
          ))}
        </ul>
      )}
      <Action isMain isOff={store.troubles.busy.value !== ''} onAct={() => void step.save()}>
        {there ? `Replace the template “${name}”` : 'Save the template'}
      </Action>
      <p class={look.quiet} role="status">
        {isAllShown.value && problems.length > 0 && 'Nothing was saved yet.'}
      </p>
    </Fold>
  );
}
