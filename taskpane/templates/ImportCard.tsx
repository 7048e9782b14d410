import { NO_ANSWERS } from '../../src/template/answers';
import { sheetSet } from '../../src/template/steps';
import type { Template } from '../../src/template/template';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { TextSource } from '../importing/TextSource';
import type { Store } from '../store';
import { Gist, Preview } from './Preview';
import type { TemplatesStep } from './state';
import shared from './templates.module.css';

interface Props {
  readonly store: Store;
  readonly step: TemplatesStep;
}

/** A template from a file: looked at first, then kept or built, or neither. */
export function ImportCard({ store, step }: Props) {
  const { text, read, problem, choose, paste } = step.importing;
  const found = read.value;
  return (
    <TextSource
      id="templates"
      title="Import a template"
      gist="a file of somebody else, or of another workbook"
      file={{
        label: 'Template file',
        accept: '.json,application/json',
        onChoose: (file) => void choose(file),
      }}
      paste={{ label: 'Or paste its text', rows: 3, onPaste: paste }}
      text={text.value}
      said={
        <>
          {problem.value && <p class={look.error}>{problem.value}</p>}
          {found && !found.ok && (
            <>
              <p class={look.error}>This is not taken as a template:</p>
              <ul class={shared.errors}>
                {found.problems.map((sentence) => (
                  <li key={sentence}>{sentence}</li>
                ))}
              </ul>
            </>
          )}
        </>
      }
    >
      {found?.ok && <Found store={store} step={step} template={found.template} />}
    </TextSource>
  );
}

function Found({ store, step, template }: Props & { readonly template: Template }) {
  const { importing, keeping, applying } = step;
  const isBusy = store.troubles.busy.value !== '';
  const there = keeping.titled(template.title);
  return (
    <div class={shared.asked}>
      <h3>{template.title}</h3>
      <Gist template={template} />
      <Preview set={sheetSet(template, { ...NO_ANSWERS, today: store.today })} />
      {there && (
        <p class={look.quiet}>
          This workbook keeps a template of that title already; keeping this one takes its place. Sheets built
          from it stay as they are.
        </p>
      )}
      <div class={look.answers}>
        <Action
          isMain
          isOff={isBusy}
          onAct={() => {
            void keeping.keep(template).then((isKept) => {
              if (isKept) importing.clear();
            });
          }}
        >
          {there ? 'Keep it in place of that one' : 'Keep it in this workbook'}
        </Action>
        <Action isOff={isBusy} onAct={() => applying.choose(template)}>
          Build its sheets …
        </Action>
        <Action onAct={importing.clear}>Take neither</Action>
      </div>
    </div>
  );
}
