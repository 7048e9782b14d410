/** A page that is reached from another one, in the words of somebody who looks for it. */
export interface Entry {
  readonly id: string;
  readonly title: string;
  /** What it takes, or what there is. */
  readonly gist: string;
  /** What a person wants to find out, where the page answers such a question. */
  readonly question?: string;
}

/** The page that shows the sheet in front. */
export { SHEET_PAGE as FRONT_PAGE } from '../store/front';

/** What can be made, the six questions of a purchase first. */
export const FORMS: readonly Entry[] = [
  {
    id: 'run',
    title: 'Run',
    question: 'How bright is this projector?',
    gist: '36 readings in white and colour and a few beside them, about 8 minutes',
  },
  {
    id: 'spot',
    title: 'Spot check',
    question: 'Which of several is brighter?',
    gist: '4 readings a unit, about 1 minute each',
  },
  {
    id: 'need',
    title: 'Need',
    question: 'How much light do we need?',
    gist: 'Image size and room light of each room; words for a tender come of it',
  },
  {
    id: 'offers',
    title: 'Offers',
    question: 'Which offer is good enough?',
    gist: 'The bidders’ figures, typed or imported',
  },
  {
    id: 'lot',
    title: 'Sample of a lot',
    question: 'Did they deliver it?',
    gist: 'The serial numbers; a sample is drawn and measured',
  },
  {
    id: 'ageing',
    title: 'Ageing',
    question: 'Does it still hold?',
    gist: 'Three measurements or more of one unit, over its hours',
  },
  { id: 'batch', title: 'Batch', gist: 'Many units of one model, one row each' },
  { id: 'comparison', title: 'Comparison', gist: 'Two to twelve runs beside each other' },
  { id: 'certificate', title: 'Certificate', gist: 'One page of a run to print and sign' },
  { id: 'metercheck', title: 'Meter check', gist: 'A meter against itself, without a laboratory' },
];

/** What is about the workbook, the room or the program, and makes no sheet of its own. */
export const TOOLS: readonly Entry[] = [
  { id: 'help', title: 'Help', gist: 'Step by step, words of the field, why colour is not white' },
  { id: 'cautions', title: 'Before you measure', gist: 'Eyes, heat, mains, heights' },
  {
    id: 'fields',
    title: 'Test fields',
    gist: 'White, red, green, blue and patterns for the projector’s screen',
  },
  {
    id: 'audit',
    title: 'Trace, check, seal',
    gist: 'Follow a number, check all sheets, seal, plain copy, log',
  },
  { id: 'templates', title: 'Templates', gist: 'The set-up of a bid kept, given on, built in one go' },
  { id: 'functions', title: 'Functions', gist: 'For any cell of any sheet, each with formula and source' },
  {
    id: 'program',
    title: 'Spreadsheet program',
    gist: 'Try whether it does all that the sheets need; let the pane open by itself',
  },
];
