/** A fraction in the sheet's words: 0.005 is `0.5 %`. */
export const percent = (fraction: number) => `${Number((100 * fraction).toPrecision(6))} %`;
