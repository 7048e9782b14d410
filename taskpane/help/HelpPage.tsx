import { FUNCTIONS } from '../../src/functions/table';
import { Action } from '../components/Action';
import { Further, type FurtherProps } from '../components/Further';
import look from '../components/look.module.css';
import { SaveFile } from '../saving/SaveFile';
import type { Store } from '../store';
import { WHY_COLOUR } from './colour';
import { fieldHelp } from './fields';
import own from './HelpPage.module.css';
import { STEPS, type Step } from './steps';
import { TERMS } from './terms';
import { helpText } from './text';
import { topicOf } from './topic';

/** Help: a page for each step, then fields and terms. It is all here; nothing is fetched. */
export function HelpPage({ store }: { readonly store: Store }) {
  const topic = topicOf(store).value;
  const asked = STEPS.find(({ page }) => page === topic);
  return (
    <>
      {asked && (
        <section class={`${look.card} ${own.help}`} aria-labelledby="help-asked">
          <h2 id="help-asked">{asked.title}</h2>
          <StepHelp store={store} step={asked} />
        </section>
      )}
      <section class={`${look.card} ${own.help}`} aria-labelledby="help-steps">
        <h2 id="help-steps">{asked ? 'All steps' : 'Step by step'}</h2>
        {STEPS.filter((step) => step !== asked).map((step) => (
          <Part key={step.page} title={step.title} gist={step.what}>
            <StepHelp store={store} step={step} />
          </Part>
        ))}
      </section>
      <section class={`${look.card} ${own.help}`} aria-labelledby="help-words">
        <h2 id="help-words">Words</h2>
        <Part title="Why colour is not white" gist="for whoever decides" isOpen={topic === 'colour'}>
          {WHY_COLOUR.map((paragraph) => (
            <p key={paragraph}>{paragraph}</p>
          ))}
        </Part>
        <Part title="Terms" gist={`${TERMS.length} words of the field, each with its source`}>
          <dl>
            {TERMS.map((one) => (
              <Meaning key={one.term} {...one} />
            ))}
          </dl>
        </Part>
        <Part title="The fields of a run" gist="what each is for, as its cell says it">
          <dl>
            {fieldHelp().map(({ label, why }) => (
              <div key={label}>
                <dt>{label}</dt>
                <dd>{why}</dd>
              </div>
            ))}
          </dl>
        </Part>
        <Action onAct={() => store.open('functions')}>The functions, each with its example</Action>
      </section>
      <section class={look.card} aria-labelledby="help-kept">
        <h2 id="help-kept">To keep</h2>
        <p class={look.quiet}>All of this as one text, to print or to read without the pane.</p>
        <SaveHelp />
      </section>
    </>
  );
}

/** A part that unfolds, to be read. */
function Part({ children, ...rest }: FurtherProps) {
  return (
    <Further {...rest}>
      <div class={own.text}>{children}</div>
    </Further>
  );
}

/** The functions are loaded already: the spreadsheet program has them. */
function SaveHelp() {
  return (
    <SaveFile
      file={() => ({ name: 'help.md', type: 'text/markdown', text: helpText(FUNCTIONS) })}
      copy="Copy the help"
    >
      Save as a file
    </SaveFile>
  );
}

function StepHelp({ store, step }: { readonly store: Store; readonly step: Step }) {
  const { page, what, needs, how, after, terms } = step;
  return (
    <>
      <p>{what}</p>
      {needs && (
        <p>
          <strong>At hand:</strong> {needs}
        </p>
      )}
      <ol>
        {how.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ol>
      <p>
        <strong>Then:</strong> {after}
      </p>
      <Part title="Words used here" gist={terms.join('; ')}>
        <dl>
          {TERMS.filter(({ term }) => terms.includes(term)).map((one) => (
            <Meaning key={one.term} {...one} />
          ))}
        </dl>
      </Part>
      <div>
        <Action onAct={() => store.open(page)}>Go there</Action>
      </div>
    </>
  );
}

function Meaning({ term, meaning, source }: (typeof TERMS)[number]) {
  return (
    <div>
      <dt>{term}</dt>
      <dd>
        {meaning} <span class={look.quiet}>Source: {source}.</span>
      </dd>
    </div>
  );
}
