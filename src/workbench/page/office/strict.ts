/**
 * An object that throws on members it does not have, so that the pane cannot rely on something Excel gives
 * and the workbench forgot. `strict('Office.context', {…}).mailbox` throws and names `Office.context.mailbox`.
 */
export function strict<T extends object>(name: string, members: T): T {
  return new Proxy(members, {
    get(target, key, receiver) {
      // Symbols, `then` and `toJSON` are what the language itself asks of any object.
      if (typeof key === 'symbol' || key in target || key === 'then' || key === 'toJSON') {
        return Reflect.get(target, key, receiver);
      }
      throw new Error(`${name}.${key} is not provided by the workbench`);
    },
  });
}
