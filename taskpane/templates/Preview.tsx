import { inspectionWords } from '../../src/procurement/lot/plan';
import type { SheetSet } from '../../src/template/steps';
import type { Template } from '../../src/template/template';
import look from '../components/look.module.css';
import own from './Preview.module.css';

/** What a template holds, in a few lines. */
export function Gist({ template }: { readonly template: Template }) {
  const { rooms, meter, decision, sample, note } = template;
  const facts = [
    rooms.length === 0 ? 'no rooms' : `${rooms.length} ${rooms.length === 1 ? 'room' : 'rooms'}`,
    `meter ${meter.name ? `“${meter.name}”` : 'not named'}`,
    `at least ${Number((decision.leastPart * 100).toPrecision(4))} % of the rated value`,
    `rule “${decision.rule}”`,
    `${sample.units === undefined ? '' : `${sample.units} units, `}AQL ${sample.aql} %, ${inspectionWords(sample)}`,
  ];
  return (
    <>
      {note && <p class={own.note}>{note}</p>}
      <p class={look.quiet}>{facts.join(' · ')}</p>
    </>
  );
}

/** The sheets that would be built, and what is left out. */
export function Preview({ set }: { readonly set: SheetSet }) {
  const { steps, left } = set;
  return (
    <div class={own.parts}>
      <p>
        {steps.length === 0
          ? 'Nothing can be built from it yet: answer what is asked above.'
          : `${steps.length} ${steps.length === 1 ? 'sheet' : 'sheets'} would be built:`}
      </p>
      <ol>
        {steps.map(({ key, label, links }) => (
          <li key={key}>
            {label}
            {links && <span class={look.quiet}> – {links}</span>}
          </li>
        ))}
      </ol>
      {left.length > 0 && (
        <ul class={own.left}>
          {left.map((sentence) => (
            <li key={sentence}>{sentence}</li>
          ))}
        </ul>
      )}
    </div>
  );
}
