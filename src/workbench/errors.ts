/**
 * Refusals in Excel's own codes and words, from the public article "Error handling with the
 * application-specific JavaScript APIs" (Office Add-ins documentation).
 */
export type ApiErrorCode =
  | 'AccessDenied'
  | 'ApiNotAvailable'
  | 'GeneralException'
  | 'InvalidArgument'
  | 'InvalidObjectPath'
  | 'InvalidOperation'
  | 'InvalidOperationInCellEditMode'
  | 'InvalidReference'
  | 'InvalidSelection'
  | 'ItemAlreadyExists'
  | 'ItemNotFound';

const MESSAGES: Readonly<Record<ApiErrorCode, string>> = {
  AccessDenied: 'You cannot perform the requested operation.',
  ApiNotAvailable: 'The requested API is not available.',
  GeneralException: 'There was an internal error while processing the request.',
  InvalidArgument: 'The argument is invalid or missing or has an incorrect format.',
  InvalidObjectPath: 'The object path is not valid for what you are trying to do.',
  InvalidOperation: 'The operation attempted is invalid on the object.',
  InvalidOperationInCellEditMode:
    "The operation isn't available while Excel is in Edit cell mode. Exit Edit mode by using the Enter or Tab keys, or by selecting another cell, and then try again.",
  InvalidReference: 'This reference is not valid for the current operation.',
  InvalidSelection: 'The current selection is invalid for this operation.',
  ItemAlreadyExists: 'The resource being created already exists.',
  ItemNotFound: "The requested resource doesn't exist.",
};

const STATUS: Readonly<Partial<Record<ApiErrorCode, number>>> = {
  AccessDenied: 401,
  GeneralException: 500,
  InvalidOperationInCellEditMode: 409,
  ItemAlreadyExists: 409,
  ItemNotFound: 404,
  ApiNotAvailable: 404,
};

/** What the client library turns into its own `RichApi.Error`. `detail` is added to Excel's sentence. */
export class ApiError extends Error {
  readonly status: number;
  constructor(
    readonly code: ApiErrorCode,
    detail = '',
    /** `Range.values`, `WorksheetCollection.getItem`: what was being called. */
    public location = '',
  ) {
    super(detail ? `${MESSAGES[code]} ${detail}` : MESSAGES[code]);
    this.name = 'ApiError';
    this.status = STATUS[code] ?? 400;
  }
}

/** Any error → Excel's. A fault of ours is its GeneralException, with the cause for whoever mends it. */
export function apiError(error: unknown): ApiError {
  if (error instanceof ApiError) return error;
  return new ApiError(
    'GeneralException',
    error instanceof Error ? (error.stack ?? error.message) : String(error),
  );
}
