import * as v from 'valibot';
import { defaultRunSetup, type RunSetup } from '../sheets/runsetup';
import { sidesProblem } from '../sheets/setup/sides';
import { fields, list } from '../template/fields';
import { sentence } from '../template/read';
import { MEASURING, METER, RULE, UNCERTAINTY } from '../template/schema';
import { maybe, usually } from '../template/setupfield';
import { Failure } from './failure';

/** A run: what a template says of all its runs, and what is of this one alone. */
const RUN = fields({
  projector: usually('projector'),
  serial: usually('serial'),
  mode: usually('mode'),
  place: usually('place'),
  measuredBy: usually('measuredBy'),
  date: usually('date'),
  meter: v.optional(METER, {}),
  ...MEASURING,
  rated: v.optional(
    fields({
      white: maybe('rated.white'),
      colour: maybe('rated.colour'),
      minimumFraction: usually('rated.minimumFraction'),
    }),
    {},
  ),
  uncertainty: v.optional(fields({ ...UNCERTAINTY, ...RULE }), {}),
});

/** More runs than one file of ours is for. */
const RUNS_MAX = 50;
const FILE = fields({ runs: list(RUN, RUNS_MAX, 1) });

/** A set-up file's contents → complete set-ups, defaults filled in. @throws Failure that names every wrong entry */
export function readSetups(json: unknown, path: string): RunSetup[] {
  if (Array.isArray(json)) {
    throw new Failure(`${path} is not a set-up but a list.`, 'Several runs go into {"runs": [...]}.');
  }
  const isList = typeof json === 'object' && json !== null && 'runs' in json;
  const result = v.safeParse(FILE, isList ? json : { runs: [json] });
  const problems = result.success
    ? result.output.runs.flatMap(({ image }, i) => {
        const problem = sidesProblem(image);
        return problem === undefined ? [] : [`runs[${i}].image: ${problem}`];
      })
    : result.issues.map(sentence);
  if (result.success && problems.length === 0)
    return result.output.runs.map((run) => ({ ...run, image: run.image ?? defaultRunSetup().image }));
  // A file of one run knows of no list.
  const wrong = problems.map((said) =>
    isList ? said : said.replace(/^runs\[0\]\.?/, '').replace(/^:/, 'the whole file:'),
  );
  throw new Failure(`${path} is not a set-up. ${wrong.join(' ')}`, 'light build --help shows an example.');
}
