import '../../../taskpane/tokens.css';
import '../../../taskpane/base.css';
import '../../../taskpane/components/look.module.css';
import { signal } from '@preact/signals';
import { type ComponentChildren, render } from 'preact';
import { operatingCurve } from '../../../src/procurement/lot/curve';
import { AgeingPicture } from '../../../taskpane/ageing/AgeingPicture';
import { answer } from '../../../taskpane/ageing/forecast';
import { drawing } from '../../../taskpane/ageing/picture';
import app from '../../../taskpane/app.module.css';
import { Action } from '../../../taskpane/components/Action';
import { AskedEntry } from '../../../taskpane/components/AskedEntry';
import { Busy } from '../../../taskpane/components/Busy';
import { Choice } from '../../../taskpane/components/Choice';
import { Entry } from '../../../taskpane/components/Entry';
import { FieldGroup } from '../../../taskpane/components/FieldGroup';
import look from '../../../taskpane/components/look.module.css';
import { Report } from '../../../taskpane/components/Report';
import { TroubleBox } from '../../../taskpane/components/TroubleBox';
import { fields } from '../../../taskpane/form/field';
import { createForm } from '../../../taskpane/form/form';
import { EntryList } from '../../../taskpane/pages/EntryList';
import { FORMS } from '../../../taskpane/pages/entries';
import { Bars } from '../../../taskpane/picture/Bars';
import { Curve } from '../../../taskpane/picture/Curve';
import { HeatMap } from '../../../taskpane/picture/HeatMap';
import { Picture } from '../../../taskpane/picture/Picture';
import { DecisionCard } from '../../../taskpane/run/ui/DecisionCard';
import head from '../../../taskpane/sheet/SheetHead.module.css';
import { stateWords } from '../../../taskpane/sheet/statewords';

/*
 * Every component of the pane in every state, from the files that the pane uses: `npm run dev`, then
 * `/components/components.html`. Names and figures are invented. Dark, high contrast and zoom are the browser's.
 */

const facts = { platform: 'an invented program', isWorkbench: true } as never;
const nothing = () => {};

function Part({ title, children }: { readonly title: string; readonly children: ComponentChildren }) {
  const id = `part-${title.replace(/\W/g, '')}`;
  return (
    <section class={look.card} aria-labelledby={id}>
      <h2 id={id}>{title}</h2>
      {children}
    </section>
  );
}

function Buttons() {
  return (
    <div class={look.answers}>
      <Action isMain onAct={nothing}>
        The main thing
      </Action>
      <Action onAct={nothing}>Another</Action>
      <Action isOff onAct={nothing}>
        Not now
      </Action>
    </div>
  );
}

const typed = signal('Reading room 3, unit B (invented)');

function Fields() {
  return (
    <>
      <Entry id="fresh" label="Fresh" value="" hint="As the offer calls it." onType={nothing} />
      <Entry
        id="filled"
        label="Filled"
        value={typed.value}
        onType={(text) => {
          typed.value = text;
        }}
      />
      <Entry
        id="wrong"
        label="Wrong"
        value="matt"
        error="The gain must be a number from 0.05 to 20, not “matt”."
        onType={nothing}
      />
      <AskedEntry
        id="asked"
        label="Asked back"
        value="1,234"
        read={{ question: { message: 'Is the comma a decimal mark?', point: 1234, comma: 1.234 } }}
        isShown
        onType={nothing}
        onDecide={nothing}
      />
      <Choice
        id="choice"
        label="A choice"
        value="m"
        choices={[
          ['m', 'metres'],
          ['ft', 'feet'],
        ]}
        hint="What the tape has."
        onPick={nothing}
      />
      <FieldGroup form={USUAL} ids={['one']} title="Closed until it is wanted" gist="what is usual stays" />
    </>
  );
}

const USUAL = createForm(fields({ one: { kind: 'text', label: 'Here it is' } }), { name: 'usual' });

const STATES = [
  { tone: 'none', state: 'empty', outcome: undefined },
  { tone: 'open', state: 'in progress, 24 of 38', outcome: undefined },
  { tone: 'good', state: 'complete', outcome: 'good' },
  { tone: 'good', state: 'complete', outcome: 'bad' },
  { tone: 'good', state: 'sealed', outcome: 'good' },
  { tone: 'good', state: 'sealed', outcome: 'good', isBroken: true },
] as const;

