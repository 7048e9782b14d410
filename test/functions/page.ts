import { FUNCTIONS, NAMESPACE } from '../../src/functions/table';

/** The page about the custom functions that stands beside them (`src/functions/README.md`), in Markdown. Generated, so that it cannot drift. */
export function functionPage(): string {
  return `${HEAD}${functionTableMarkdown()}\n`;
}

/** The table of custom functions, one row a function. */
export function functionTableMarkdown(): string {
  const rows = FUNCTIONS.map(({ id, summary, params, result, formula, source }) => {
    const names = params.map(({ name, isOptional }) => (isOptional ? `[${name}]` : name)).join(', ');
    return [`\`${NAMESPACE}.${id}(${names})\``, summary, result.unit, formula, source];
  });
  return table([['Function', 'What it gives', 'Unit', 'Formula', 'Source'], ...rows]);
}

function table([head, ...rows]: readonly (readonly string[])[]): string {
  return [head!, head!.map(() => '---'), ...rows]
    .map((cells) => `| ${cells.map((cell) => cell.replace(/\|/g, '\\|')).join(' | ')} |`)
    .join('\n');
}

const HEAD = `# Custom functions

<!-- Made from the records in this folder by \`UPDATE=1 npx vitest run --project node test/functions/registry.test.ts\`. -->

In a cell: \`=LIGHT.OUTPUT(B12:D14, 1.44)\`. Bad input gives \`#VALUE!\`, a missing reading \`#N/A\`, both with a sentence behind the cell's error flag that says where, what was expected and what came. Excel hands an empty cell to a function as 0, so a reading of 0 counts as missing wherever 0 cannot be a reading.

## What is measured, and by which definition

${table([
  ['result', 'definition'],
  ['white, red, green, blue light output, lm', 'mean of nine net illuminances × image area'],
  ['colour light output, lm', 'red + green + blue, from full fields or from three tiled patterns'],
  [
    'colour to white ratio',
    'colour ÷ white light output: about 1 where the primaries add up; clearly below 1 where light is added to white only',
  ],
  ['colour balance', 'shares of red, green and blue, beside those of a named signal standard'],
  ['uniformity', 'min ÷ max and min ÷ mean of nine; deviations of thirteen points; corners ÷ centre'],
  ['contrast', 'sequential and checkerboard, net and as seen; black too dark for the meter gives "at least"'],
  ['luminance, cd/m² and fL', 'mean white illuminance × screen gain ÷ π'],
])}

A net illuminance is the number on the display × range factor × unit × calibration, less ambient; what is left × spectral correction and factor for the sensor's place, which are for the projector's light alone. The nine-point mean is a convention, not the integral over the image. Sources stand with each function below, in each result's cell note and beside each check value in \`test/\`.

## The functions

`;
