/**
 * Reads the lines of a trace the way a person with a pocket calculator does: `mean(609; 653) × 1.6`,
 * `[1; 2] ^ 2`, `√(…)`, `−0.3`. It shares no code with what writes them.
 */
type Vector = number | number[];

const FUNCTIONS: Readonly<Record<string, (args: Vector[]) => number>> = {
  mean: (args) => total(args) / numbers(args).length,
  sum: (args) => total(args),
  smallest: (args) => Math.min(...numbers(args)),
  largest: (args) => Math.max(...numbers(args)),
  'sum of squares': (args) => numbers(args).reduce((s, x) => s + x * x, 0),
  'sum of squared deviations': (args) => {
    const middle = total(args) / numbers(args).length;
    return numbers(args).reduce((s, x) => s + (x - middle) ** 2, 0);
  },
  '√': ([x]) => Math.sqrt(x as number),
  'whole part': ([x]) => Math.floor(x as number),
  rounded: ([x, digits]) => Number((x as number).toFixed(digits as number)),
  size: ([x]) => Math.abs(x as number),
  'how often': ([list, x]) => [list].flat().filter((each) => each === x).length,
  exp: ([x]) => Math.exp(x as number),
};
const numbers = (args: Vector[]) => args.flat();
const total = (args: Vector[]) => numbers(args).reduce((a, b) => a + b, 0);

/** The number a line stands for; undefined if it uses a function a pocket calculator lacks. */
export function reckon(line: string): number | undefined {
  if (/LIGHT\.|"|Student|normal|tail of/.test(line)) return undefined;
  const pieces = line.match(/\d+(?:\.\d+)?(?:e[+−]?\d+)?|[×÷+−^()[\];π]|√|[a-z][a-z ]*(?=\()/g) ?? [];
  if (pieces.join('') !== line.replace(/ (?=[×÷+−^])|(?<=[×÷+−^;]) /g, ''))
    throw new Error(`Cannot read: ${line}`);
  let at = 0;
  const each = (a: Vector, b: Vector, f: (x: number, y: number) => number): Vector => {
    if (Array.isArray(a)) return a.map((x, i) => f(x, Array.isArray(b) ? b[i]! : b));
    return Array.isArray(b) ? b.map((y) => f(a, y)) : f(a, b);
  };
  const list = (end: string): Vector[] => {
    const found: Vector[] = [];
    while (pieces[at] !== end) {
      found.push(sum());
      if (pieces[at] === ';') at++;
    }
    at++;
    return found;
  };
  const atom = (): Vector => {
    const piece = pieces[at++]!;
    if (piece === '−') return each(0, power(), (_, x) => -x);
    if (piece === '(') {
      const inside = sum();
      at++;
      return inside;
    }
    if (piece === '[') return list(']') as number[];
    if (piece === 'π') return Math.PI;
    if (/^\d/.test(piece)) return Number(piece.replace('−', '-'));
    at++;
    return FUNCTIONS[piece]!(list(')'));
  };
  const power = (): Vector => {
    let left = atom();
    while (pieces[at] === '^') {
      at++;
      left = each(left, atom(), (x, y) => x ** y);
    }
    return left;
  };
  const product = (): Vector => {
    let left = power();
    while (pieces[at] === '×' || pieces[at] === '÷') {
      const isTimes = pieces[at++] === '×';
      left = each(left, power(), (x, y) => (isTimes ? x * y : x / y));
    }
    return left;
  };
  const sum = (): Vector => {
    let left = product();
    while (pieces[at] === '+' || pieces[at] === '−') {
      const isPlus = pieces[at++] === '+';
      left = each(left, product(), (x, y) => (isPlus ? x + y : x - y));
    }
    return left;
  };
  return sum() as number;
}
