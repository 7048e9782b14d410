import { isErrorKind } from '../../sheets/book';
import { CustomFunctionError } from './functionerror';
import { GETTING_DATA } from './later';
import type { FunctionMetadata, ParameterMetadata } from './metadata';

export type Scalar = string | number | boolean;

/** Arguments of one call in the shapes the function's metadata promises. */
export class Arguments {
  /** Set when the function must not be called at all: the error to show. */
  refusal: string | undefined;
  readonly #values: unknown[] = [];
  #rows = 1;
  #columns = 1;

  constructor(
    readonly metadata: FunctionMetadata,
    given: readonly unknown[],
  ) {
    const parameters = metadata.parameters ?? [];
    const last = parameters[parameters.length - 1];
    const fixed = last?.repeating ? parameters.slice(0, -1) : parameters;
    if (!last?.repeating && given.length > parameters.length) this.refusal = '#VALUE!';
    for (const [index, parameter] of fixed.entries())
      this.#values.push(this.#shape(parameter, given[index] ?? null));
    if (last?.repeating)
      this.#values.push(given.slice(fixed.length).map((value) => this.#shape(last, value, true)));
  }

  /**
   * A range handed to a parameter that takes one value makes a table of calls, as in Excel with dynamic
   * arrays; else there is one call. Rows of columns of argument lists.
   */
  lifted(): unknown[][][] {
    return Array.from({ length: this.#rows }, (_, row) =>
      Array.from({ length: this.#columns }, (__, column) =>
        this.#values.map((value) => (value instanceof Lifted ? value.at(row, column) : value)),
      ),
    );
  }

  #shape(parameter: ParameterMetadata, value: unknown, isRepeated = false): unknown {
    if (value === null) {
      // An argument left out arrives as null (Office Add-ins documentation, "Custom functions parameter options").
      if (!parameter.optional && !isRepeated) this.refusal ??= '#VALUE!';
      return null;
    }
    const matrix = Array.isArray(value) ? (value as unknown[][]) : [[value]];
    const converted = matrix.map((line) => line.map((cell) => this.#convert(parameter, cell)));
    if (parameter.dimensionality === 'matrix') return converted;
    if (converted.length === 1 && converted[0]!.length === 1) return converted[0]![0];
    if (isRepeated) return converted[0]?.[0];
    this.#rows = Math.max(this.#rows, converted.length);
    this.#columns = Math.max(this.#columns, converted[0]?.length ?? 0);
    return new Lifted(converted);
  }

  #convert({ type = 'any' }: ParameterMetadata, value: unknown): unknown {
    // A function waits for what it is to be called with.
    if (value === GETTING_DATA) {
      this.refusal = GETTING_DATA;
      return value;
    }
    if (isErrorKind(value)) {
      const { allowErrorForDataTypeAny = this.metadata.options?.allowErrorForDataTypeAny } = this.metadata;
      if (type === 'any' && allowErrorForDataTypeAny === true) return new CustomFunctionError(value);
      this.refusal ??= '#VALUE!';
      return value;
    }
    // A blank cell is 0, whatever the type, as in Excel (OfficeDev/office-js issue 1951).
    const cell = value ?? 0;
    if (type === 'number') return this.#number(cell);
    if (type === 'string') return typeof cell === 'boolean' ? String(cell).toUpperCase() : String(cell);
    if (type === 'boolean') return this.#boolean(cell);
    return cell;
  }
  #number(value: unknown): unknown {
    const number = typeof value === 'string' && value.trim() === '' ? Number.NaN : Number(value);
    if (!Number.isFinite(number)) this.refusal ??= '#VALUE!';
    return number;
  }
  #boolean(value: unknown): unknown {
    if (typeof value === 'boolean') return value;
    if (typeof value === 'number') return value !== 0;
    if (typeof value === 'string' && /^(true|false)$/i.test(value)) return value.toLowerCase() === 'true';
    this.refusal ??= '#VALUE!';
    return value;
  }
}

class Lifted {
  constructor(readonly matrix: readonly (readonly unknown[])[]) {}
  /** A single row or column is used again for every row or column, as Excel does. */
  at(row: number, column: number): unknown {
    const line = this.matrix[this.matrix.length === 1 ? 0 : row];
    return line?.[line.length === 1 ? 0 : column] ?? '#N/A';
  }
}
