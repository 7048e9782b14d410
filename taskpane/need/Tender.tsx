import { useSignal } from '@preact/signals';
import { DECISION_RULES } from '../../src/metrology/words';
import { PlanChoices } from '../accept/PlanChoices';
import { AskedEntry } from '../components/AskedEntry';
import { Choice } from '../components/Choice';
import { Entry } from '../components/Entry';
import { Fold } from '../components/Fold';
import type { NeedStep } from './state';
import type { TenderTexts } from './wording';

/** What the words for the tender are made from. */
export function Tender({ step }: { readonly step: NeedStep }) {
  const isOpen = useSignal(false);
  const texts = step.tender.value;
  const { standard, numbers, isFit } = step.understoodTender.value;
  return (
    <Fold
      title="Words for the tender"
      gist="standard, least part, decision rule, sample"
      isOpen={isOpen.value || !isFit}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <p class="quiet">
        A draft for the largest need of all rooms. It stands on the sheet, to be edited there; no maker is
        named.
      </p>
      <Entry
        id="need-standard"
        label="Measuring standard, with its year"
        value={texts.standard}
        error={standard}
        onType={(text) => step.typeTender('standard', text)}
      />
      <AskedEntry
        id="need-fraction"
        label="Least part of the rated value, %"
        hint="What a delivered unit must show. 80 is a convention, not a law."
        value={texts.fraction}
        read={numbers.fraction}
        isShown
        onType={(text) => step.typeTender('fraction', text)}
        onDecide={() => undefined}
      />
      <Wording step={step} id="rule" label="Decision rule" choices={DECISION_RULES} />
      <AskedEntry
        id="need-units"
        label="Units to be delivered"
        hint="Empty: every unit is measured."
        value={texts.units}
        read={numbers.units}
        isShown
        onType={(text) => step.typeTender('units', text)}
        onDecide={() => undefined}
      />
      <PlanChoices step="need" texts={texts} onPick={step.typeTender} />
    </Fold>
  );
}

interface WordingProps {
  readonly step: NeedStep;
  readonly id: keyof TenderTexts;
  readonly label: string;
  readonly choices: readonly string[];
}

function Wording({ step, id, label, choices }: WordingProps) {
  return (
    <Choice
      id={`need-${id}`}
      label={label}
      value={step.tender.value[id]}
      choices={choices.map((choice) => [choice, choice])}
      onPick={(choice) => step.typeTender(id, choice)}
    />
  );
}
