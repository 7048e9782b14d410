import { bad, good, invalid, type Outcome } from '../photometry/outcome';
import type { Output } from './model';

type Naming = Pick<Output, 'id' | 'label' | 'unit'>;

function combine(naming: Naming, value: number, a: Output, b: Output, wa: number, wb: number): Output {
  const sensitivities = a.sensitivities.map((each, i) => wa * each + wb * b.sensitivities[i]!);
  return { id: naming.id, label: naming.label, unit: naming.unit, value, sensitivities };
}

/** a + b of the same model; what they share adds before it is squared. */
export function sum(naming: Naming, a: Output, b: Output): Output {
  return combine(naming, a.value + b.value, a, b, 1, 1);
}

/** a ÷ b of the same model; common factors cancel. b must not be 0. */
export function ratio(naming: Naming, a: Output, b: Output): Outcome<Output> {
  if (b.value === 0) {
    return bad(
      invalid('not-defined', naming.label, `The ${naming.label} is not defined: ${b.label} is 0 ${b.unit}.`),
    );
  }
  return good(combine(naming, a.value / b.value, a, b, 1 / b.value, -a.value / b.value ** 2));
}
