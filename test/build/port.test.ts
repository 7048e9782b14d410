import { expect, test } from 'vitest';
import { portFromEnvironment } from '../../src/build/serve';

test.each([
  [undefined, 3210],
  ['8080', 8080],
])('PORT %s gives %i', (given, port) => {
  expect(portFromEnvironment(given)).toBe(port);
});
test.each(['0', '70000', 'abc', '80.5', ''])('PORT "%s" is refused', (given) => {
  expect(() => portFromEnvironment(given)).toThrow('whole number from 1 to 65535');
});
