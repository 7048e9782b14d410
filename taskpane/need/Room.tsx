import { useSignal } from '@preact/signals';
import { taskContrast, VIEWING_TASKS, type ViewingTask } from '../../src/procurement/need/tasks';
import { Action } from '../components/Action';
import { AskedEntry } from '../components/AskedEntry';
import { Entry } from '../components/Entry';
import { Fold } from '../components/Fold';
import { ROOM_NUMBERS, type RoomNumber } from './fields';
import { RoomAnswer } from './RoomAnswer';
import { isByDiagonal, isTask } from './room';
import type { NeedStep, RoomEntry } from './state';

/** What has a sensible answer already. */
const MORE: readonly RoomNumber[] = [
  'ageing',
  'mode',
  'colourPart',
  'gain',
  'luminance',
  'contrast',
  'ownContrast',
];

export interface RoomProps {
  readonly step: NeedStep;
  readonly room: RoomEntry;
  /** From 1. */
  readonly place: number;
}

/** One room: its fields, and what it needs at once below them. */
export function Room({ step, room, place }: RoomProps) {
  const { key, texts, understood } = room;
  const isOpen = useSignal(false);
  const isShown = (text: string) => step.isAllShown.value || text.trim() !== '';
  const number = (id: RoomNumber) => (
    <AskedEntry
      key={id}
      id={`need-${place}-${id}`}
      label={ROOM_NUMBERS[id].label}
      hint={ROOM_NUMBERS[id].hint}
      value={texts[id]}
      read={understood.numbers[id]}
      isShown={isShown(texts[id])}
      onType={(text) => step.type(key, id, text)}
      onDecide={(mark) => step.decide(key, id, mark)}
    />
  );
  const byDiagonal = isByDiagonal(texts);
  const hasHidden = MORE.some((id) => understood.numbers[id].problem || understood.numbers[id].question);
  return (
    <section class="card room" aria-labelledby={`need-${place}-title`}>
      <h2 id={`need-${place}-title`}>{texts.room.trim() || `Room ${place}`}</h2>
      <Entry
        id={`need-${place}-room`}
        label="Name of the room"
        value={texts.room}
        error={isShown(texts.room) ? understood.texts.room : undefined}
        onType={(text) => step.type(key, 'room', text)}
      />
      <div class="field">
        <label for={`need-${place}-known`}>Image measured by</label>
        <select
          id={`need-${place}-known`}
          value={texts.known}
          onChange={(event) => step.type(key, 'known', event.currentTarget.value)}
        >
          <option value="width and height">width and height</option>
          <option value="diagonal">diagonal and aspect ratio</option>
        </select>
      </div>
      <div class="pair">
        {byDiagonal ? number('diagonal') : [number('width'), number('height')]}
        {byDiagonal && (
          <Entry
            id={`need-${place}-aspect`}
            label="Aspect ratio"
            value={texts.aspect}
            hint="16:10, 16:9, 4:3 …"
            error={understood.texts.aspect}
            onType={(text) => step.type(key, 'aspect', text)}
          />
        )}
      </div>
      {number('ambient')}
      <div class="field">
        <label for={`need-${place}-task`}>What people do with the picture</label>
        <select
          id={`need-${place}-task`}
          value={texts.task}
          aria-describedby={`need-${place}-task-note`}
          aria-invalid={understood.texts.task !== undefined}
          onChange={(event) => step.type(key, 'task', event.currentTarget.value)}
        >
          {!isTask(texts.task) && <option value={texts.task}>{texts.task}</option>}
          {VIEWING_TASKS.map((task) => (
            <option key={task} value={task}>
              {task}
            </option>
          ))}
        </select>
        <p class={isTask(texts.task) ? 'hint' : 'error'} id={`need-${place}-task-note`}>
          {isTask(texts.task) ? taskWords(texts.task) : understood.texts.task}
        </p>
      </div>
      <Fold
        kind="group"
        title="Reserves and wishes"
        gist={`${texts.ageing} % after ageing, ${texts.mode} % in daily mode`}
        isOpen={isOpen.value || hasHidden}
        onFold={(open) => {
          isOpen.value = open;
        }}
      >
        <div class="pair">{MORE.map(number)}</div>
      </Fold>
      <RoomAnswer understood={understood} />
      <Action onAct={() => step.drop(key)}>Remove room {place}</Action>
    </section>
  );
}

function taskWords(task: ViewingTask): string {
  const { contrast, meaning } = taskContrast(task);
  return `${contrast} to 1: ${meaning}.`;
}
