import type { SetupPath } from './path';

/*
 * What a person is told who stands in the cell of a field. Apart from the table of fields, which the pane needs at once
 * and which has no cells there.
 */
const CORRECTION =
  'Factor for this colour from the meter’s certificate; 1 if unknown. Even a good meter errs by several per cent in red and blue.';
const MISMATCH = 'By which part of the reading the spectral correction of this colour may be off.';
const SIDE = 'Edge to edge of the lit image, with a tape, in the unit given.';
const TAPE = 'Tape and blurred edge, both ends together, in millimetres.';

export const FIELD_WHY: Readonly<Partial<Record<SetupPath, string>>> = {
  projector: 'What was measured, as the offer or the delivery note calls it.',
  serial: 'From the type plate. It is kept as text.',
  mode: 'Picture mode and light-source setting, as the projector’s menu calls them.',
  place: 'Where it was measured.',
  measuredBy: 'Who held the meter.',
  date: 'The day of the measurement.',
  'meter.name': 'Which illuminance meter, with its inventory or serial number.',
  'meter.unit': 'lx (lux) or fc (footcandle): what the display shows. All results are in lux and lumens.',
  'meter.digit': 'The step of the display’s last digit in the lowest range, e.g. 0.1 or 1.',
  'meter.calibratedOn': 'Date on the calibration certificate. Older than a year: the sheet says so.',
  'meter.certificate': 'Number of the calibration certificate, and the laboratory.',
  'meter.dueOn': 'Day until which the calibration counts. A run measured later says so.',
  'meter.calibration':
    'Factor from the certificate by which every reading is multiplied; 1 if none is stated.',
  'meter.corrections.white': CORRECTION,
  'meter.corrections.red': CORRECTION,
  'meter.corrections.green': CORRECTION,
  'meter.corrections.blue': CORRECTION,
  'image.known': 'Which length was measured; the others follow from the aspect ratio.',
  'image.length': SIDE,
  'image.unit': 'The unit on the tape.',
  'image.across': 'First number of the aspect ratio, e.g. 16 of 16:9; a measured width serves as well.',
  'image.down': 'Second number of the aspect ratio, e.g. 9 of 16:9; a measured height serves as well.',
  'image.top': SIDE,
  'image.right': SIDE,
  'image.bottom': SIDE,
  'image.left': SIDE,
  'image.falling': SIDE,
  'image.rising': SIDE,
  gain: 'Gain of the screen in the direction of the audience; 1 for matt white.',
  'rated.white': 'What the maker or bidder states for white. Leave empty if none is stated.',
  'rated.colour':
    'What the maker or bidder states for colour. Leave empty if none is stated: that is a question to ask.',
  'rated.minimumFraction':
    'Commonly used lower limit: 80 %. Check the edition of the standard your contract names.',
  standard: 'The standard whose white the colour balance is compared with.',
  'uncertainty.meterClass':
    'Class of DIN 5032-7:1985, if the meter has one: L, A, B or C. Used where its percentage is not known.',
  'uncertainty.ofReading': 'What the meter’s data sheet or certificate states, e.g. 3 %.',
  'uncertainty.statement':
    'A data sheet states a limit of error; a calibration certificate an expanded uncertainty with k = 2.',
  'uncertainty.f1':
    'How far the meter’s colours are off those of the eye, as its data sheet or certificate states it (general V(λ) mismatch index).',
  'uncertainty.f2':
    'How far light from the side is taken in wrongly, as the data sheet states it (directional response index, cosine error).',
  'uncertainty.light': 'The narrower the colours of the light, the more a meter reads them wrong.',
  'uncertainty.digits': 'How many steps of the last digit the data sheet adds to the percentage.',
  'uncertainty.spectral.white': MISMATCH,
  'uncertainty.spectral.red': MISMATCH,
  'uncertainty.spectral.green': MISMATCH,
  'uncertainty.spectral.blue': MISMATCH,
  'uncertainty.spectral.black': MISMATCH,
  'uncertainty.width': TAPE,
  'uncertainty.height': TAPE,
  'uncertainty.square': 'By which part the area may be off because the image is not a rectangle.',
  'uncertainty.ambient': 'Apart from the meter’s own percentage.',
  'uncertainty.placing':
    'Each reading: where the sensor is held and how it is tilted. Repeats in one place do not show it.',
  'uncertainty.repeatability':
    'Standard deviation of one reading where the meter lies still, from a meter check. It counts where no point is read twice.',
  'uncertainty.repeatabilityReadings': 'How many readings that standard deviation was found from.',
  'uncertainty.meterCheck':
    'Which check of the meter against itself gave figures here, with its day and what it found.',
  'uncertainty.linearity':
    'All readings of one field: from one range of the meter to another, and from bright fields to dim ones.',
  'uncertainty.room':
    'Walls, floor and people send a part of the image’s light back onto it; no reading in the dark shows it.',
  'uncertainty.throwDistance':
    'Throw distance, in metres. With the height of the sensor it corrects for a sensor that stands in front of the screen.',
  'uncertainty.sensorHeight': 'How far the sensor’s surface stands in front of the screen, in millimetres.',
  'uncertainty.gain':
    'By which part the gain stated in the set-up may be off. Only the luminance rests on it.',
  'uncertainty.other':
    'One cause of your own that bears on every light output alike; say in the notes what it is.',
  'uncertainty.level': '95.45 % is about two standard deviations, k = 2.',
  'uncertainty.rule':
    'Fix it before the readings (ISO/IEC 17025, 7.1.3). Guard band: how far above the limit a result must lie to pass.',
};
