import { useSignal } from '@preact/signals';
import { inspectionWords } from '../accept/planfields';
import { Fields } from '../components/Field';
import { FieldGroup } from '../components/FieldGroup';
import { Fold } from '../components/Fold';
import look from '../components/look.module.css';
import type { NeedStep } from './state';
import type { TenderField } from './wording';

const FIRST: readonly TenderField[] = ['standard', 'fraction', 'rule', 'units', 'aql'];

/** What the words for the tender are made from. */
export function Tender({ step }: { readonly step: NeedStep }) {
  const isOpen = useSignal(false);
  const { tender } = step;
  return (
    <Fold
      title="Words for the tender"
      gist="standard, least part, decision rule, sample"
      isOpen={isOpen.value || tender.unfit.value.some(tender.isWrong)}
      onFold={(open) => {
        isOpen.value = open;
      }}
    >
      <p class={look.quiet}>
        A draft for the largest need of all rooms. It stands on the sheet, to be edited there; no maker is
        named.
      </p>
      <Fields form={tender} ids={FIRST} />
      <FieldGroup
        form={tender}
        ids={['level', 'severity']}
        title="How the sample is drawn"
        gist={inspectionWords(tender.texts.value)}
      />
    </Fold>
  );
}
