import type { Offer, UsePlan } from '../../procurement/offers/offer';
import { defaultRoom, type RoomSetup } from '../need';

/*
 * A regional library network fits out its reading rooms. Rooms, bidders, prices and all other figures here are
 * invented: they are what people of such a network would type. What follows from them is computed.
 */

/** Name, image width in metres (16:10), the room's own light on the screen in lux, and what else is particular. */
const ROOMS: readonly (readonly [string, number, number, Partial<RoomSetup>?])[] = [
  ['Hillside', 2, 40],
  ['Oldmarket', 2.2, 38],
  ['Riverbend', 1.8, 45],
  ['Mill Lane', 1.6, 60],
  ['North Quay', 2, 35],
  ['Orchard', 1.8, 50],
  ['Lantern Square', 2.4, 30],
  ['Ferry Road', 1.6, 55],
  // A screen that sends more light to the front: the wanted luminance is reached with less.
  ['Upper Weir', 2.2, 35, { gain: 1.2, luminance: 120 }],
  ['Sandpit', 1.6, 40],
  ['Chapel Green', 2, 42],
  // Maps and old prints are read here: darkened, but with a higher contrast.
  ['Harbour Steps', 1.8, 12, { task: 'analytical decision making' }],
  ['Foxglove', 2, 30, { luminance: 150 }],
  ['Long Meadow', 2.4, 28],
];

export const EXAMPLE_ROOMS: readonly RoomSetup[] = ROOMS.map(([name, width, ambient, rest]) => ({
  ...defaultRoom(name),
  width,
  height: width / 1.6,
  ambient,
  ownContrast: 800,
  ...rest,
}));

/** Five years, a reading room's opening hours with some of them in use. */
export const EXAMPLE_USE: UsePlan = { years: 5, hoursPerYear: 1200, tariff: 0.32, currency: 'EUR' };

const STANDARD = 'ISO/IEC 21118:2020';

/** One meets the need, one is bright in white only, one leaves its colour out, one is too dark, one costs more to run. */
export const EXAMPLE_OFFERS: readonly Offer[] = [
  {
    bidder: 'Bidder North (invented)',
    white: 3300,
    colour: 3300,
    standard: STANDARD,
    price: 890,
    currency: 'EUR',
    power: 255,
    sourceLife: 20_000,
    warranty: 5,
  },
  {
    bidder: 'Bidder East (invented)',
    white: 3600,
    colour: 1900,
    standard: STANDARD,
    price: 720,
    currency: 'EUR',
    power: 230,
    sourceLife: 5000,
    sourcePrice: 95,
    warranty: 2,
  },
  {
    bidder: 'Bidder South (invented)',
    white: 3400,
    price: 760,
    currency: 'EUR',
    power: 240,
    sourceLife: 6000,
    sourcePrice: 110,
    warranty: 3,
  },
  {
    bidder: 'Bidder West (invented)',
    white: 2900,
    colour: 2900,
    standard: STANDARD,
    price: 690,
    currency: 'EUR',
    power: 215,
    sourceLife: 20_000,
    warranty: 3,
  },
  {
    bidder: 'Bidder Centre (invented)',
    white: 3500,
    colour: 3400,
    standard: STANDARD,
    price: 980,
    currency: 'EUR',
    power: 310,
    sourceLife: 4000,
    sourcePrice: 140,
    warranty: 3,
  },
];

/** The offer that was taken: its rated values are what the delivery is held against. */
export const TAKEN = EXAMPLE_OFFERS[0]!;

/** Least part of the rated value that a delivered unit must show: a convention, named in the tender. */
export const LEAST_PART = 0.8;

export const EXAMPLE_AQL = 2.5;

/** Invented people. */
export const MEASURER = 'A. Person (invented)';
export const ISSUER = 'Regional library network (invented)';
