import { type RunModel, runModel } from '../../metrology/run/model';
import { chain, good, type Outcome } from '../../photometry/outcome';
import type { RunSetup } from '../../sheets/runsetup';
import type { SheetView } from '../view';
import { Readings } from './readings';
import { sizeOf } from './run';
import { inputOf } from './uncertainty';

/** The uncertainty model of a run sheet, from its readings and set-up. */
export interface SheetModel {
  readonly model: RunModel;
  /** True area ÷ (width × height), by which lumens of the model are to be multiplied. */
  readonly areaScale: number;
}

export function modelOf(view: SheetView, setup: RunSetup): Outcome<SheetModel> {
  return chain(sizeOf(setup), (size) =>
    chain(inputOf(setup, new Readings(view, setup), size), (input) =>
      chain(runModel(input), (model) => good({ model, areaScale: size.area / (size.width * size.height) })),
    ),
  );
}
