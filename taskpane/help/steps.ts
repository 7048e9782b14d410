/** A page of help: what a page of the pane is for, how it is gone through, and what comes of it. */
export interface Step {
  /** Of the page of the pane that it explains. */
  readonly page: string;
  readonly title: string;
  readonly what: string;
  /** What to have at hand. */
  readonly needs?: string;
  readonly how: readonly string[];
  readonly after: string;
  /** Words it takes for granted, as the list of terms has them. */
  readonly terms: readonly string[];
}

export const STEPS: readonly Step[] = [
  {
    page: 'need',
    title: 'How much light a room needs',
    what: 'From the size of the image, the light of the room and what people do there, the lumens to ask for.',
    needs: 'A tape measure, and a meter held flat on the screen with lamps and blinds as they will be.',
    how: [
      'Type the image and the light on the screen of each room, and choose what is done there.',
      'Open the reserves if lamps are changed late, or if a quiet mode will be used.',
      'Build the sheet. Its words for the tender can be changed before they are copied.',
    ],
    after: 'The offers are held against the largest need of the sheet.',
    terms: ['Ambient light', 'Contrast', 'Screen gain', 'Light output, lumen', 'Colour light output'],
  },
  {
    page: 'offers',
    title: 'Which offer is good enough',
    what: 'What bidders state, against what is needed, with the cost over the years and what to ask back.',
    needs: 'The bids. A table of them can be imported as it is.',
    how: [
      'The figures asked for come from a need sheet, or are typed.',
      'Type the offers, or paste a table: every line that cannot be read is named with its reason.',
      'A figure that is missing is a question to the bidder; the questions can be copied.',
      'Choose one on the sheet or in the pane.',
    ],
    after: 'The limits of the delivery follow the offer chosen.',
    terms: ['Colour light output', 'White light output', 'Least part'],
  },
  {
    page: 'run',
    title: 'How bright a projector is',
    what: 'One projector in one mode: its light in lumens, in white and in colour, with ± and a decision.',
    needs: 'A meter, a tape, a dark room, and the test fields on the screen.',
    how: [
      'Let the projector warm up, switch off what changes its light, and make the image square.',
      'Fill in the unit and one length of the image; the rest has usual values that can stay.',
      'Take the readings one by one in the window, type them into the framed cells, or paste a block.',
      'Look at the largest cause of doubt: a figure from the meter’s data sheet often makes it much smaller.',
    ],
    after: 'A certificate, a comparison with other runs, or the acceptance of a lot.',
    terms: [
      'Measuring points',
      'Net reading',
      'Range factor',
      'Over range',
      'Ambient light',
      'Drift',
      'Expanded uncertainty U',
    ],
  },
  {
    page: 'spot',
    title: 'Which of several is brighter',
    what: 'One reading at the centre of each unit, at one place and one image size.',
    needs: 'Two to twelve units that can be put in the same place.',
    how: [
      'List the units, one a line.',
      'Read white, red, green and blue of each without moving meter or projector stand.',
      'Differences of a few per cent mean nothing here: measure those units in full.',
    ],
    after: 'A full run of the brightest opens with its name filled in.',
    terms: ['Spot check', 'Colour to white', 'Ambient light'],
  },
  {
    page: 'batch',
    title: 'Many units of one model',
    what: 'One row a unit, all with the same mode, meter and image: light output and decision of each.',
    needs: 'The serial numbers; the drawn ones of a lot are filled in.',
    how: [
      'Build the sheet from the list; lines to spare take units that come later.',
      'Read unit after unit in the window, or paste the log of the meter.',
      'The ambient light that holds for all is one cell; a button leads there.',
      'The selected row is the unit that the pane shows.',
    ],
    after: 'The results are linked into the acceptance of the lot.',
    terms: ['Sample', 'Ambient light', 'Expanded uncertainty U'],
  },
  {
    page: 'lot',
    title: 'Whether they delivered it',
    what: 'How many units of a delivery to measure, which ones, and whether all may be accepted.',
    needs: 'The serial number of every unit, and a seed that nobody could choose, such as four dice.',
    how: [
      'Paste the list before the seed is known, then type the seed.',
      'Anybody gets the same sample from the same list and seed.',
      'Measure the units drawn, as a batch or as runs, and link their results.',
    ],
    after: 'Accepted, rejected, or what is still to be measured; a unit that fails opens as a run.',
    terms: ['AQL, acceptance quality limit', 'Acceptance number', 'Sample', 'Decision rule', 'Guard band'],
  },
  {
    page: 'comparison',
    title: 'Which of several runs really differ',
    what: 'Two to twelve runs side by side. What they share, such as the meter, counts once.',
    needs: 'Run sheets with their readings complete.',
    how: [
      'Tick the runs. Say where one meter or one image was used for several.',
      'Read the pairs: different means by more than the doubt of the difference.',
    ],
    after: 'Not distinguishable does not mean equal: this measurement cannot tell them apart.',
    terms: ['Expanded uncertainty U', 'Run'],
  },
  {
    page: 'certificate',
    title: 'The certificate of a run',
    what: 'One page to print and sign. It is linked to its run and says DRAFT or CHANGED by itself.',
    how: [
      'Choose the run, and who issues it.',
      'Print it from the spreadsheet program; it is one page in A4 and Letter.',
      'Seal run and certificate before they are handed out.',
    ],
    after: 'It is complete once results, meter, person and day are there.',
    terms: ['Seal', 'Decision rule'],
  },
  {
    page: 'ageing',
    title: 'Whether it still holds',
    what: 'Measurements of one unit over the hours of its light source: when the room’s need will no longer be met.',
    needs: 'At least three measurements in the same mode, with the hours from the projector’s menu.',
    how: [
      'Take results from runs or type them; give each the hours.',
      'Read the interval, not the middle: with few measurements it is wide, or has no end.',
      'Measure again when the sheet says.',
    ],
    after: 'Nothing is said beyond six times the hours that were observed.',
    terms: ['Light output, lumen', 'Expanded uncertainty U'],
  },
  {
    page: 'metercheck',
    title: 'What a meter can be trusted for',
    what: 'A meter against itself, without a laboratory: whether it repeats, adds up, and agrees from range to range.',
    needs: 'The meter, a steady lamp or projector, and a quarter of an hour.',
    how: [
      'Fill in the meter, and choose what is checked.',
      'Follow the sheet from line to line; it says what to change and what to leave.',
      'Take what it finds into the runs that are made with this meter.',
    ],
    after:
      'It finds faults that come and go with range and level, not one that is the same everywhere: that takes a calibration.',
    terms: ['Range factor', 'Over range', 'Calibration factor', 'Expanded uncertainty U'],
  },
  {
    page: 'templates',
    title: 'The set-up of a bid, kept',
    what: 'Rooms, limits, meter, rules and words of a bid, without its readings, to build its sheets again.',
    how: [
      'Save one from the sheets of this workbook; it is kept in the workbook and can be given on as a file.',
      'Import one and look through what it would build.',
      'Build the linked sheets in one go.',
    ],
    after: 'A template from outside is read with care: what it does not know is refused.',
    terms: ['Sample', 'Least part'],
  },
  {
    page: 'audit',
    title: 'Trace, check and seal',
    what: 'Where a number comes from, whether everything is as it was built, and whether anything changed since.',
    how: [
      'Select a result and trace it: down to each reading, with the formula and its source.',
      'Check a sheet or the whole workbook: the answer begins with yes or no.',
      'Seal what is finished. To go on with it, open it again; the log says so.',
      'Make a plain copy for those without this add-in.',
    ],
    after: 'A finding says where, what was expected and what is there, with a way to the cell.',
    terms: ['Seal', 'Plain formula'],
  },
  {
    page: 'fields',
    title: 'Test fields',
    what: 'White, red, green, blue, black and patterns on the exact pixels of the projector.',
    how: [
      'Open them and drag the window to the projector’s screen, then full screen.',
      'Or save them as pictures for a USB stick.',
      'During capture the field follows the reading that is asked for.',
    ],
    after: 'Switch off what sharpens, widens or corrects the picture.',
    terms: ['Tiled patterns', 'Measuring points'],
  },
];
