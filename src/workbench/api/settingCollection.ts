import { ApiError } from '../errors';
import { ApiCollection, type ApiHost, ApiObject } from './object';

/** `workbook.settings`: key and value pairs kept with the workbook. */
export class SettingCollection extends ApiCollection<Setting> {
  readonly typeName = 'SettingCollection';
  all() {
    return [...this.engine.settings.keys()].map((key) => new Setting(this.host, key));
  }
  add(key: string, value: unknown) {
    this.engine.settings.set(key, value);
    return new Setting(this.host, key);
  }
  getItem(key: unknown) {
    if (!this.engine.settings.has(String(key))) throw new ApiError('ItemNotFound');
    return new Setting(this.host, String(key));
  }
}

class Setting extends ApiObject {
  readonly typeName = 'Setting';
  override readonly scalars = ['key', 'value'];
  constructor(
    host: ApiHost,
    readonly name: string,
  ) {
    super(host);
  }
  override identity() {
    return { _Id: this.name };
  }
  get key() {
    return this.name;
  }
  get value() {
    return this.engine.settings.get(this.name);
  }
  set value(value: unknown) {
    this.engine.settings.set(this.name, value);
  }
  delete() {
    this.engine.settings.delete(this.name);
  }
}
