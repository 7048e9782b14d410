import { dueMeters } from '../../src/template/meters';
import { Action } from '../components/Action';
import look from '../components/look.module.css';
import { PerSheet } from '../components/PerSheet';
import { TroubleBox } from '../components/TroubleBox';
import { newRunOf } from '../run/newrun';
import type { Store } from '../store';
import { myMetersOf } from './meters';

/** Meters known already, and checks of them: a figure that is known is not asked again. */
export function MyMeters({ store }: { readonly store: Store }) {
  const state = myMetersOf(store);
  const { troubles, workbook, facts } = store;
  const isBusy = troubles.busy.value !== '';
  const list = state.meters.value;
  const name = newRunOf(store).form.texts.value.meterName.trim();
  const kept = list?.ok ? list.meters : [];
  const own = kept.find(({ meter }) => meter.name === name);
  const checks =
    workbook.survey.value?.sheets.filter(({ kind }) => kind === 'metercheck').map(({ sheet }) => sheet) ?? [];
  return (
    <div>
      {state.trouble.value && <TroubleBox trouble={state.trouble.value} facts={facts} />}
      {list && !list.ok && <p class={look.error}>{list.problem}</p>}
      {kept.length > 0 && (
        <div class={look.field}>
          <label for="my-meter">My meter</label>
          <select
            id="my-meter"
            value={own ? name : ''}
            onChange={(event) => state.take(event.currentTarget.value)}
          >
            <option value="">Another one</option>
            {kept.map(({ meter }) => (
              <option key={meter.name} value={meter.name}>
                {meter.name}
              </option>
            ))}
          </select>
        </div>
      )}
      <Due store={store} />
      <PerSheet
        id="meter-check-used"
        label="Meter check"
        sheets={checks.slice(-3)}
        isOff={isBusy}
        onAct={(sheet) => void state.takeCheck(sheet)}
      >
        {(sheet) => `Take over what “${sheet}” found`}
      </PerSheet>
      {list?.ok && name !== '' && (
        <Action isOff={isBusy} onAct={() => void state.keep()}>
          {own ? 'Keep the meter as it stands here' : 'Keep as my meter'}
        </Action>
      )}
      {own && (
        <Action isOff={isBusy} onAct={() => void state.forget(name)}>
          Take it off the list
        </Action>
      )}
      <p class={look.quiet} role="status">
        {state.report.value}
      </p>
    </div>
  );
}

/** A reminder for each meter of the list whose calibration is due. */
export function Due({ store }: { readonly store: Store }) {
  const list = myMetersOf(store).meters.value;
  const due = list?.ok ? dueMeters(list.meters, store.today) : [];
  if (due.length === 0) return null;
  return (
    <div class={look.notice}>
      {due.map(({ meter }) => (
        <p key={meter.name}>
          “{meter.name}”: its calibration was due on {meter.dueOn}. Until it is calibrated anew its readings
          may be off by more than its data sheet says.
        </p>
      ))}
    </div>
  );
}
