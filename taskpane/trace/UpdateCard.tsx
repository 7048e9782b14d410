import type { DifferingFigure, MovedLinks } from '../../src/audit/older/update';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { count } from '../parse/block';
import type { Store } from '../store';
import { CellButton } from './CellButton';
import { type Looked, renewingOf } from './renewing';
import traced from './trace.module.css';

/** A new sheet beside one of an earlier layout, from what was typed on it. */
export function UpdateCard({ store }: { readonly store: Store }) {
  const renewing = renewingOf(store);
  const { older, looked, built, said } = renewing;
  const isOff = store.troubles.busy.value !== '';
  const shown = looked.value?.sheet === older.value ? looked.value : undefined;
  if (older.value === undefined && !built.value && said.value === '') return null;
  return (
    <section class={look.card} aria-labelledby="renewing-title">
      <h2 id="renewing-title">Bring up to date</h2>
      {older.value !== undefined && (
        <>
          <p class={look.quiet}>
            “{older.value}” was built by an earlier version of this program. It stays readable and is checked
            as it is.
          </p>
          <p class={look.quiet}>
            A new sheet is built beside it from what was typed; this one stays as it is, and links of other
            sheets go on pointing to it unless you say otherwise.
          </p>
          <div class={look.answers}>
            <Action isMain={!shown} isOff={isOff} onAct={() => void renewing.look()}>
              Look what would differ
            </Action>
          </div>
        </>
      )}
      {shown && <WouldDiffer store={store} looked={shown} />}
      <p role="status">{said.value}</p>
      {built.value && (
        <div class={look.answers}>
          <Action isOff={isOff} onAct={() => void renewing.moveLinks()}>
            Let the links go to “{built.value.sheet}” now
          </Action>
        </div>
      )}
    </section>
  );
}

function WouldDiffer({ store, looked }: { readonly store: Store; readonly looked: Looked }) {
  const renewing = renewingOf(store);
  const { sheet, made } = looked;
  const isOff = store.troubles.busy.value !== '';
  const moving = made.links.filter(({ stays }) => stays === undefined);
  return (
    <>
      <p>
        {made.differences.length === 0
          ? 'Every figure would be the same.'
          : `${count(made.differences.length, 'figure')} would differ:`}
      </p>
      {made.differences.length > 0 && (
        <ul class={traced.findings} aria-label="What would differ">
          {made.differences.map((each) => (
            <Differing key={each.at} store={store} sheet={sheet} figure={each} />
          ))}
        </ul>
      )}
      {made.links.length > 0 && <Links links={made.links} />}
      {moving.length > 0 && (
        <label class={look.tick} for="renewing-links">
          <input
            id="renewing-links"
            type="checkbox"
            checked={renewing.movesLinks.value}
            onChange={(event) => renewing.tick(event.currentTarget.checked)}
          />
          Let these links go to the new sheet
        </label>
      )}
      <div class={look.answers}>
        <Action isMain isOff={isOff} onAct={() => void renewing.build()}>
          Build the new sheet
        </Action>
      </div>
    </>
  );
}

interface DifferingProps {
  readonly store: Store;
  readonly sheet: string;
  readonly figure: DifferingFigure;
}

function Differing({ store, sheet, figure: { label, at, was, now, why } }: DifferingProps) {
  return (
    <li>
      <p class={traced.step}>
        <span>
          {label}: <strong>{was}</strong>, by today’s program <strong>{now}</strong>
        </span>
        <CellButton store={store} sheet={sheet} at={at} />
      </p>
      <p class={look.quiet}>{why}</p>
    </li>
  );
}

function Links({ links }: { readonly links: readonly MovedLinks[] }) {
  return (
    <ul aria-label="Links to this sheet">
      {links.map(({ sheet, formulas, stays }) => (
        <li key={sheet}>
          {stays === undefined
            ? `${count(Object.keys(formulas).length, 'link')} of “${sheet}”`
            : `The links of “${sheet}” stay: ${stays}.`}
        </li>
      ))}
    </ul>
  );
}
