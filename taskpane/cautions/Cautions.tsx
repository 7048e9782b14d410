import { Action } from '../components/Action';
import { Fold } from '../components/Fold';
import own from './Cautions.module.css';
import type { Cautions as CautionsStore } from './state';

/** Our own words for what references on photobiological safety and common practice ask of people who measure. */
export const CAUTIONS: readonly (readonly [string, string])[] = [
  [
    'Eyes first.',
    'Never look into the lens, and keep your head out of the beam. Stand to the side and hold the meter at arm\u2019s length, its sensor to the light.',
  ],
  [
    'Keep the distance.',
    'Stay outside the hazard distance printed on the projector. Where the label says risk group 3, only with controlled access.',
  ],
  [
    'Hot and under pressure.',
    'Lamp housing and exhaust are hot, and a discharge lamp is under pressure. Let them cool.',
  ],
  ['Mains.', 'Open no cover. Unplug before you touch what is inside one.'],
  ['In the dark.', 'Clear away cables and light the floor before you walk.'],
  ['Up high.', 'Reach high points from a proper platform, not from a chair, and not alone.'],
];

export const LAW =
  'The maker\u2019s manual, the site\u2019s rules and local law come first. Work at height, on mains and with sources of a high risk group is for people licensed or trained for it.';

export interface CautionsProps {
  readonly cautions: CautionsStore;
  /** They go once they are read: the focus goes on. */
  readonly onRead: () => void;
}

/** What to heed before measuring. Stands open before the first readings; once read it folds. */
export function Cautions({ cautions, onRead }: CautionsProps) {
  return (
    <div>
      <Fold isGrave title="Before you measure" isOpen={cautions.isOpen.value} onFold={cautions.fold}>
        <CautionList />
        <Action
          onAct={() => {
            void cautions.read();
            onRead();
          }}
        >
          I have read this
        </Action>
      </Fold>
    </div>
  );
}

export function CautionList() {
  return (
    <>
      <ul class={own.list}>
        {CAUTIONS.map(([lead, rest]) => (
          <li key={lead}>
            <strong>{lead}</strong> {rest}
          </li>
        ))}
      </ul>
      <p>{LAW}</p>
    </>
  );
}
