import { bad, good, invalid, type Outcome, type Problem } from '../photometry/outcome';
import type { Component, Scope } from './component';
import type { Model, Output } from './model';

/** A run's model under a name of its own. */
export interface NamedModel {
  readonly name: string;
  readonly model: Model;
}

/** What all runs of a comparison have in common: their meter, their image, their light source with the meter, the screen. */
export type Common = readonly Exclude<Scope, 'run' | 'reading'>[];

/** Bounds closer than this, relative, are the same statement typed twice. */
const SAME = 1e-9;

/**
 * Several runs as one model. A component of a common scope with the same id is one and the same cause in all
 * of them; every other one is each run's own. Output ids become `run name/output id`.
 */
export function merge(runs: readonly NamedModel[], common: Common): Outcome<Model> {
  const problems: Problem[] = [];
  if (new Set(runs.map(({ name }) => name)).size < runs.length) {
    problems.push(invalid('choice', 'runs', 'Every run of a comparison needs a name of its own.'));
  }
  const components: Component[] = [];
  const shared = new Map<string, number>();
  const places = runs.map(({ name, model }) =>
    model.components.map((component) => {
      const isCommon = (common as readonly Scope[]).includes(component.scope);
      const known = isCommon ? shared.get(component.id) : undefined;
      if (known !== undefined) {
        problems.push(...contradiction(components[known]!, component, name));
        return known;
      }
      if (isCommon) shared.set(component.id, components.length);
      components.push(isCommon ? component : ownTo(name, component));
      return components.length - 1;
    }),
  );
  if (problems.length > 0) return bad(...problems);
  const outputs = runs.flatMap(({ name, model }, run) =>
    model.outputs.map((output): Output => {
      const sensitivities = new Array<number>(components.length).fill(0);
      output.sensitivities.forEach((c, i) => {
        sensitivities[places[run]![i]!]! += c;
      });
      return { ...output, id: `${name}/${output.id}`, label: `${name}: ${output.label}`, sensitivities };
    }),
  );
  return good({ components, outputs });
}

function ownTo(name: string, component: Component): Component {
  return {
    ...component,
    id: `${name}/${component.id}`,
    label: `${name}: ${component.label}`,
    line: `${name}: ${component.line}`,
    ...(component.estimate === undefined ? {} : { estimate: `${name}/${component.estimate}` }),
  };
}

/** One thing cannot have two sizes: the same meter has one accuracy, the same image one width. */
function contradiction(first: Component, other: Component, name: string): Problem[] {
  const same = (a: number, b: number) => Math.abs(a - b) <= SAME * Math.max(Math.abs(a), Math.abs(b));
  if (same(first.u, other.u) && same(first.value, other.value)) return [];
  return [
    invalid(
      'choice',
      other.label,
      `"${other.label}" is said to be shared, but run "${name}" has ${other.value} ± ${other.halfWidth} where an earlier run has ${first.value} ± ${first.halfWidth}: not the same ${first.scope}, or a slip.`,
    ),
  ];
}
