import { useSignal } from '@preact/signals';
import type { KeptTemplate } from '../../src/template/kept';
import { fileNameOf, writeTemplate } from '../../src/template/write';
import { Action } from '../components/Action';
import { Entry } from '../components/Entry';
import look from '../components/look.module.css';
import { Report } from '../components/Report';
import { TroubleBox } from '../components/TroubleBox';
import { SaveFile } from '../saving/SaveFile';
import type { Store } from '../store';
import own from './KeptCard.module.css';
import { Gist } from './Preview';
import type { TemplatesStep } from './state';
import shared from './templates.module.css';

interface Props {
  readonly store: Store;
  readonly step: TemplatesStep;
}

/** The templates this workbook keeps. */
export function KeptCard({ store, step }: Props) {
  const { kept, trouble, report } = step.keeping;
  const list = kept.value;
  return (
    <section class={look.card} aria-labelledby="templates-kept-title">
      <h2 id="templates-kept-title">In this workbook</h2>
      {trouble.value && <TroubleBox trouble={trouble.value} facts={store.facts} />}
      {!list ? (
        <p class={look.quiet}>Reading the workbook …</p>
      ) : list.length === 0 ? (
        <p class={look.quiet}>
          No template yet. A template keeps the set-up of a bid, to build its sheets again for the next one:
          save one below, or import a file.
        </p>
      ) : (
        <ul class={own.templates}>
          {list.map((one) => (
            <li key={one.id}>
              <Kept store={store} step={step} one={one} />
            </li>
          ))}
        </ul>
      )}
      <Report words={report.value} />
    </section>
  );
}

function Kept({ store, step, one }: Props & { readonly one: KeptTemplate }) {
  const { id, read } = one;
  const doing = useSignal<'' | 'renaming' | 'exporting' | 'deleting'>('');
  const title = useSignal('');
  const isBusy = store.troubles.busy.value !== '';
  const name = read.ok ? read.template.title : 'A template that cannot be read';
  const set = (to: '' | 'renaming' | 'exporting' | 'deleting') => {
    doing.value = doing.value === to ? '' : to;
  };
  return (
    <>
      <h3>{name}</h3>
      {read.ok ? (
        <Gist template={read.template} />
      ) : (
        read.problems.map((problem) => (
          <p key={problem} class={look.error}>
            {problem}
          </p>
        ))
      )}
      <div class={look.answers}>
        {read.ok && (
          <>
            <Action isOff={isBusy} onAct={() => step.applying.choose(read.template)}>
              Build its sheets … <span class={look.spoken}>of {name}</span>
            </Action>
            <Action
              isOff={isBusy}
              onAct={() => {
                title.value = name;
                set('renaming');
              }}
            >
              Rename <span class={look.spoken}>{name}</span>
            </Action>
            <Action onAct={() => set('exporting')}>
              Export <span class={look.spoken}>{name}</span>
            </Action>
          </>
        )}
        <Action isOff={isBusy} onAct={() => set('deleting')}>
          Delete <span class={look.spoken}>{name}</span>
        </Action>
      </div>
      {doing.value === 'renaming' && (
        <div class={shared.asked}>
          <Entry
            id={`template-${id}-title`}
            label="New title"
            value={title.value}
            onType={(text) => {
              title.value = text;
            }}
          />
          <div class={look.answers}>
            <Action
              isMain
              isOff={isBusy || title.value.trim() === ''}
              onAct={() => {
                void step.keeping.rename(one, title.value).then((isDone) => {
                  if (isDone) doing.value = '';
                });
              }}
            >
              Rename it
            </Action>
            <Action onAct={() => set('')}>Leave it</Action>
          </div>
        </div>
      )}
      {doing.value === 'exporting' && read.ok && (
        <div class={shared.asked}>
          <p class={look.quiet}>
            A JSON file that any editor shows. It holds the rooms and words above, so give it only to whom
            they concern.
          </p>
          <SaveFile
            isMain
            file={() => ({
              name: fileNameOf(read.template),
              type: 'application/json',
              text: writeTemplate(read.template),
            })}
            copy="Or copy its text"
          >
            Save the file
          </SaveFile>
        </div>
      )}
      {doing.value === 'deleting' && (
        <div class={look.notice}>
          <p>Delete “{name}” from this workbook? Sheets that were built from it stay.</p>
          <div class={look.answers}>
            <Action isOff={isBusy} onAct={() => void step.keeping.forget(one)}>
              Yes, delete it
            </Action>
            <Action onAct={() => set('')}>No, keep it</Action>
          </div>
        </div>
      )}
    </>
  );
}
