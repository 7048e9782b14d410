import type { Sheet } from './sheet';

/** Placeholder until the browser's plug-ins are driven. */
export class Mirror {
  schedule(_sheet: Sheet): void {}
}
