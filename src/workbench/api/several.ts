import { type ApiHost, ApiObject } from './object';

/**
 * Several objects of one kind spoken to as one: what is set or called goes to each; what is read is the value
 * they share, or null where they differ, as the API answers for the areas of a range.
 */
export class Several extends ApiObject {
  readonly typeName: string;
  override readonly scalars: readonly string[];
  constructor(
    host: ApiHost,
    readonly parts: readonly ApiObject[],
  ) {
    super(host);
    this.typeName = parts[0]!.typeName;
    this.scalars = parts[0]!.scalars;
  }
  override identity() {
    return this.parts[0]!.identity();
  }
}
