/** The parts of Excel's `functions.json` that decide how a function is called. */
export interface FunctionsJson {
  /** Errors in cells reach parameters of type `any` (Office Add-ins documentation, "Manually create JSON metadata"). */
  readonly allowErrorForDataTypeAny?: boolean;
  readonly functions: readonly FunctionMetadata[];
}
export interface FunctionMetadata {
  readonly id: string;
  readonly name: string;
  readonly description?: string;
  readonly parameters?: readonly ParameterMetadata[];
  readonly result?: { readonly type?: string; readonly dimensionality?: string };
  readonly options?: Readonly<Record<string, unknown>>;
  readonly allowErrorForDataTypeAny?: boolean;
}
export interface ParameterMetadata {
  readonly name: string;
  readonly type?: string;
  readonly dimensionality?: string;
  readonly optional?: boolean;
  readonly repeating?: boolean;
}