function Heads() {
  return (
    <>
      {STATES.map((one) => {
        const { tone, sign, words } = stateWords({ isBroken: false, ...one });
        return (
          <div key={words} class={head.head}>
            <p class={look.state} data-tone={tone}>
              <span aria-hidden="true">{sign}</span> {words}
            </p>
            <p class={head.outcome}>
              <span class={look.quiet}>White light output, lm</span>
              <strong data-outcome={one.outcome}>3130 ± 170{one.outcome === 'bad' ? ', fail' : ''}</strong>
            </p>
          </div>
        );
      })}
    </>
  );
}

function Messages() {
  return (
    <>
      <Busy doing="Building the run sheet" />
      <Report words="Built the sheet “Run Unit A”." />
      <Report words={{ refused: 'Nothing was built: some fields need another look.' }} />
      <div class={look.notice}>
        <p>The ambient light is not read: 20 units wait for it.</p>
        <Action onAct={nothing}>Go to the ambient reading</Action>
      </div>
      <TroubleBox
        trouble={{
          message: 'A cell is being edited.',
          remedy: 'Press Enter or Esc in the sheet, then try again.',
          detail: 'InvalidOperationInCellEditMode',
        }}
        facts={facts}
        onDismiss={nothing}
      />
    </>
  );
}

const DECISION = {
  id: 'White',
  label: 'White light output',
  value: 2540,
  expanded: 140,
  limit: 2400,
  guard: 140,
  hasFour: true,
  verdict: 'conditional pass',
  probability: 0.97,
  rule: 'guard band U: four outcomes',
  words: 'White light output (2540 ± 140) lm; limit 2400 lm: conditional pass.',
} as const;

const POINTS = [
  { hours: 0, output: 3100, expanded: 90 },
  { hours: 900, output: 3010, expanded: 90 },
  { hours: 2100, output: 2890, expanded: 90 },
  { hours: 3000, output: 2810, expanded: 90 },
];

function Pictures() {
  const aged = answer({
    points: POINTS,
    needed: 2500,
    level: 0.9545,
    hoursPerYear: 1200,
  } as never);
  const curve = operatingCurve({ lotSize: 60, sampleSize: 13, accept: 1 } as never, 12);
  const bars = [
    { label: 'Unit A (invented), Standard', text: '(3130 ± 170) lm', value: 3130, expanded: 170 },
    { label: 'Unit B (invented), Standard', text: '(2210 ± 120) lm', value: 2210, expanded: 120 },
  ];
  return (
    <>
      <Picture title="A field as read" table={{ head: ['point', 'reading'], rows: [['top left', '1092']] }}>
        <HeatMap
          words="White, as on the display: from 1066 to 1251."
          values={[
            [1092, 1148, 1080],
            [1164, 1251, 1159],
            [1071, null, 1066],
          ]}
        />
      </Picture>
      <DecisionCard decision={DECISION} />
      <Picture
        title="A comparison"
        table={{ head: ['run', 'white'], rows: bars.map(({ label, text }) => [label, text]) }}
      >
        <Bars lines={bars} most={3300} />
      </Picture>
      {typeof aged === 'string' ? (
        <p>{aged}</p>
      ) : (
        <Picture title="Light over the hours" table={{ head: ['hours', 'lm'], rows: [['0', '3100']] }}>
          <AgeingPicture drawing={drawing(POINTS as never, aged)} />
        </Picture>
      )}
      {curve.ok && (
        <Picture title="A plan" table={{ head: ['not conforming', 'accepted'], rows: [['0', '100 %']] }}>
          <Curve points={curve.value} lotSize={60} words="Accepted for certain with none that fail." />
        </Picture>
      )}
    </>
  );
}

render(
  <main class={app.page}>
    <h1>Components</h1>
    <Part title="Buttons">
      <Buttons />
    </Part>
    <Part title="Fields">
      <Fields />
    </Part>
    <Part title="How a sheet stands">
      <Heads />
    </Part>
    <Part title="What is said">
      <Messages />
    </Part>
    <Part title="Ways to other pages">
      <EntryList entries={FORMS.slice(0, 2)} onOpen={nothing} />
    </Part>
    <Part title="Pictures">
      <Pictures />
    </Part>
  </main>,
  document.getElementById('pane')!,
);
