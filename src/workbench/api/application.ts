import { ApiError } from '../errors';
import { ApiObject } from './object';

export class Application extends ApiObject {
  readonly typeName = 'Application';
  override readonly scalars = ['calculationMode', 'decimalSeparator', 'calculationState'];

  get calculationMode() {
    return 'Automatic';
  }
  set calculationMode(mode: string) {
    if (mode !== 'Automatic')
      throw new ApiError('ApiNotAvailable', 'The workbench always calculates by itself.');
  }
  get calculationState() {
    const { calculation, functions } = this.engine;
    return calculation.isPending || functions.later.isPending ? 'Pending' : 'Done';
  }
  get decimalSeparator() {
    return '.';
  }
  get cultureInfo() {
    return new CultureInfo(this.host);
  }
  calculate() {
    this.engine.recalculate();
  }
  /** Nothing to do: the engine draws and calculates after a batch anyway. */
  suspendApiCalculationUntilNextSync() {}
  suspendScreenUpdatingUntilNextSync() {}
}

class CultureInfo extends ApiObject {
  readonly typeName = 'CultureInfo';
  override readonly scalars = ['name'];
  get name() {
    return 'en-US';
  }
  get numberFormat() {
    return new NumberFormatInfo(this.host);
  }
}

class NumberFormatInfo extends ApiObject {
  readonly typeName = 'NumberFormatInfo';
  override readonly scalars = ['numberDecimalSeparator', 'numberGroupSeparator'];
  get numberDecimalSeparator() {
    return '.';
  }
  get numberGroupSeparator() {
    return ',';
  }
}
