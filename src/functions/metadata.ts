import type { FunctionRecord } from './record';
import { FUNCTIONS } from './table';

/** Excel's functions.json (learn.microsoft.com, "Manually create JSON metadata for custom functions"). */
export interface FunctionsJson {
  readonly allowErrorForDataTypeAny: true;
  readonly functions: readonly FunctionJson[];
  readonly enums: readonly EnumJson[];
}
interface FunctionJson {
  readonly id: string;
  readonly name: string;
  readonly description: string;
  readonly helpUrl?: string;
  readonly parameters: readonly ParameterJson[];
  readonly result: {
    readonly type: 'number' | 'string' | 'any';
    readonly dimensionality: 'scalar' | 'matrix';
  };
}
interface ParameterJson {
  readonly name: string;
  readonly description: string;
  readonly type: 'any' | 'string';
  readonly dimensionality: 'scalar' | 'matrix';
  readonly optional?: true;
  readonly customEnumId?: string;
}
interface EnumJson {
  readonly id: string;
  readonly type: 'string';
  readonly values: readonly { readonly name: string; readonly stringValue: string }[];
}

/**
 * The whole of functions.json from the table. Numbers are declared `any` on purpose: a typed parameter is
 * converted by Excel before it reaches us, and what cannot be converted fails without our message.
 */
export function functionsMetadata(): FunctionsJson {
  return { allowErrorForDataTypeAny: true, functions: FUNCTIONS.map(functionJson), enums: enums() };
}

function functionJson({ id, summary, params, result }: FunctionRecord): FunctionJson {
  return {
    id,
    name: id,
    description: summary,
    parameters: params.map(({ name, description, unit, isOptional, isMatrix, choices }) => ({
      name,
      description: unit ? `${description} (${unit})` : description,
      type: choices ? 'string' : 'any',
      dimensionality: isMatrix ? 'matrix' : 'scalar',
      ...(isOptional ? { optional: true as const } : {}),
      ...(choices ? { customEnumId: choices.id } : {}),
    })),
    result: {
      type: { number: 'number', text: 'string', 'number or text': 'any', table: 'any' }[result.kind] as
        | 'number'
        | 'string'
        | 'any',
      dimensionality: result.kind === 'table' ? 'matrix' : 'scalar',
    },
  };
}

function enums(): EnumJson[] {
  const found = new Map<string, readonly string[]>();
  for (const { params } of FUNCTIONS)
    for (const { choices } of params) if (choices) found.set(choices.id, choices.values);
  return [...found].map(([id, values]) => ({
    id,
    type: 'string' as const,
    values: values.map((value) => ({ name: value, stringValue: value })),
  }));
}
