import type { Component, Scope } from '../../src/metrology/component';
import type { Model, Output } from '../../src/metrology/model';

/** A run's model under a name of its own. */
interface NamedModel {
  readonly name: string;
  readonly model: Model;
}

/** What all runs of a comparison have in common: their meter, their image, their light source with the meter, the screen. */
export type Common = readonly Exclude<Scope, 'run' | 'reading'>[];

/**
 * Several runs as one model, the long way round that the sheets of a comparison do without: a component of a
 * common scope with the same id is one and the same cause in all of them; every other one is each run's own.
 * Output ids become `run name/output id`.
 */
export function merge(runs: readonly NamedModel[], common: Common): Model {
  const components: Component[] = [];
  const shared = new Map<string, number>();
  const places = runs.map(({ name, model }) =>
    model.components.map((component) => {
      const isCommon = (common as readonly Scope[]).includes(component.scope);
      const known = isCommon ? shared.get(component.id) : undefined;
      if (known !== undefined) return known;
      if (isCommon) shared.set(component.id, components.length);
      components.push(isCommon ? component : ownTo(name, component));
      return components.length - 1;
    }),
  );
  const outputs = runs.flatMap(({ name, model }, run) =>
    model.outputs.map((output): Output => {
      const sensitivities = new Array<number>(components.length).fill(0);
      output.sensitivities.forEach((c, i) => {
        sensitivities[places[run]![i]!]! += c;
      });
      return { ...output, id: `${name}/${output.id}`, sensitivities };
    }),
  );
  return { components, outputs };
}

function ownTo(name: string, component: Component): Component {
  return {
    ...component,
    id: `${name}/${component.id}`,
    ...(component.estimate === undefined ? {} : { estimate: `${name}/${component.estimate}` }),
  };
}
