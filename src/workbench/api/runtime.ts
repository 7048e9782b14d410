import { ApiObject } from './object';

export class Runtime extends ApiObject {
  readonly typeName = 'Runtime';
  override readonly scalars = ['enableEvents'];
  get enableEvents() {
    return this.host.eventsEnabled;
  }
  set enableEvents(enabled: boolean) {
    this.host.eventsEnabled = enabled;
  }
}
